import type { PositionView, PressView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { useHeadline } from '../blank/head.tsx';
import { useSaid, TONES } from '../blank/said.ts';
import { ageNumbers } from '../blank/rate-panel.tsx';
import { ClearOfHatch } from '../blank/blank.tsx';
import { Caution } from '../matters/caution.tsx';
import { since } from '../store/moment.ts';
import { useEnter, useHeld, usePart } from '../store/use.tsx';
import { Line, Rich } from '../type/line.tsx';
import { setLines } from '../type/measure.ts';
import { stepsOf } from '../wall/pressed.tsx';
import { useSeen } from '../wall/reads.ts';
import { Key } from './key.tsx';
import { PanelHead } from './panel-head.tsx';
import { SentBar } from './sent-bar.tsx';
import { useWhoComes } from '../blank/who.ts';

/** A stop device latched in, or released and not yet restarted: five steps, the caution, who comes. It never asks why. */
export function Latched({
  here,
  toSheet,
}: {
  readonly here: PositionView;
  /** Opens the sheet of a changeover that goes on: a machine that is set stands with a button latched in. */
  readonly toSheet?: () => void;
}) {
  const head = usePart('head');
  const { emergencyNumber } = usePart('line');
  const enter = useEnter();
  const who = useWhoComes();
  const sheets = usePart('sheets');
  const seen = useSeen();
  const headline = useHeadline();
  const sent = useHeld((held) => held.sent);
  const { caution, panel, entry } = words.screen;
  const press = head.kind === 'pressed' || head.kind === 'stopped' ? head.press : undefined;
  if (press === undefined || (head.kind !== 'pressed' && head.kind !== 'stopped')) return null;
  const { stop } = head;
  const open = stop !== undefined && head.going === undefined;
  const goes = sent.some(
    (one) => one.state !== 'refused' && one.entry.kind === 'going' && one.entry.stop === stop,
  );
  return (
    <>
      <h1 className="unseen">{headline}</h1>
      <LatchedHead here={here} press={press} />
      <SentBar top={290} />
      <StepRow press={press} now={seen && head.kind === 'pressed'} />
      <div className="panelcaution">
        <Caution title={caution.panelTitle} text={caution.pressed} mark={62} />
      </div>
      <p className={(open && !goes) || toSheet ? 'comes' : 'comes wide'}>
        <Rich text={open && goes ? entry.goingSent : who} />
        <br />
        {caution.hurt(emergencyNumber)} {caution.noWhy}
      </p>
      {open && !goes && (
        <Key
          says={panel.going}
          left={652}
          top={658}
          width={toSheet ? 298 : 604}
          height={130}
          kind={toSheet ? 'going sheetkey1' : 'going'}
          {...(toSheet ? {} : { mark: 'm-person' })}
          onTap={() => enter({ kind: 'going', stop })}
        />
      )}
      {toSheet && (
        <Key
          says={words.screen.sheet.key(sheets)}
          left={open && !goes ? 958 : 652}
          top={658}
          width={open && !goes ? 298 : 604}
          height={130}
          kind="tosheet sheetkey1"
          onTap={toSheet}
        />
      )}
    </>
  );
}

function LatchedHead({ here, press }: { readonly here: PositionView; readonly press: PressView }) {
  const { said, moment, told } = useSaid();
  const { size, lines } = setLines(said.lines, { width: 760, most: 2, sizes: [40, 36, 32, 28] });
  const tone = TONES[said.look];
  const { line, panel } = words.screen;
  const long = line.duration(since(moment, press.pressed));
  return (
    <PanelHead
      edges={[900]}
      bottom={286}
      look={said.look}
      mark={said.mark}
      position={here.name}
      said={[said.title, ...lines].join(', ')}
    >
      <ClearOfHatch look={said.look} x={108} y={78} width={780} height={198} />
      <Line x={1078} y={57} size={26} anchor="middle" tone="ink2">
        {press.released === undefined ? line.rate.forLabel(press.known) : panel.sincePress(press.known)}
      </Line>
      <Line x={120} y={138} size={58} max={760} least={36} bold tone={tone} of={said.of}>
        {said.title}
      </Line>
      {lines.map((text, i) => (
        <Line key={text} x={120} y={196 + i * 52} size={size} tone={tone}>
          {text}
        </Line>
      ))}
      <Line
        x={1078}
        y={180}
        size={110}
        max={330}
        least={44}
        anchor="middle"
        bold
        value
        of={[[press.released === undefined ? 'held' : 'untilRestart', long]]}
      >
        {long}
      </Line>
      <Line
        x={1078}
        y={228}
        size={27}
        max={336}
        least={26}
        anchor="middle"
        tone="ink2"
        of={ageNumbers(moment.age)}
      >
        {moment.age === undefined ? line.age.read(undefined) : line.rate.readAgo(moment.age)}
      </Line>
      <Line x={1078} y={264} size={27} anchor="middle" tone="ink2">
        {line.clockSeconds(moment.clock, told.zone)}
      </Line>
    </PanelHead>
  );
}

/** Five steps as a score that becomes a cut as each is seen. Red is the one that is true now, a press not released. */
function StepRow({ press, now }: { readonly press: PressView; readonly now: boolean }) {
  const { zone } = usePart('line');
  const steps = stepsOf(press);
  const { pressed } = words.screen;
  return (
    <svg
      width={1280}
      height={110}
      viewBox="0 330 1280 110"
      className="steprow"
      role="img"
      aria-label={steps.map(({ step, said }) => `${pressed.steps[step]} ${said(zone)}`).join(', ')}
    >
      <path d="M24 368H1242" className="scoreline" style={{ strokeWidth: 2.5 }} />
      {steps.map(({ step, done, said }, i) => {
        const x = 24 + i * 246.4;
        const held = now && step === 'pressed';
        return (
          <g key={step}>
            <rect
              x={x}
              y={338}
              width={232}
              height={92}
              fill={held ? 'var(--emergency)' : done ? 'var(--sheet)' : 'var(--ground)'}
              stroke="var(--cut)"
              strokeWidth={2}
              strokeDasharray={done ? undefined : '7 5'}
            />
            <Line
              x={x + 116}
              y={378}
              size={29}
              max={220}
              least={26}
              anchor="middle"
              bold={done}
              tone={held ? 'onEmergency' : 'ink'}
            >
              {pressed.steps[step]}
            </Line>
            <Line
              x={x + 116}
              y={412}
              size={26}
              max={220}
              least={26}
              anchor="middle"
              tone={held ? 'onEmergency' : 'ink2'}
            >
              {said(zone)}
            </Line>
          </g>
        );
      })}
    </svg>
  );
}
