import type { LineView } from '../view/view.ts';
import type { FigureId } from './figures.ts';
import type { FigureValue } from './figureValues.ts';

/** What the Line screen shows of the shift that runs, as values of figures: the very numbers that stand there. */
export function viewFigures({
  plan,
  path,
  rate,
}: Pick<LineView, 'plan' | 'path' | 'rate'>): readonly FigureValue[] {
  return [...ofShift({ plan, path }), ...ofNow(rate), ...ofOrder(plan)];
}

/** Between shifts nothing is planned, and nothing can be behind or lost. */
function ofShift({ plan, path }: Pick<LineView, 'plan' | 'path'>): readonly FigureValue[] {
  if (plan.shift === undefined) return [];
  const { finish, needed } = plan;
  return [
    exact('good', plan.good),
    exact('possible', plan.possible),
    exact('planned', plan.plannedSoFar),
    exact('shiftPlan', plan.planned),
    exact('behindPlan', plan.behind),
    exact('lost', path.total),
    ...(finish
      ? [{ ...exact('finish', finish.short), lower: finish.shortLow, upper: finish.shortHigh }]
      : []),
    ...known('needed', needed),
  ];
}

function ofNow({ target, perMinute, running, before, crew }: LineView['rate']): readonly FigureValue[] {
  return [
    ...known('target', target),
    ...known('rate', perMinute),
    ...known('minuteRunning', running),
    ...known('minuteBefore', before),
    exact('crew', crew),
  ];
}

function ofOrder({ order }: LineView['plan']): readonly FigureValue[] {
  if (order === undefined) return [];
  return [
    exact('orderGood', order.good),
    exact('orderQuantity', order.quantity),
    ...known('perCase', order.perCase),
    ...known('cases', order.cases),
  ];
}

function known(id: FigureId, value: number | undefined): readonly FigureValue[] {
  return value === undefined ? [] : [exact(id, value)];
}

function exact(id: FigureId, value: number): FigureValue {
  return { id, value, lower: undefined, upper: undefined, none: undefined };
}
