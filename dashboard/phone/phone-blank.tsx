import { words } from '../app/words.ts';
import { useMinuteRate } from '../blank/minute-rate.tsx';
import { finishUnknown, PlanBar } from '../blank/plan-panel.tsx';
import { minuteSaid } from '../blank/rate-panel.tsx';
import { useSaid } from '../blank/said.ts';
import { StateTold } from '../blank/spoken.tsx';
import { Mark } from '../marks/symbols.tsx';
import { Going } from '../matters/going.tsx';
import { readAt, since } from '../store/moment.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { useSeen } from '../wall/reads.ts';
import { PhonePockets } from './phone-pockets.tsx';

/** The blank folded down its scores: sentence, who comes, rate beside the shift. */
export function PhoneBlank() {
  const head = usePart('head');
  const { said } = useSaid();
  return (
    <section className={`phoneblank look-${said.look}`}>
      <StateTold />
      <div className="say">
        <div className="saytitle">
          <Mark id={said.mark} size={32} />
          <h1>{said.title}</h1>
        </div>
        <p>{said.lines.join(', ')}</p>
      </div>
      <Going />
      <div className="two">
        {head.kind === 'pressed' ? <LatchedFor /> : <PhoneRate />}
        <PhonePlan />
      </div>
    </section>
  );
}

function LatchedFor() {
  const head = usePart('head');
  const { zone } = usePart('line');
  const moment = useMoment();
  const { line } = words.screen;
  if (head.kind !== 'pressed') return null;
  return (
    <div>
      <small>{line.rate.latchedFor(head.press.known)}</small>
      <span className="big">{line.duration(since(moment, head.press.pressed))}</span>
      <small>{line.age.read(moment.age)}</small>
      <small>
        {head.standsSince === undefined ? line.rate.stillRuns : line.rate.standsSince(head.standsSince, zone)}
      </small>
    </div>
  );
}

function PhoneRate() {
  const rate = usePart('rate');
  const head = usePart('head');
  const moment = useMoment();
  const { line } = words.screen;
  const told = useMinuteRate();
  return (
    <div>
      {told === undefined ? (
        <span className="none">{line.noData}</span>
      ) : (
        <span className={rate.uncertain ? 'big doubt' : 'big'}>{line.count(told)}</span>
      )}
      {told !== undefined && rate.target !== undefined && (
        <span className="of"> {line.rate.ofTarget(rate.target)}</span>
      )}
      <small>{line.rate.short}</small>
      {told !== undefined && <PhonePockets pockets={rate.pockets} />}
      <small>{minuteSaid(rate, head.kind === 'running', told)}</small>
      <small>{line.age.read(moment.age)}</small>
    </div>
  );
}

function PhonePlan() {
  const plan = usePart('plan');
  const { zone } = usePart('line');
  const pressed = usePart('head').kind === 'pressed';
  const moment = useMoment();
  const { line } = words.screen;
  const seen = useSeen();
  const { finish, shift } = plan;
  const order = plan.order === undefined ? line.plan.noOrder : line.plan.order(plan.order);
  if (shift === undefined) {
    return (
      <div>
        <span>{line.plan.noShift}</span>
        {plan.good > 0 && <small>{line.plan.outside(plan.good)}</small>}
        <small>{order}</small>
      </div>
    );
  }
  return (
    <div>
      <span className="big">{line.count(plan.good)}</span>
      <small>{line.plan.plannedShift(plan.planned, shift.name)}</small>
      <svg viewBox="0 0 184 30" className="planbar" aria-hidden="true">
        <PlanBar plan={plan} x={1} y={6} width={180} height={18} />
      </svg>
      <small>{line.plan.behindLine(plan.behind)}</small>
      <small>{order}</small>
      {!seen ? (
        <small>{line.plan.asOf(readAt(moment), zone)}</small>
      ) : finish === undefined ? (
        <small>{finishUnknown(pressed)}</small>
      ) : (
        <>
          <small className="answer1">
            <Rich text={line.plan.short(finish.short, shift.to, zone)} />
          </small>
          <small>{line.plan.likely(finish.shortLow, finish.shortHigh)}</small>
        </>
      )}
    </div>
  );
}
