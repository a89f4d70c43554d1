import { describe, expect, it } from 'vitest';
import type { LineView } from '../../../model/view/view.ts';
import { drawn, type Layout } from '../draw.tsx';
import { views } from '../views/views.ts';

const { long, lost, pressed, quiet, stale, starved, stopped } = views;

/** What the page tells by itself to those who listen: what its polite regions about the line hold. */
function told(layout: Layout, view: LineView, silent = 0): readonly (string | undefined)[] {
  return [...drawn(layout, view, silent).matchAll(/<p[^>]*aria-live="polite"[^>]*>([^<]*)<\/p>/g)].map(
    ([, text]) => text,
  );
}

/** The head in sentences, one for each panel. */
function spoken(view: LineView, silent = 0): readonly string[] {
  const list = /<ul class="unseen">(.*?)<\/ul>/.exec(drawn('desk', view, silent))?.[1] ?? '';
  return [...list.matchAll(/<li>(.*?)<\/li>/g)].map(([, sentence = '']) => sentence);
}

describe.each(['wall', 'desk', 'phone'] as const)('those who listen to the %s', (layout) => {
  it('are told once that a stop began, that a device is latched in, that nothing is seen', () => {
    expect(told(layout, quiet)).toEqual(['Running']);
    expect(told(layout, stopped)).toEqual(['Stopped, Tuck jam at bottom major flap, third in 20 minutes']);
    expect(told(layout, starved)).toEqual(['Starved, no sachets at loading']);
    expect(told(layout, pressed)[0]).toContain('Emergency stop latched in, Loading front, pressed 10:40:10');
    expect(told(layout, lost)).toEqual(['The line is not seen']);
    expect(told(layout, quiet, 70_000)).toEqual(['The line is not seen']);
  });

  it('are not told so again every second', () => {
    for (const view of Object.values(views))
      expect(new Set([0, 1_000, 2_000].map((silent) => told(layout, view, silent).join())).size).toBe(1);
  });
});

describe('the drawn head in sentences', () => {
  it('says what its four panels say', () => {
    const [state, rate, plan, changeover] = spoken(stopped);
    expect(state).toContain('Stopped 2 min 14 s, Tuck jam at bottom major flap');
    expect(state).toContain('Nobody has said they are going');
    expect(rate).toContain('good cartons per minute: 0, 39 in the minute before, target 44');
    expect(plan).toContain('8,885 good of 18,480 planned, 1,333 behind plan, 2,380 short at 14:00');
    expect(plan).toContain('likely 1,920 to 2,840 short');
    expect(changeover).toMatch(/from Sachet 20, at rate after 41 min, 10:42, read 1 s ago$/);
  });

  it('says what is not known, and when what is shown was read', () => {
    expect(spoken(lost)[1]).toContain('no data, the last minute was not seen');
    expect(spoken(lost)[2]).toContain('as read 09:24:02, Finish not known');
    expect(spoken(stale)[1]).toContain('at 10:42:09');
  });

  it('has no marks of bold, and stands in place of the drawing', () => {
    for (const view of [stopped, long, pressed]) {
      expect(spoken(view).join()).not.toContain('**');
      expect(drawn('wall', view)).toMatch(/class="head( stale)?" aria-hidden="true"/);
    }
  });
});
