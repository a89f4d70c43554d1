import { describe, expect, it } from 'vitest';
import { lineView } from '../../../gateway/api/viewSchema.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import { after, type Instant, minutes } from '../../../model/units/units.ts';
import { viewOf } from '../../../model/view/lineView.ts';
import { runUntil, startMachine } from '../../../simulator/machine/machine.ts';
import { views } from '../../dashboard/views/views.ts';
import { boundLine, changesOf, monday } from '../../simulator/simulatedLine.ts';

/** As a program gets it. */
function told(view: unknown): unknown {
  return JSON.parse(JSON.stringify(view));
}

describe('the view as it is described', () => {
  it('is what every screen is drawn from, with nothing left out', () => {
    expect(Object.keys(views).length).toBeGreaterThan(10);
    for (const [name, view] of Object.entries(views)) {
      expect(lineView.safeParse(told(view)).error?.issues ?? [], name).toEqual([]);
    }
  });

  it('is what a simulated line shows in every minute of a lively shift', () => {
    const bound = boundLine();
    const machine = startMachine({ seed: 11, start: monday, lively: 10 });
    const fold = new LineFold(bound.line);
    const kinds = new Set<string>();
    for (let now: Instant = monday; now < monday + minutes(480); now = after(now, minutes(1))) {
      fold.take(changesOf(bound, runUntil(machine, now)));
      const view = viewOf(fold, now, { servers: [{ id: 'plc', up: true }] });
      kinds.add(view.head.kind);
      const { error } = lineView.safeParse(told(view));
      expect(error?.issues ?? [], String(now)).toEqual([]);
    }
    expect(kinds.size).toBeGreaterThan(4);
  });

  it('tells a view apart that has more, less or other than described', () => {
    const view = told(views.quiet) as Record<string, unknown>;
    expect(lineView.safeParse({ ...view, more: 1 }).success).toBe(false);
    expect(lineView.safeParse({ ...view, at: 'noon' }).success).toBe(false);
    const { plan: _plan, ...less } = view;
    expect(lineView.safeParse(less).success).toBe(false);
  });
});
