import type { ChangeoverView, PressView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import type { Numbered } from '../figures/pieces.ts';
import { since } from '../store/moment.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { Line } from '../type/line.tsx';
import { FlapLabel } from './flap-label.tsx';
import { ageNumbers } from './rate-panel.tsx';

/** The fourth panel: since when this size runs, under the clock and over the age of the reading. */
export function ChangeoverPanel() {
  const head = usePart('head');
  const { zone } = usePart('line');
  const moment = useMoment();
  const press = head.kind === 'stopped' ? head.press : undefined;
  return (
    <>
      <Line x={1703} y={40} size={32} anchor="middle" bold>
        {words.screen.line.clock(moment.clock, zone)}
      </Line>
      {press === undefined ? <SinceChangeover /> : <StepsToCome press={press} />}
      <FlapLabel x={1703} y={282} max={212} of={ageNumbers(moment.age)}>
        {useAgeSaid()}
      </FlapLabel>
    </>
  );
}

/** Always visible: how old the newest reading is. */
export function useAgeSaid(): string {
  const moment = useMoment();
  return words.screen.line.age.read(moment.age);
}

function SinceChangeover() {
  const { current, kind, from, to, began, firstGood, atRate, lasted, trialCartons } = usePart('changeover');
  const { open } = usePart('sheets');
  const moment = useMoment();
  const { line } = words.screen;
  // quietly: a wall never asks
  const up = open ? 8 : 0;
  const sheet = open && <Row y={242}>{words.screen.sheet.wall(open.left)}</Row>;
  if (began === undefined) {
    return (
      <>
        <Row y={150}>{line.changeover.noneSeen}</Row>
        {sheet}
      </>
    );
  }
  const start = current ? began : (atRate ?? firstGood ?? began);
  const long = line.duration(since(moment, start));
  const second = current
    ? trialCartons > 0
      ? line.changeover.trial(trialCartons)
      : line.changeover.notAtRate
    : lasted === undefined
      ? line.changeover.notAtRate
      : line.changeover.atRate(lasted);
  const first = current
    ? (to ?? '')
    : from === undefined
      ? kind === 'startUp'
        ? ''
        : line.changeover.kind[kind]
      : line.changeover.from(from);
  return (
    <>
      <Row y={90}>{current ? line.changeover.running : line.changeover.since(kind)}</Row>
      <Line
        x={1703}
        y={140}
        size={44}
        max={250}
        least={32}
        anchor="middle"
        bold
        value
        of={[['sinceChangeover', long]]}
      >
        {long}
      </Line>
      {first !== '' && <Row y={188 - up}>{first}</Row>}
      <Row y={(first === '' ? 196 : 220) - up} of={changeoverNumbers({ current, trialCartons, lasted })}>
        {second}
      </Row>
      {sheet}
    </>
  );
}

/** Trial cartons while it goes on, then how long it took. */
function changeoverNumbers({
  current,
  trialCartons,
  lasted,
}: Pick<ChangeoverView, 'current' | 'trialCartons' | 'lasted'>): readonly Numbered[] {
  const { line } = words.screen;
  if (current) return [['trial', line.count(trialCartons)]];
  return lasted === undefined ? [] : [['changeoverTime', line.roughly(lasted)]];
}

/** After a press: what has to be seen until cartons are good again. */
function StepsToCome({ press }: { readonly press: PressView }) {
  const { pressed } = words.screen;
  const { zone } = usePart('line');
  const steps = (['released', 'reset', 'restarted', 'firstGood'] as const).map((step) => ({
    step,
    at: press[step],
  }));
  return (
    <>
      {steps.map(({ step, at }, i) => (
        <g key={step}>
          <rect
            x={1584}
            y={72 + i * 44}
            width={18}
            height={18}
            fill={at === undefined ? 'none' : 'var(--worked)'}
            stroke="var(--cut)"
            strokeWidth={2}
            strokeDasharray={at === undefined ? '4 3' : undefined}
          />
          <Line
            x={1612}
            y={88 + i * 44}
            size={22}
            max={at === undefined ? 216 : 110}
            tone={at === undefined ? 'ink2' : 'ink'}
          >
            {pressed.steps[step]}
          </Line>
          {at !== undefined && (
            <Line x={1830} y={88 + i * 44} size={22} anchor="end">
              {words.screen.line.clockSeconds(at, zone)}
            </Line>
          )}
        </g>
      ))}
    </>
  );
}

function Row({
  y,
  of = [],
  children,
}: {
  readonly y: number;
  readonly of?: readonly Numbered[];
  readonly children: string;
}) {
  return (
    <Line x={1703} y={y} size={24} max={256} anchor="middle" tone="ink2" of={of}>
      {children}
    </Line>
  );
}
