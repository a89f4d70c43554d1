import { words } from '../app/words.ts';
import { useMinuteRate } from '../blank/minute-rate.tsx';
import { finishUnknown, likelyNumbers, orderNumbers, PlanBar, shortNumbers } from '../blank/plan-panel.tsx';
import { ageNumbers, minuteNumbers, minuteSaid, targetNumbers } from '../blank/rate-panel.tsx';
import { useSaid } from '../blank/said.ts';
import { StateTold } from '../blank/spoken.tsx';
import { Figure } from '../figures/figure.tsx';
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
          <h1>
            <Rich text={said.title} of={said.of} />
          </h1>
        </div>
        <p>
          <Rich text={said.lines.join(', ')} of={said.of} />
        </p>
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
      <span className="big">
        <Figure of="held">{line.duration(since(moment, head.press.pressed))}</Figure>
      </span>
      <small>
        <Rich text={line.age.read(moment.age)} of={ageNumbers(moment.age)} />
      </small>
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
        <span className={rate.uncertain ? 'big doubt' : 'big'}>
          <Figure of="rate">{line.count(told)}</Figure>
        </span>
      )}
      {told !== undefined && rate.target !== undefined && (
        <span className="of">
          {' '}
          <Rich text={line.rate.ofTarget(rate.target)} of={targetNumbers(rate)} />
        </span>
      )}
      <small>{line.rate.short}</small>
      {told !== undefined && <PhonePockets pockets={rate.pockets} />}
      <small>
        <Rich
          text={minuteSaid(rate, head.kind === 'running', told)}
          of={minuteNumbers(rate, head.kind === 'running', told)}
        />
      </small>
      <small>
        <Rich text={line.age.read(moment.age)} of={ageNumbers(moment.age)} />
      </small>
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
  const order = (
    <Rich
      text={plan.order === undefined ? line.plan.noOrder : line.plan.order(plan.order)}
      of={orderNumbers(plan.order)}
    />
  );
  if (shift === undefined) {
    return (
      <div>
        <span>{line.plan.noShift}</span>
        {plan.good > 0 && (
          <small>
            <Rich text={line.plan.outside(plan.good)} of={[['good', line.count(plan.good)]]} />
          </small>
        )}
        <small>{order}</small>
      </div>
    );
  }
  return (
    <div>
      <span className="big">
        <Figure of="good">{line.count(plan.good)}</Figure>
      </span>
      <small>
        <Rich
          text={line.plan.plannedShift(plan.planned, shift.name)}
          of={[['shiftPlan', line.count(plan.planned)]]}
        />
      </small>
      <svg viewBox="0 0 184 30" className="planbar" aria-hidden="true">
        <PlanBar plan={plan} x={1} y={6} width={180} height={18} />
      </svg>
      <small>
        <Rich
          text={line.plan.behindLine(plan.behind)}
          of={[['behindPlan', line.count(Math.abs(plan.behind))]]}
        />
      </small>
      <small>{order}</small>
      {!seen ? (
        <small>{line.plan.asOf(readAt(moment), zone)}</small>
      ) : finish === undefined ? (
        <small>{finishUnknown(pressed)}</small>
      ) : (
        <>
          <small className="answer1">
            <Rich text={line.plan.short(finish.short, shift.to, zone)} of={shortNumbers(plan)} />
          </small>
          <small>
            <Rich text={line.plan.likely(finish.shortLow, finish.shortHigh)} of={likelyNumbers(finish)} />
          </small>
        </>
      )}
    </div>
  );
}
