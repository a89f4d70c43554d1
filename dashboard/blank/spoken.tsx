import { words } from '../app/words.ts';
import { readAt, since } from '../store/moment.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { plain } from '../type/measure.ts';
import { useSeen } from '../wall/reads.ts';
import { useMinuteRate } from './minute-rate.tsx';
import { finishUnknown } from './plan-panel.tsx';
import { minuteSaid } from './rate-panel.tsx';
import { useSaid } from './said.ts';
import { useWhoComes } from './who.ts';

/** The drawn head for those who listen: what each of its four panels says, in the order of the panels. */
export function SpokenHead() {
  const sentences = [useStateSpoken(), useRateSpoken(), usePlanSpoken(), useChangeoverSpoken()];
  return (
    <ul className="unseen">
      {sentences.map((sentence, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a sentence is its panel
        <li key={i}>{plain(sentence)}</li>
      ))}
    </ul>
  );
}

/**
 * Tells those who listen that the line's state changed, once for each change: nothing that counts stands in it, so that
 * a screen reader does not speak every second.
 */
export function StateTold() {
  const head = usePart('head');
  const seen = useSeen();
  const { told } = useSaid();
  const { line } = words.screen;
  return (
    <p className="unseen" role="status" aria-live="polite">
      {seen ? line.head.told(head, told) : line.head.toldUnseen}
    </p>
  );
}

function useStateSpoken(): string {
  const { said } = useSaid();
  return [said.title, ...said.lines, useWhoComes()].join(', ');
}

function useRateSpoken(): string {
  const rate = usePart('rate');
  const head = usePart('head');
  const { zone } = usePart('line');
  const moment = useMoment();
  const told = useMinuteRate();
  const { line } = words.screen;
  if (head.kind === 'pressed') {
    return [
      `${line.rate.latchedFor(head.press.known)} ${line.duration(since(moment, head.press.pressed))}`,
      head.standsSince === undefined ? line.rate.stillRuns : line.rate.standsSince(head.standsSince, zone),
    ].join(', ');
  }
  return [
    `${line.rate.label}: ${told === undefined ? line.noData : line.count(told)}`,
    moment.sight === 'stale' && moment.lastAt !== undefined
      ? line.atTime(moment.lastAt, zone)
      : minuteSaid(rate, head.kind === 'running', told),
    line.rate.target(rate.target, rate.crew),
  ].join(', ');
}

function usePlanSpoken(): string {
  const plan = usePart('plan');
  const { zone } = usePart('line');
  const pressed = usePart('head').kind === 'pressed';
  const moment = useMoment();
  const seen = useSeen();
  const { plan: said, count } = words.screen.line;
  const order = plan.order === undefined ? said.noOrder : said.order(plan.order);
  if (plan.shift === undefined) return [said.noShift, order].join(', ');
  const finish = !seen
    ? [said.asOf(readAt(moment), zone), said.notKnownUnseen]
    : plan.finish === undefined
      ? [finishUnknown(pressed)]
      : [
          said.short(plan.finish.short, plan.shift.to, zone),
          said.likely(plan.finish.shortLow, plan.finish.shortHigh),
        ];
  return [
    `${said.shift(plan.shift, zone)}: ${count(plan.good)} ${said.planned(plan.planned)}`,
    said.behindLine(plan.behind),
    ...finish,
    order,
  ].join(', ');
}

function useChangeoverSpoken(): string {
  const { began, firstGood, atRate, from, lasted } = usePart('changeover');
  const { zone } = usePart('line');
  const moment = useMoment();
  const { line } = words.screen;
  const start = atRate ?? firstGood ?? began;
  return [
    line.changeover.line(start === undefined ? undefined : since(moment, start), from, lasted),
    line.clock(moment.clock, zone),
    line.age.read(moment.age),
  ].join(', ');
}
