import { describe, expect, it } from 'vitest';
import type { LineView } from '../../../model/view/view.ts';
import { written } from '../draw.tsx';
import { views } from '../views/views.ts';

const layouts = ['wall', 'desk', 'phone'] as const;
const { lost, quiet, stale, stopped } = views;

/** The last view of a gateway that ended in good order: read a second ago, and nobody looks any more. */
const ended: LineView = {
  ...quiet,
  head: { kind: 'unknown', since: quiet.at, isolatedLikely: false },
};

describe.each(layouts)('a line whose gateway has ended, on the %s', (layout) => {
  it('is not seen from the first second on, and the time since then goes on', () => {
    for (const [silent, long] of [
      [0, '0 s'],
      [20_000, '20 s'],
      [185_000, '3 min'],
    ] as const)
      expect(written(layout, ended, silent)).toContain(`Not seen for ${long}`);
  });

  it('has no rate, no finish and no rate that is needed, however short that is ago', () => {
    for (const silent of [0, 20_000, 59_000]) {
      const words = written(layout, ended, silent);
      expect(words).toContain('no data');
      expect(words).not.toMatch(/no data at|of 44|per minute\s+needed|Too early to tell|short at|likely/);
    }
  });

  it('is never said to be silent for less time than it was unseen before', () => {
    const before = { ...lost, sight: { ...lost.sight, kind: 'live' as const } };
    expect(written(layout, before, 5_000)).toContain('Not seen for 3 min');
  });
});

describe('who is silent', () => {
  it('is the gateway only when it is', () => {
    expect(written('wall', ended)).toContain('What it does now cannot be told');
    expect(written('wall', ended)).not.toContain('The PLC sends nothing');
    expect(written('phone', ended, 20_000)).toContain('Scoreline’s gateway has not answered since 09:24:00');
  });
});

describe.each(layouts)('the caution on the %s', (layout) => {
  const isolate = /isolate,(?: lock)?/i;

  it('stands wherever "look at the line itself" sends somebody to it', () => {
    for (const [view, silent] of [
      [lost, 0],
      [ended, 0],
      [quiet, 70_000],
      [stopped, 0],
    ] as const)
      expect(written(layout, view, silent)).toMatch(isolate);
  });

  it('does not stand over a line that runs and is seen', () => {
    expect(written(layout, quiet)).not.toMatch(isolate);
    expect(written(layout, { ...stale, head: quiet.head, matters: [] })).not.toMatch(isolate);
  });
});
