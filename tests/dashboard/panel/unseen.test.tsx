import { describe, expect, it } from 'vitest';
import { Panel } from '../../../dashboard/panel/panel.tsx';
import { views } from '../views/views.ts';
import { drawn, read } from './drawn.tsx';

const front = <Panel position="front" />;

describe('a panel at rest', () => {
  it('tells its pockets apart and counts them while the line is seen', () => {
    expect(read(front, views.quiet)).toContain('2 pockets not loaded here in the last 100, 17 this shift');
    expect(drawn(front, views.quiet)).not.toContain('fill="url(#unseen)" stroke="var(--ink3)"');
    expect(drawn(front, views.quiet)).toContain('aria-label="loading front: 2 pockets not loaded here');
  });

  it('shows as of when what it shows was true, while that is less than a minute ago', () => {
    expect(read(front, views.stale)).toContain('as read 10:42:09');
    expect(drawn(front, views.stale)).toContain('class="panelbody stale"');
  });

  it('says no data, draws no pocket as if it were seen, and puts no time or target under it after that', () => {
    const words = read(front, views.lost);
    expect(words).toContain('no data');
    expect(words).toContain('No pocket seen since 09:24:02: no data');
    expect(words).not.toMatch(/not loaded here|as read|target|newest/);
    const markup = drawn(front, views.lost);
    expect(markup).toContain('class="panelbody stale gone"');
    expect(markup).not.toContain('fill="var(--board)" stroke="var(--cut)" stroke-width="1.3"');
  });
});
