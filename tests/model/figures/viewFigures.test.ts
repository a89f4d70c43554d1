import { describe, expect, it } from 'vitest';
import { type FigureId, figureOf } from '../../../model/figures/figures.ts';
import { viewFigures } from '../../../model/figures/viewFigures.ts';
import type { LineView } from '../../../model/view/view.ts';
import { views } from '../../dashboard/views/views.ts';

function values(view: LineView): ReadonlyMap<FigureId, number | undefined> {
  return new Map(viewFigures(view).map(({ id, value }) => [id, value]));
}

describe('figures of the shift that runs', () => {
  it('[KP5] are the very numbers of the Line screen, and add up as their definitions say', () => {
    const of = values(views.stopped);
    expect([of.get('good'), of.get('planned'), of.get('behindPlan')]).toEqual([8885, 10_218, 1333]);
    expect(of.get('planned')! - of.get('good')!).toBe(of.get('behindPlan'));
    expect(of.get('possible')! - of.get('good')!).toBe(of.get('lost'));
    expect(viewFigures(views.stopped).find(({ id }) => id === 'finish')).toMatchObject({
      value: 2380,
      lower: 1920,
      upper: 2840,
    });
    for (const id of of.keys()) expect(figureOf(id), id).toBeDefined();
  });

  it('are no zeros where nobody vouches for them, nor a plan between shifts', () => {
    const unseen = values(views.lost);
    expect(unseen.has('rate')).toBe(views.lost.rate.perMinute !== undefined);
    expect(unseen.has('finish')).toBe(views.lost.plan.finish !== undefined);
    const between = values(views.offShift);
    for (const id of ['planned', 'shiftPlan', 'behindPlan', 'lost', 'finish'] as const)
      expect(between.has(id), id).toBe(false);
  });
});
