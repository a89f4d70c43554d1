import { answersOf } from '../../model/notices/answers.ts';
import type { NoticeView } from '../../model/view/noticesView.ts';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { NO_ANSWERS, type Typed, typedAnswers, WORDS_MOST } from '../notices/closingDraft.ts';
import { closingOf, findingOf, useDraft } from '../store/drafts.ts';
import { useEnter } from '../store/use.tsx';
import { Ask, BackKey, Key } from './key.tsx';
import { NoticeHead } from './noticeHead.tsx';
import { NeedsNumber } from './needsNumber.tsx';
import type { What } from './noticeDone.tsx';
import { useSettled } from './settled.ts';
import { TypedLine } from './typedLine.tsx';

const { noticeSaid } = words;
const said = words.screen.noticePanel;
/** Four keys beside each other, two rows. */
const KEY = { width: 302, height: 152, step: 310, tops: [316, 484] } as const;

export interface NoticePage {
  readonly here: PositionView;
  readonly notice: NoticeView;
  readonly back: () => void;
  readonly did: (what: What) => void;
}

/** Two questions, one after the other, each with the answers that fit; then words, and it is closed. What is said stays until it is taken. */
export function ClosingPages({ here, notice, back, did }: NoticePage) {
  const enter = useEnter();
  const { fields, change } = useDraft<Typed>((line) => closingOf(line, notice.id), NO_ANSWERS);
  const { found, done, words: typed } = typedAnswers(fields, notice.kind);
  const answers = answersOf(notice.kind);
  const ready = useSettled(`${notice.id} ${found ?? 'found'} ${done ?? 'done'}`);
  if (found === undefined)
    return (
      <>
        <NoticeHead here={here} notice={notice} />
        <Ask top={234}>{said.found}</Ask>
        <AnswerKeys
          of={answers.found}
          names={noticeSaid.found}
          ready={ready}
          onTap={(one) => change({ found: one })}
        />
        <BackKey top={656} onTap={back} />
      </>
    );
  if (done === undefined)
    return (
      <>
        <NoticeHead here={here} notice={notice} />
        <Ask top={234}>{said.done}</Ask>
        <AnswerKeys
          of={answers.done}
          names={noticeSaid.done}
          ready={ready}
          onTap={(one) => change({ done: one })}
        />
        <BackKey top={656} to={said.found} onTap={() => change({ found: '' })} />
      </>
    );
  return (
    <>
      <NoticeHead here={here} notice={notice} />
      <Ask top={234} plain>
        {said.anyWords}
      </Ask>
      <p className="told" style={{ top: 330 }}>
        {words.screen.notices.close.said(noticeSaid.found[found], noticeSaid.done[done])}
      </p>
      <TypedLine
        typed={fields.words}
        most={WORDS_MOST}
        label={said.type}
        says={notice.state === 'ended' ? said.keepIt : said.closeIt}
        ready={ready}
        type={(next) => change({ words: next })}
        keep={() => {
          enter({ kind: 'noticeClosed', notice: notice.id, found, done, ...(typed && { words: typed }) });
          did('noticeClosed');
        }}
      />
      <BackKey to={said.done} onTap={() => change({ done: '' })} />
    </>
  );
}

/** What read open or pressed while the line ran is closed with its finding, under the number of a person. */
export function FindingPage({ here, notice, back, did }: NoticePage) {
  const finding = notice.facts.kind === 'ranOn' ? notice.facts.finding : '';
  const enter = useEnter();
  const { fields, change } = useDraft((line) => findingOf(line, finding), { words: '' });
  const typed = fields.words.trim();
  return (
    <NeedsNumber here={here} act="closeFinding" back={back}>
      <NoticeHead here={here} notice={notice} />
      <Ask top={234} plain>
        {said.foundThere}
      </Ask>
      <TypedLine
        typed={fields.words}
        most={WORDS_MOST}
        label={said.type}
        says={said.closeIt}
        type={(next) => change({ words: next })}
        keep={() => {
          enter({ kind: 'closed', finding, ...(typed && { words: typed }) });
          did('closed');
        }}
      />
      <BackKey onTap={back} />
    </NeedsNumber>
  );
}

function AnswerKeys<Answer extends string>({
  of,
  names,
  ready,
  onTap,
}: {
  readonly of: readonly Answer[];
  readonly names: Readonly<Record<Answer, string>>;
  readonly ready: boolean;
  readonly onTap: (answer: Answer) => void;
}) {
  return of.map((answer, place) => (
    <Key
      key={answer}
      says={[names[answer]]}
      left={24 + (place % 4) * KEY.step}
      top={KEY.tops[place < 4 ? 0 : 1]}
      width={KEY.width}
      height={KEY.height}
      look="asks"
      kind="answer eight"
      ready={ready}
      onTap={() => onTap(answer)}
    />
  ));
}
