import type { EpochMs } from '../../model/units/units.ts';
import type { Question } from '../../model/view/matter.ts';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { ClearOfHatch } from '../blank/blank.tsx';
import { TONES, useSaid } from '../blank/said.ts';
import type { Said } from '../blank/state.ts';
import type { Numbered } from '../figures/pieces.ts';
import { since } from '../store/moment.ts';
import { useEnter, usePart } from '../store/use.tsx';
import { Line } from '../type/line.tsx';
import { Ask, Key } from './key.tsx';
import type { OpenButton } from './panel.tsx';
import { PanelAge, PanelClock, PanelHead } from './panel-head.tsx';
import { useSettled } from './settled.ts';
import { type StateRow, StateRows, useStateRows } from './state-rows.tsx';

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
      <Ask top={234}>{panel.why}</Ask>
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

/** The head of a stop that is asked about; yellow only while it still stands, as far as anybody sees. */
function StopHead({ here, question }: { readonly here: PositionView; readonly question: Question }) {
  const { panel, line } = words.screen;
  const { said, moment } = useSaid();
  const open = question.until === undefined;
  const stands = open && said.look !== 'unseen';
  const long = line.duration(open ? since(moment, question.since) : question.until - question.since);
  return (
    <QuestionHead
      here={here}
      look={stands ? 'abnormal' : said.look === 'unseen' ? 'unseen' : 'rest'}
      mark={stands ? 's-stopped' : said.mark}
      of={[['stood', long]]}
      title={stands ? panel.stoppedAt(long, question.station) : panel.stoodAt(long, question.station)}
      size={58}
      rows={useStateRows(stands)}
      when={open ? panel.since : panel.at}
      at={question.since}
    />
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
  const { said } = useSaid();
  const rows = useStateRows();
  const { panel } = words.screen;
  return (
    <>
      <QuestionHead
        here={here}
        look={said.look}
        mark={said.mark}
        title={panel.whichButtonWhy}
        size={34}
        rows={rows}
        when={matter.at === undefined ? words.screen.pressed.notSeen : panel.at}
        at={matter.at}
      />
      <Ask top={234}>{panel.whichButton}</Ask>
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

/** What is asked about, what the line does, when it was, and how old the reading is. */
export function QuestionHead({
  here,
  look,
  mark,
  title,
  of = [],
  size,
  rows,
  when,
  at,
  moment,
}: {
  readonly here: PositionView;
  readonly look: Said['look'];
  readonly mark: string;
  readonly title: string;
  readonly of?: readonly Numbered[];
  readonly size: number;
  readonly rows: readonly StateRow[];
  readonly when: string;
  /** Undefined where nobody saw it. */
  readonly at: EpochMs | undefined;
  /** How `at` is said, where it may be of another day. */
  readonly moment?: string;
}) {
  const { zone } = usePart('line');
  const tone = TONES[look];
  return (
    <PanelHead
      edges={[1080]}
      bottom={212}
      look={look}
      mark={mark}
      position={here.name}
      said={[title, ...rows.map(({ text }) => text)].join(', ')}
    >
      <ClearOfHatch look={look} x={108} y={76} width={966} height={130} />
      <PanelClock x={1168} />
      <Line
        x={120}
        y={rows.length > 1 ? 124 : 136}
        size={size}
        max={930}
        least={26}
        bold={size > 40}
        tone={tone}
        of={of}
      >
        {title}
      </Line>
      <StateRows rows={rows} y={rows.length > 1 ? 166 : 182} tone={tone} />
      <Line x={1168} y={102} size={28} max={168} least={22} anchor="middle" tone="ink2">
        {when}
      </Line>
      {at !== undefined && (
        <Line x={1168} y={136} size={30} max={168} least={20} anchor="middle">
          {moment ?? words.screen.line.clockSeconds(at, zone)}
        </Line>
      )}
      <PanelAge x={1168} y={170} />
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
