import type { ReactNode } from 'react';
import type { EpochMs } from '../../model/units/units.ts';
import type { Question } from '../../model/view/matter.ts';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import type { Said } from '../blank/state.ts';
import { since } from '../store/moment.ts';
import { useEnter, useMoment, usePart } from '../store/use.tsx';
import { Line } from '../type/line.tsx';
import { Ask, Key } from './key.tsx';
import type { OpenButton } from './panel.tsx';
import { PanelClock, PanelHead } from './panel-head.tsx';
import { useSettled } from './settled.ts';

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
  const ready = useSettled(question.stop);
  const { panel } = words.screen;
  return (
    <>
      <StopHead here={here} question={question} />
      <Ask top={222}>{panel.why}</Ask>
      {question.answers.slice(0, 4).map((answer, i) => (
        <AnswerKey
          key={answer.id}
          place={i}
          says={[answer.name, panel.times(answer.times, question.station, question.days)]}
          drawing={answer.drawing}
          ready={ready}
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
        ready={ready}
        onTap={somethingElse}
      />
      <NotNowKey
        says={panel.notNow}
        ready={ready}
        onTap={() => enter({ kind: 'notNow', stop: question.stop })}
      />
    </>
  );
}

/** The head of a stop that is asked about; yellow only while it still stands. */
function StopHead({ here, question }: { readonly here: PositionView; readonly question: Question }) {
  const { panel, line } = words.screen;
  const moment = useMoment();
  const open = question.until === undefined;
  const title = open
    ? panel.stoppedAt(line.duration(since(moment, question.since)), question.station)
    : panel.stoodAt(line.duration(question.until - question.since), question.station);
  return (
    <QuestionHead
      here={here}
      look={open ? 'abnormal' : 'rest'}
      mark="s-stopped"
      said={title}
      when={open ? panel.since : panel.at}
      at={question.since}
    >
      <Line x={120} y={148} size={62} max={930} least={34} bold tone={open ? 'onAbnormal' : 'ink'}>
        {title}
      </Line>
    </QuestionHead>
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
  const ready = useSettled(matter.press);
  const { panel } = words.screen;
  return (
    <>
      <QuestionHead
        here={here}
        look="rest"
        mark="s-emergency"
        said={panel.whichButton}
        when={matter.at === undefined ? words.screen.pressed.notSeen : panel.at}
        at={matter.at}
      >
        <Line x={120} y={140} size={34} max={930} least={26}>
          {panel.whichButtonWhy}
        </Line>
      </QuestionHead>
      <Ask top={222}>{panel.whichButton}</Ask>
      {matter.candidates.slice(0, 4).map((candidate, i) => (
        <AnswerKey
          key={candidate.id}
          place={i}
          says={[candidate.name]}
          mark="d-button-open"
          ready={ready}
          onTap={() => enter({ kind: 'device', press: matter.press, candidate: candidate.id })}
        />
      ))}
      <NotNowKey says={panel.notNowButton} ready={ready} onTap={matter.putAside} />
    </>
  );
}

/** What is asked about, and when it was. */
function QuestionHead({
  here,
  look,
  mark,
  said,
  when,
  at,
  children,
}: {
  readonly here: PositionView;
  readonly look: Said['look'];
  readonly mark: string;
  readonly said: string;
  readonly when: string;
  /** Undefined where nobody saw it. */
  readonly at: EpochMs | undefined;
  readonly children: ReactNode;
}) {
  const { zone } = usePart('line');
  return (
    <PanelHead edges={[1080]} bottom={186} look={look} mark={mark} position={here.name} said={said}>
      <PanelClock x={1168} />
      {children}
      <Line x={1168} y={118} size={28} anchor="middle" tone="ink2">
        {when}
      </Line>
      {at !== undefined && (
        <Line x={1168} y={156} size={30} anchor="middle">
          {words.screen.line.clockSeconds(at, zone)}
        </Line>
      )}
    </PanelHead>
  );
}

/** One of four answers, each always in its place: two beside each other, two below. */
function AnswerKey({
  place,
  ...answer
}: { readonly place: number } & Pick<
  Parameters<typeof Key>[0],
  'says' | 'mark' | 'drawing' | 'ready' | 'onTap'
>) {
  return (
    <Key
      {...answer}
      left={place % 2 === 0 ? 24 : 652}
      top={place < 2 ? 316 : 484}
      width={604}
      height={152}
      look="asks"
      kind="answer"
    />
  );
}

function NotNowKey(asks: Pick<Parameters<typeof Key>[0], 'says' | 'ready' | 'onTap'>) {
  return <Key {...asks} left={652} top={652} width={604} height={134} look="quiet" kind="notnow" />;
}
