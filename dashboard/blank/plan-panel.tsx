import type { PlanView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import type { Numbered } from '../figures/pieces.ts';
import { readAt } from '../store/moment.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { Line } from '../type/line.tsx';
import { useSeen } from '../wall/reads.ts';

/** The third panel: the shift's good cartons against its plan, the order that runs, and how the shift will end. */
export function PlanPanel() {
  const plan = usePart('plan');
  const { zone } = usePart('line');
  const { line } = words.screen;
  return (
    <>
      <Line x={1192} y={34} size={24} max={350} tone="ink2">
        {line.plan.shift(plan.shift, zone)}
      </Line>
      {plan.shift === undefined ? <NothingPlanned good={plan.good} /> : <ShiftPlan plan={plan} />}
      <Line x={1186} y={218} size={23} max={356} tone="ink2" of={orderNumbers(plan.order)}>
        {plan.order === undefined ? line.plan.noOrder : line.plan.order(plan.order)}
      </Line>
    </>
  );
}

/** Between shifts there is no plan to be behind, and no finish. */
function NothingPlanned({ good }: { readonly good: number }) {
  const { plan } = words.screen.line;
  return (
    <>
      <Line x={1186} y={124} size={40} max={356} least={28}>
        {plan.nothingPlanned}
      </Line>
      {good > 0 && (
        <Line x={1188} y={160} size={24} max={356} tone="ink2" of={[['good', words.screen.line.count(good)]]}>
          {plan.outside(good)}
        </Line>
      )}
    </>
  );
}

function ShiftPlan({ plan }: { readonly plan: PlanView }) {
  const { zone } = usePart('line');
  const { line } = words.screen;
  const [behind, behindWord] = line.plan.behind(plan.behind);
  const pressed = usePart('head').kind === 'pressed';
  const moment = useMoment();
  const seen = useSeen();
  return (
    <>
      <Line x={1186} y={117} size={82} max={212} least={36} bold value of={[['good', line.count(plan.good)]]}>
        {line.count(plan.good)}
      </Line>
      <Line x={1546} y={88} size={36} max={130} anchor="end" bold value of={[['behindPlan', behind]]}>
        {behind}
      </Line>
      <Line x={1546} y={116} size={23} max={132} least={20} anchor="end" tone="ink2">
        {behindWord}
      </Line>
      <Line x={1188} y={153} size={24} max={356} tone="ink2" of={[['shiftPlan', line.count(plan.planned)]]}>
        {line.plan.planned(plan.planned)}
      </Line>
      <PlanBar plan={plan} x={1186} y={167} width={356} height={22} />
      <Line
        x={1186}
        y={244}
        size={23}
        max={356}
        tone="ink2"
        value
        of={seen ? likelyNumbers(plan.finish) : []}
      >
        {!seen
          ? line.plan.asOf(readAt(moment), zone)
          : plan.finish === undefined
            ? finishUnknown(pressed)
            : line.plan.likely(plan.finish.shortLow, plan.finish.shortHigh)}
      </Line>
      <Line x={1186} y={285} size={25} max={356} value of={seen ? shortNumbers(plan) : []}>
        {!seen
          ? line.plan.notKnownUnseen
          : plan.finish === undefined || plan.shift === undefined
            ? line.plan.behindLine(plan.behind)
            : line.plan.short(plan.finish.short, plan.shift.to, zone)}
      </Line>
    </>
  );
}

/** The range of the likely finish, as one figure: its two ends. */
export function likelyNumbers(finish: PlanView['finish']): readonly Numbered[] {
  const { count } = words.screen.line;
  if (finish === undefined) return [];
  const ends = [finish.shortLow, finish.shortHigh].map((end) => count(Math.abs(end)));
  // what is over is told from the other end
  return (finish.shortHigh < 0 || finish.shortLow < 0 ? ends.reverse() : ends).map((end) => ['finish', end]);
}

/** How short the shift will be or, while that is not known, how far it is behind now. */
export function shortNumbers({ finish, behind, shift }: PlanView): readonly Numbered[] {
  const { count } = words.screen.line;
  return finish === undefined || shift === undefined
    ? [['behindPlan', count(Math.abs(behind))]]
    : [['finish', count(Math.abs(finish.short))]];
}

export function orderNumbers(order: PlanView['order']): readonly Numbered[] {
  const { count } = words.screen.line;
  if (order === undefined) return [];
  return [
    ['orderGood', count(order.good)],
    ['orderQuantity', count(order.quantity)],
  ];
}

export function finishUnknown(pressed: boolean): string {
  return pressed ? words.screen.line.plan.notKnownPressed : words.screen.line.plan.notKnownYet;
}

/** Board for what is made, on the outline of what is planned; the score, if any, is what was planned so far. */
export function PlanBar({
  plan,
  x,
  y,
  width,
  height,
}: {
  readonly plan: Pick<PlanView, 'good' | 'planned'> & { readonly plannedSoFar: number | undefined };
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}) {
  const most = Math.max(plan.planned, plan.good, plan.plannedSoFar ?? 0, 1);
  const made = (Math.max(0, plan.good) / most) * width;
  const due = plan.plannedSoFar === undefined ? undefined : (Math.max(0, plan.plannedSoFar) / most) * width;
  return (
    <g className="measured">
      <rect
        x={x}
        y={y}
        width={width}
        height={height}
        fill="none"
        stroke="var(--score)"
        strokeDasharray="6 4"
        strokeWidth={1.5}
      />
      <rect
        x={x}
        y={y}
        width={made}
        height={height}
        fill="var(--board)"
        stroke="var(--cut)"
        strokeWidth={1.6}
      />
      {due !== undefined && (
        <path
          d={`M${x + due} ${y - 6}v${height + 12}`}
          stroke="var(--ink)"
          strokeWidth={2.4}
          strokeDasharray="5 3"
        />
      )}
    </g>
  );
}
