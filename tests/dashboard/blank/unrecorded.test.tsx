import { describe, expect, it } from 'vitest';
import type { LineView } from '../../../model/view/view.ts';
import { written } from '../draw.tsx';
import { Panel } from '../../../dashboard/panel/panel.tsx';
import { read } from '../panel/drawn.tsx';
import { views } from '../views/views.ts';

const layouts = ['wall', 'desk', 'phone'] as const;
const since = views.lost.sight.lastAt!;
const notRecorded = {
  kind: 'notRecorded',
  since,
  what: 'There is no room.',
  mend: 'Make room on the disk.',
} as const;

/** The same as when the PLC is silent, but it is not. */
function unrecorded(view: LineView): LineView {
  return {
    ...view,
    sight: { ...view.sight, unrecordedSince: since },
    matters: [notRecorded, ...view.matters],
  };
}

describe.each(layouts)('a line of which nothing can be recorded, on the %s', (layout) => {
  it('says so at once, with how to mend it', () => {
    const words = written(layout, unrecorded(views.quiet));
    expect(words).toContain('Nothing can be recorded since 09:24:02');
    expect(words).toContain('Make room on the disk.');
    expect(words).not.toContain('Nobody is needed');
  });

  it('blames nobody who is heard, however old what it shows is', () => {
    for (const view of [views.stale, views.lost]) {
      const words = written(layout, unrecorded(view));
      expect(words).toMatch(/Nothing can be recorded/);
      expect(words).not.toMatch(/PLC sends nothing|PLC has sent nothing/);
      expect(written(layout, view)).toMatch(/PLC sends nothing|PLC has sent nothing|Nothing read since/);
    }
  });

  it('says that the gateway is silent where it is', () => {
    expect(written(layout, unrecorded(views.quiet), 20_000)).toMatch(/gateway (does|has) not answer/);
  });
});

it('a line-side panel says so, too', () => {
  expect(read(<Panel position="front" />, unrecorded(views.stale))).toMatch(/nothing can be recorded/i);
});
