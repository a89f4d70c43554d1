import type { Pocket, RateView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import type { Numbered } from '../figures/pieces.ts';
import { since } from '../store/moment.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { Line } from '../type/line.tsx';
import { FlapLabel } from './flap-label.tsx';
import { MinuteRate, useMinuteRate } from './minute-rate.tsx';

/** The second panel: the rate as a number and as the minute's pockets, or, with a stop device latched in, for how long. */
export function RatePanel() {
  const head = usePart('head');
  return head.kind === 'pressed' ? <LatchedPanel /> : <RunningPanel />;
}

function RunningPanel() {
  const rate = usePart('rate');
  const head = usePart('head');
  const { zone } = usePart('line');
  const moment = useMoment();
  const { line } = words.screen;
  const told = useMinuteRate();
  return (
    <>
      <FlapLabel x={984} y={36} max={290}>
        {line.rate.label}
      </FlapLabel>
      <MinuteRate
        x={828}
        y={188}
        max={172}
        none={{ y: 168, size: 44 }}
        doubt="M830 204H996"
        pockets={{ x: 1012, y: 65, width: 131, height: 148, columns: 6 }}
      />
      <Line
        x={984}
        y={236}
        size={23}
        max={330}
        anchor="middle"
        tone="ink2"
        of={minuteNumbers(rate, head.kind === 'running', told)}
      >
        {moment.sight === 'stale' && moment.lastAt !== undefined
          ? line.atTime(moment.lastAt, zone)
          : minuteSaid(rate, head.kind === 'running', told)}
      </Line>
      <Line x={984} y={282} size={24} max={292} anchor="middle" of={targetNumbers(rate)}>
        {line.rate.target(rate.target, rate.crew)}
      </Line>
    </>
  );
}

/** One line about the last minute: doubt first, then what spoiled it, then what was before the stop. */
export function minuteSaid(rate: RateView, running: boolean, told: number | undefined): string {
  const { line } = words.screen;
  if (told === undefined) return line.rate.notObserved;
  if (rate.uncertain) return line.rate.uncertain;
  if (!running && rate.before !== undefined) return line.rate.before(rate.before);
  const count = (pocket: Pocket) => rate.pockets.filter((one) => one === pocket).length;
  if (count('reject') > 0) return line.rate.rejects(count('reject'));
  return count('notLoaded') > 0 ? line.rate.notLoaded(count('notLoaded')) : line.rate.clean;
}

/** The age of the reading, where there is one. */
export function ageNumbers(age: number | undefined): readonly Numbered[] {
  return age === undefined ? [] : [['readingAge', words.screen.line.minutesPast(age)]];
}

/** Which number of that line is a figure. */
export function minuteNumbers(
  rate: RateView,
  running: boolean,
  told: number | undefined,
): readonly Numbered[] {
  const { line } = words.screen;
  if (told === undefined || rate.uncertain) return [];
  if (!running && rate.before !== undefined) return [['minuteBefore', line.count(rate.before)]];
  const count = (pocket: Pocket) => rate.pockets.filter((one) => one === pocket).length;
  return [['lastMinute', line.small(count('reject') > 0 ? count('reject') : count('notLoaded'))]];
}

export function targetNumbers({ target, crew }: RateView): readonly Numbered[] {
  const { line } = words.screen;
  return [
    ...(target === undefined ? [] : [['target', line.count(target)] as const]),
    ['crew', line.small(crew)],
  ];
}

function LatchedPanel() {
  const head = usePart('head');
  const { zone } = usePart('line');
  const moment = useMoment();
  const { line } = words.screen;
  if (head.kind !== 'pressed') return null;
  const long = line.duration(since(moment, head.press.pressed));
  return (
    <>
      <FlapLabel x={984} y={36} max={290}>
        {line.rate.latchedFor(head.press.known)}
      </FlapLabel>
      <Line x={984} y={180} size={128} max={330} least={48} anchor="middle" bold value of={[['held', long]]}>
        {long}
      </Line>
      <Line x={984} y={232} size={23} max={330} anchor="middle" tone="ink2" of={ageNumbers(moment.age)}>
        {moment.age === undefined ? line.age.read(undefined) : line.rate.readAgo(moment.age)}
      </Line>
      <Line x={984} y={282} size={24} max={300} anchor="middle">
        {head.standsSince === undefined ? line.rate.stillRuns : line.rate.standsSince(head.standsSince, zone)}
      </Line>
    </>
  );
}
