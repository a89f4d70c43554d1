import { useState } from 'react';
import type { NoticeView } from '../../model/view/noticesView.ts';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { MARK_OF, useStanding } from '../notices/list.tsx';
import { useHalfSaid } from '../notices/leftOver.tsx';
import { usePart } from '../store/use.tsx';
import { BackKey, Key } from './key.tsx';
import { FlowHead } from './panel-head.tsx';
import { useSettled } from './settled.ts';
import { isTakenAt } from './takenAt.ts';

const said = words.screen.noticePanel;
/** Rows of a page; a gloved finger finds each. */
const ROWS = 3;

/** Every notice that is open, three a page: what it is, where it stands, and whether this position has it. */
export function NoticeList({
  here,
  notices,
  choose,
  close,
}: {
  readonly here: PositionView;
  readonly notices: readonly NoticeView[];
  readonly choose: (notice: string) => void;
  readonly close: () => void;
}) {
  const { counts } = usePart('notices');
  const [page, turn] = useState(0);
  const first = Math.min(page * ROWS, Math.max(0, Math.ceil(notices.length / ROWS) - 1) * ROWS);
  const shown = notices.slice(first, first + ROWS);
  const rest = notices.length - first - shown.length;
  const ready = useSettled(shown.map(({ id, state }) => `${id} ${state}`).join(' '));
  return (
    <>
      <FlowHead here={here} title={words.screen.notices.heading(counts)} right="" />
      <h1 className="unseen">{words.screen.notices.heading(counts)}</h1>
      <p className="more" style={{ top: 182 }}>
        {said.page(first + 1, first + shown.length, notices.length)}
      </p>
      {notices.length === 0 && (
        <p className="told" style={{ top: 240 }}>
          {said.none}
        </p>
      )}
      {shown.map((notice, place) => (
        <Row
          key={notice.id}
          here={here}
          notice={notice}
          top={222 + place * 138}
          ready={ready}
          onTap={() => choose(notice.id)}
        />
      ))}
      {first > 0 && (
        <Key
          says={said.earlier}
          left={24}
          top={660}
          width={400}
          height={130}
          kind="earlier"
          onTap={() => turn(first / ROWS - 1)}
        />
      )}
      {rest > 0 && (
        <Key
          says={said.further(rest)}
          left={440}
          top={660}
          width={400}
          height={130}
          kind="further"
          onTap={() => turn(first / ROWS + 1)}
        />
      )}
      <BackKey to={said.toLine[0]} left={856} width={400} onTap={close} />
    </>
  );
}

function Row({
  here,
  notice,
  top,
  ready,
  onTap,
}: {
  readonly here: PositionView;
  readonly notice: NoticeView;
  readonly top: number;
  readonly ready: boolean;
  readonly onTap: () => void;
}) {
  const standing = useStanding()(notice);
  const own = notice.state === 'taken' && isTakenAt(notice, here);
  const isHalfSaid = useHalfSaid()(notice);
  const standings = [own && said.takenHere, isHalfSaid && said.halfSaid, standing];
  return (
    <Key
      says={[words.noticeSaid.title(notice), standings.filter((one) => one !== false).join('; ')]}
      left={24}
      top={top}
      width={1232}
      height={130}
      mark={MARK_OF[notice.state]}
      kind="noticerowkey"
      ready={ready}
      onTap={onTap}
    />
  );
}
