import type { PositionView, Question } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { since } from '../store/moment.ts';
import { useEnter, useMoment, usePart } from '../store/use.tsx';
import { Line } from '../type/line.tsx';
import { Ask, Key } from './key.tsx';
import type { OpenButton } from './panel.tsx';
import { PanelClock, PanelHead } from './panel-head.tsx';

const PLACES = [
  [24, 316],
  [652, 316],
  [24, 484],
  [652, 484],
] as const;

/** A stop that nobody explained turns the whole panel into one question: four answers in fixed places. */
export function StopQuestion({
  here,
  question,
  somethingElse,
}: {
  readonly here: PositionView;
  readonly question: Question;
  readonly somethingElse: () => void;
}) {
  const enter = useEnter();
  const { panel } = words.screen;
  return (
    <>
      <QuestionHead here={here} question={question} />
      <Ask top={222}>{panel.why}</Ask>
      {question.answers.slice(0, 4).map((answer, i) => (
        <Key
          key={answer.id}
          says={[answer.name, panel.times(answer.times, question.station, question.days)]}
          left={PLACES[i]?.[0] ?? 24}
          top={PLACES[i]?.[1] ?? 316}
          width={604}
          height={152}
          look="asks"
          kind="answer"
          drawing={answer.drawing}
          onTap={() => enter({ kind: 'reason', stop: question.stop, reason: answer.id })}
        />
      ))}
      <Key
        says={panel.somethingElse}
        left={24}
        top={652}
        width={604}
        height={134}
        look="asks"
        kind="else"
        onTap={somethingElse}
      />
      <Key
        says={panel.notNow}
        left={652}
        top={652}
        width={604}
        height={134}
        look="quiet"
        kind="notnow"
        onTap={() => enter({ kind: 'notNow', stop: question.stop })}
      />
    </>
  );
}

/** The head of a stop that is asked about; yellow only while it still stands. */
function QuestionHead({ here, question }: { readonly here: PositionView; readonly question: Question }) {
  const { panel, line } = words.screen;
  const { zone } = usePart('line');
  const moment = useMoment();
  const open = question.until === undefined;
  const title = open
    ? panel.stoppedAt(line.duration(since(moment, question.since)), question.station)
    : panel.stoodAt(line.duration(question.until - question.since), question.station);
  return (
    <PanelHead
      edges={[1080]}
      bottom={186}
      look={open ? 'abnormal' : 'rest'}
      mark="s-stopped"
      position={here.name}
      said={title}
    >
      <PanelClock x={1168} />
      <Line x={120} y={148} size={62} max={930} least={34} bold tone={open ? 'onAbnormal' : 'ink'}>
        {title}
      </Line>
      <Line x={1168} y={118} size={28} anchor="middle" tone="ink2">
        {open ? panel.since : panel.at}
      </Line>
      <Line x={1168} y={156} size={30} anchor="middle">
        {line.clockSeconds(question.since, zone)}
      </Line>
    </PanelHead>
  );
}

/** A circuit of several buttons: which one it was is asked, never guessed. */
export function ButtonQuestion({
  here,
  matter,
}: {
  readonly here: PositionView;
  readonly matter: OpenButton;
}) {
  const enter = useEnter();
  const { panel, line } = words.screen;
  const { zone } = usePart('line');
  const shown = matter.candidates.slice(0, 4);
  return (
    <>
      <PanelHead
        edges={[1080]}
        bottom={186}
        look="rest"
        mark="s-emergency"
        position={here.name}
        said={panel.whichButton}
      >
        <PanelClock x={1168} />
        <Line x={120} y={140} size={34} max={930} least={26}>
          {panel.whichButtonWhy}
        </Line>
        <Line x={1168} y={118} size={28} anchor="middle" tone="ink2">
          {panel.at}
        </Line>
        <Line x={1168} y={156} size={30} anchor="middle">
          {line.clockSeconds(matter.at, zone)}
        </Line>
      </PanelHead>
      <Ask top={222}>{panel.whichButton}</Ask>
      {shown.map((candidate, i) => (
        <Key
          key={candidate.id}
          says={[candidate.name]}
          left={PLACES[i]?.[0] ?? 24}
          top={PLACES[i]?.[1] ?? 316}
          width={604}
          height={152}
          look="asks"
          kind="answer"
          mark="d-button-open"
          onTap={() => enter({ kind: 'device', press: matter.press, candidate: candidate.id })}
        />
      ))}
      <Key
        says={panel.notNowButton}
        left={652}
        top={652}
        width={604}
        height={134}
        look="quiet"
        kind="notnow"
        onTap={matter.putAside}
      />
    </>
  );
}
