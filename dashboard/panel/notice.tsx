import { useState } from 'react';
import { needsPerson } from '../../model/notices/notice.ts';
import type { NoticeView } from '../../model/view/noticesView.ts';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { useSending } from '../notices/acts.ts';
import { type Left, useHalfSaid, useLeftOver } from '../notices/leftOver.tsx';
import { PersonFlow } from '../people/panelPerson.tsx';
import { useEnter, usePart } from '../store/use.tsx';
import { Key } from './key.tsx';
import { HandPage, ShelvePage } from './noticeAside.tsx';
import { ClosingPages, FindingPage } from './noticeClosing.tsx';
import { NoticeDone, type What } from './noticeDone.tsx';
import { NoticeHead } from './noticeHead.tsx';
import { NoticeList } from './noticeList.tsx';
import { NoticeText } from './noticeText.tsx';
import { useSettled } from './settled.ts';
import { isTakenAt } from './takenAt.ts';

const { noticeSaid } = words;
const said = words.screen.noticePanel;

/**
 * All that a panel lets people read: what is open, what is put aside, what was taken here and ended before anybody said what was
 * found, and what ended while that was half said here.
 */
export function usePanelNotices(here: PositionView): readonly NoticeView[] {
  const { open, ended } = usePart('notices');
  const isHalfSaid = useHalfSaid();
  const left = ended.filter((notice) => (isUnsaid(notice) && isTakenAt(notice, here)) || isHalfSaid(notice));
  return [...open, ...left];
}

function isUnsaid({ kind, ended }: NoticeView): boolean {
  return kind !== 'press' && ended !== undefined && !ended.said;
}

type Page = 'told' | 'close' | 'finding' | 'hand' | 'shelve' | 'test' | { readonly done: What };

/**
 * Every open notice, read whole and dealt with: a list, one of them, and after each act what was done, from where it goes on
 * only on purpose. Nothing of another notice comes under a finger that has just pressed something of this one.
 */
export function NoticeFlow({
  here,
  notice: id,
  choose,
  itself = false,
  close,
}: {
  readonly here: PositionView;
  /** The one that is read; without it the list. */
  readonly notice: string | undefined;
  readonly choose: (notice: string | undefined) => void;
  /** It opened by itself, so that whoever leaves it puts it aside here. */
  readonly itself?: boolean;
  readonly close: () => void;
}) {
  const all = usePanelNotices(here);
  const { ended } = usePart('notices');
  const notice = [...all, ...ended].find((one) => one.id === id);
  if (id === undefined || notice === undefined)
    return <NoticeList here={here} notices={all} choose={choose} close={close} />;
  return (
    <NoticePages
      key={id}
      here={here}
      notice={notice}
      itself={itself}
      toList={() => choose(undefined)}
      close={close}
    />
  );
}

function NoticePages({
  here,
  notice,
  itself,
  toList,
  close,
}: {
  readonly here: PositionView;
  readonly notice: NoticeView;
  readonly itself: boolean;
  readonly toList: () => void;
  readonly close: () => void;
}) {
  const [page, turn] = useState<Page>('told');
  const back = () => turn('told');
  const did = (what: What) => turn({ done: what });
  const same = { here, notice, back, did };
  switch (page) {
    case 'told':
      return (
        <Told
          {...same}
          turn={turn}
          leave={itself ? () => did('aside') : toList}
          says={itself ? said.notNow : [words.screen.panel.back, said.toList]}
        />
      );
    case 'close':
      return <ClosingPages {...same} />;
    case 'finding':
      return <FindingPage {...same} />;
    case 'hand':
      return <HandPage {...same} />;
    case 'shelve':
      return <ShelvePage {...same} />;
    case 'test':
      return <PersonFlow here={here} close={back} />;
    default:
      return (
        <NoticeDone here={here} notice={notice} did={page.done} again={back} toList={toList} close={close} />
      );
  }
}

interface ToldKey {
  readonly kind: string;
  readonly says: readonly string[];
  readonly onTap: () => void;
}

/** What it is, read whole; below it what can be done, and the way out, always last. */
function Told({
  here,
  notice,
  turn,
  did,
  leave,
  says,
}: {
  readonly here: PositionView;
  readonly notice: NoticeView;
  readonly turn: (page: Page) => void;
  readonly did: (what: What) => void;
  readonly leave: () => void;
  readonly says: readonly string[];
}) {
  const ready = useSettled(`${notice.id} ${notice.round}`);
  const left = useLeftOver(notice);
  const acts = useToldKeys(here, notice, left, { turn, did });
  const keys = [...acts, { kind: 'notnow', says, onTap: leave }];
  const width = Math.min(400, (1232 - (keys.length - 1) * 8) / keys.length);
  return (
    <>
      <NoticeHead here={here} notice={notice} />
      <h1 className="unseen">{noticeSaid.title(notice)}</h1>
      <NoticeText notice={notice} left={left?.text} />
      {keys.map(({ kind, says: text, onTap }, place) => (
        <Key
          key={kind}
          says={text}
          left={place === keys.length - 1 ? 1256 - width : 24 + place * (width + 8)}
          top={652}
          width={width}
          height={134}
          look={kind === 'notnow' ? 'quiet' : 'plain'}
          kind={`${kind} ofnotice`}
          ready={ready}
          onTap={onTap}
        />
      ))}
    </>
  );
}

/** What can be done with it as it stands. A press ends by itself, and nothing is asked of it. */
function useToldKeys(
  here: PositionView,
  notice: NoticeView,
  left: Left | undefined,
  { turn, did }: { readonly turn: (page: Page) => void; readonly did: (what: What) => void },
): readonly ToldKey[] {
  const { id, kind, state, taken, hasAt, facts, ended } = notice;
  const enter = useEnter();
  const going = useSending(id, 'noticeTaken') !== undefined;
  const page = (to: Page, says: readonly string[]): ToldKey => ({
    kind: String(to),
    says,
    onTap: () => turn(to),
  });
  if (left)
    return [
      { kind: 'left', says: said.leftAsNote, onTap: left.keep },
      { kind: 'leftout', says: said.leftOut, onTap: left.drop },
    ];
  if (ended) return kind === 'press' || ended.said ? [] : [page('close', said.sayFound)];
  const take: ToldKey = {
    kind: 'going',
    says: said.imGoing,
    onTap: () => {
      enter({ kind: 'noticeTaken', notice: id });
      did('noticeTaken');
    },
  };
  const offShelf: ToldKey = {
    kind: 'offshelf',
    says: said.offShelf,
    onTap: () => {
      enter({ kind: 'noticeUnshelved', notice: id });
      did('noticeUnshelved');
    },
  };
  const over: ToldKey = {
    kind: 'over',
    says: said.takeOver,
    onTap: () => {
      enter({ kind: 'noticeTaken', notice: id, ...(hasAt === undefined ? {} : { over: hasAt }) });
      did('noticeTaken');
    },
  };
  const isTaken = taken !== undefined || going;
  const isOthers = state === 'taken' && hasAt !== undefined && !isTakenAt(notice, here) && !going;
  const ends = needsPerson(kind) ? page('finding', said.closeFinding) : page('close', said.sayFound);
  return [
    ...(isTaken ? [] : [take]),
    ...(isOthers ? [over] : []),
    ...(facts.kind === 'test' ? [page('test', said.recordTest)] : []),
    ...(kind !== 'press' && (isTaken || needsPerson(kind)) ? [ends] : []),
    page('hand', said.handOver),
    state === 'shelved' ? offShelf : page('shelve', said.shelve),
  ];
}
