import { useState } from 'react';
import { words } from '../app/words.ts';
import { useReachable } from '../notices/reachable.ts';
import { shelfEnds, type Until } from '../notices/shelving.ts';
import { shelfOf, useDraft } from '../store/drafts.ts';
import { useEnter, useMoment, usePart } from '../store/use.tsx';
import { Ask, BackKey, Key } from './key.tsx';
import { NoticeHead } from './noticeHead.tsx';
import { NeedsNumber } from './needsNumber.tsx';
import type { NoticePage } from './noticeClosing.tsx';
import { useSettled } from './settled.ts';
import { TypedLine } from './typedLine.tsx';

const said = words.screen.noticePanel;
const { shelve, hand } = words.screen.notices;
const WHY_MOST = 200;
/** Numbers of a page, four beside each other. */
const NUMBERS = 7;
/** What ends a shelf by one tap; a moment of one's own is chosen at a desk. */
const ENDS: readonly Until[] = ['twoHours', 'shiftEnd', 'tomorrow', 'week'];

/** Handed over to one of those whom notices reach. */
export function HandPage({ here, notice, back, did }: NoticePage) {
  const enter = useEnter();
  const [page, turn] = useState(0);
  const ready = useSettled(`${notice.id} ${page}`);
  const { people: all, state } = useReachable(notice.owner);
  const shown = all.slice(page * NUMBERS, (page + 1) * NUMBERS);
  const rest = all.length - page * NUMBERS - shown.length;
  const keys = [
    ...shown.map((person) => ({
      says: said.number(person),
      onTap: () => {
        enter({ kind: 'noticeHanded', notice: notice.id, to: person });
        did('noticeHanded');
      },
    })),
    ...(rest > 0 ? [{ says: said.further(rest), onTap: () => turn(page + 1) }] : []),
  ];
  const nobody = state === 'noAnswer' ? words.screen.past.noAnswer : hand.nobody;
  return (
    <>
      <NoticeHead here={here} notice={notice} />
      <Ask top={234}>{said.toWhom}</Ask>
      {all.length === 0 && state !== 'asking' && (
        <p className="told" style={{ top: 330 }}>
          {nobody}
        </p>
      )}
      {keys.map(({ says, onTap }, place) => (
        <Key
          key={says[0]}
          says={says}
          left={24 + (place % 4) * 310}
          top={316 + Math.floor(place / 4) * 160}
          width={302}
          height={152}
          look="asks"
          kind="answer eight"
          ready={ready}
          onTap={onTap}
        />
      ))}
      <BackKey top={656} onTap={() => (page === 0 ? back() : turn(page - 1))} />
    </>
  );
}

/** Put aside until a moment and with a reason: two questions. Where people have numbers it bears one. */
export function ShelvePage(page: NoticePage) {
  return (
    <NeedsNumber here={page.here} act="shelveNotice" back={page.back}>
      <Shelving {...page} />
    </NeedsNumber>
  );
}

function Shelving({ here, notice, back, did }: NoticePage) {
  const { zone } = usePart('line');
  const { shift } = usePart('plan');
  const { clock } = useMoment();
  const enter = useEnter();
  const { fields, change } = useDraft((line) => shelfOf(line, notice.id), { until: '', why: '' });
  const ends = shelfEnds(clock, zone, shift?.to, '');
  const until = ENDS.find((one) => one === fields.until && ends[one] !== undefined);
  const ready = useSettled(`${notice.id} ${until ?? ''}`);
  if (until === undefined)
    return (
      <>
        <NoticeHead here={here} notice={notice} />
        <Ask top={234}>{said.untilWhen}</Ask>
        {ENDS.filter((one) => ends[one] !== undefined).map((one, place) => (
          <Key
            key={one}
            says={[shelve.choices[one]]}
            left={24 + place * 310}
            top={316}
            width={302}
            height={152}
            look="asks"
            kind="answer eight"
            ready={ready}
            onTap={() => change({ until: one })}
          />
        ))}
        <BackKey top={656} onTap={back} />
      </>
    );
  const keep = (why: string) => {
    const end = ends[until];
    if (end === undefined) return;
    enter({ kind: 'noticeShelved', notice: notice.id, until: end, words: why });
    did('noticeShelved');
  };
  return (
    <>
      <NoticeHead here={here} notice={notice} />
      <h1 className="unseen">{said.whyAside}</h1>
      {said.whys.map((why, place) => (
        <Key
          key={why}
          says={[why]}
          left={24 + (place % 4) * 310}
          top={238 + Math.floor(place / 4) * 138}
          width={302}
          height={130}
          look="asks"
          kind="word eight"
          ready={ready}
          onTap={() => keep(why)}
        />
      ))}
      <TypedLine
        typed={fields.why}
        most={WHY_MOST}
        label={said.whyAside}
        says={said.keepIt}
        needed
        ready={ready}
        type={(why) => change({ why })}
        keep={() => keep(fields.why.trim())}
      />
      <BackKey top={660} to={said.untilWhen} onTap={() => change({ until: '' })} />
    </>
  );
}
