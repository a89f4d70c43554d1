import { useState } from 'react';
import { DONE, type Done, FOUND, type Found } from '../../model/notices/notice.ts';
import type { NoticeView } from '../../model/view/noticesView.ts';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { useSaid } from '../blank/said.ts';
import { Caution } from '../matters/caution.tsx';
import { useWhoSaid } from '../notices/who.ts';
import { useEnter, useHeld, usePart } from '../store/use.tsx';
import { Ask, BackKey, Key } from './key.tsx';
import { QuestionHead } from './question.tsx';
import { useSettled } from './settled.ts';
import { useStateRows } from './state-rows.tsx';

const { noticeSaid } = words;
const said = words.screen.noticePanel;
/** Three keys beside each other, two rows. */
const KEY = { width: 400, height: 152, step: 416, tops: [316, 484] } as const;

/** Open notices that want somebody: a press shows itself, and what is only to be known is for the screens. */
export function usePanelNotices(): readonly NoticeView[] {
  const { open } = usePart('notices');
  const sent = useHeld((held) => held.sent);
  const closing = new Set(
    sent.flatMap(({ entry, state }) =>
      state !== 'refused' && entry.kind === 'noticeClosed' ? [entry.notice] : [],
    ),
  );
  return open.filter(
    ({ id, level, state, kind }) =>
      level !== 'note' && state !== 'shelved' && kind !== 'press' && !closing.has(id),
  );
}

/** Nobody has taken it: what it is, what to look at first, and the one key. Once taken, what was found and what was done. */
export function NoticePage({
  here,
  notice,
  close,
}: {
  readonly here: PositionView;
  readonly notice: NoticeView;
  /** Leaves it as it is; it stays open, and has its key on the first page. */
  readonly close: () => void;
}) {
  const taking = useHeld((held) =>
    held.sent.some(
      ({ entry, state }) => state !== 'refused' && entry.kind === 'noticeTaken' && entry.notice === notice.id,
    ),
  );
  const taken = notice.taken !== undefined || taking;
  return taken && notice.facts.kind !== 'ranOn' ? (
    <FoundDone here={here} notice={notice} close={close} />
  ) : (
    <Told here={here} notice={notice} taken={taken} close={close} />
  );
}

function Told({
  here,
  notice,
  taken,
  close,
}: {
  readonly here: PositionView;
  readonly notice: NoticeView;
  readonly taken: boolean;
  readonly close: () => void;
}) {
  const enter = useEnter();
  const ready = useSettled(`${notice.id} ${notice.round}`);
  const who = useWhoSaid();
  const { zone } = usePart('line');
  const { stations } = usePart('path');
  const nameOf = (id: string) => stations.find((one) => one.id === id)?.name ?? id;
  const [first] = notice.look;
  return (
    <>
      <Head here={here} notice={notice} />
      <h1 className="unseen">{noticeSaid.title(notice)}</h1>
      <div className="noticetext">
        <p>{noticeSaid.what(notice, zone, nameOf)}</p>
        {notice.taken && <p>{said.takenBy(who(notice.taken.by))}</p>}
        {noticeSaid.isAtTheMachine(notice.kind) && (
          <Caution title={words.screen.caution.panelTitle} text={words.screen.caution.jam} />
        )}
        {first && (
          <p>
            <b>{words.screen.notices.lookFirst}:</b> {noticeSaid.look(first, zone)}
          </p>
        )}
      </div>
      {!taken && (
        <Key
          says={said.imGoing}
          left={24}
          top={652}
          width={604}
          height={134}
          kind="going"
          ready={ready}
          // whoever goes comes back to say what was found
          onTap={() => {
            enter({ kind: 'noticeTaken', notice: notice.id });
            close();
          }}
        />
      )}
      <Key
        says={said.notNow}
        left={652}
        top={652}
        width={604}
        height={134}
        look="quiet"
        kind="notnow"
        ready={ready}
        onTap={close}
      />
    </>
  );
}

/** Two questions, one after the other; with the second answer it is closed. */
function FoundDone({
  here,
  notice,
  close,
}: {
  readonly here: PositionView;
  readonly notice: NoticeView;
  readonly close: () => void;
}) {
  const enter = useEnter();
  const [found, find] = useState<Found>();
  const ready = useSettled(`${notice.id} ${found ?? 'found'}`);
  const end = (done: Done) => {
    if (found !== undefined) enter({ kind: 'noticeClosed', notice: notice.id, found, done });
    close();
  };
  return (
    <>
      <Head here={here} notice={notice} />
      <Ask top={234}>{found === undefined ? said.found : said.done}</Ask>
      {found === undefined ? (
        <SixKeys of={FOUND} names={noticeSaid.found} ready={ready} onTap={find} />
      ) : (
        <SixKeys of={DONE} names={noticeSaid.done} ready={ready} onTap={end} />
      )}
      <BackKey top={656} onTap={() => (found === undefined ? close() : find(undefined))} />
    </>
  );
}

function SixKeys<Answer extends string>({
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
      left={24 + (place % 3) * KEY.step}
      top={KEY.tops[place < 3 ? 0 : 1]}
      width={KEY.width}
      height={KEY.height}
      look="asks"
      kind="answer six"
      ready={ready}
      onTap={() => onTap(answer)}
    />
  ));
}

function Head({ here, notice }: { readonly here: PositionView; readonly notice: NoticeView }) {
  const { said: state } = useSaid();
  return (
    <QuestionHead
      here={here}
      look={state.look}
      mark={state.mark}
      title={noticeSaid.title(notice)}
      size={44}
      rows={useStateRows()}
      when={said.since}
      at={notice.at}
    />
  );
}
