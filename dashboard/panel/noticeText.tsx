import { useEffect, useRef, useState } from 'react';
import type { NoticeView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import { Caution } from '../matters/caution.tsx';
import { useEvidence } from '../notices/evidence.tsx';
import { Joined } from '../notices/joined.tsx';
import { Listed } from '../notices/listed.tsx';
import { useNaming } from '../notices/naming.ts';
import { useWhoSaid } from '../notices/who.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { Key } from './key.tsx';

const { noticeSaid } = words;
const said = words.screen.noticePanel;
const screen = words.screen.notices;

/** All of a notice: what, since when, who has it, the evidence, the caution, and after it what to look at first. */
export function NoticeText({
  notice,
  left,
}: {
  readonly notice: NoticeView;
  /** What was half said here, before somebody else said it. */
  readonly left: string | undefined;
}) {
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const who = useWhoSaid();
  const naming = useNaming();
  const evidence = useEvidence(notice);
  const { taken, owner, shelved, ended, look, station } = notice;
  const when = (at: number) => screen.when(at, clock, zone);
  return (
    <Scrolled>
      {left !== undefined && (
        <p>
          <b>{said.left}</b> {left}
        </p>
      )}
      <p>{noticeSaid.what(notice, naming)}</p>
      <Listed facts={notice.facts} />
      <p>
        {screen.facts(when(notice.since), when(notice.at), notice.size)}{' '}
        {taken && said.takenBy(owner === undefined ? who(taken.by) : screen.numbered(owner), when(taken.at))}{' '}
        {shelved && screen.shelve.said(when(shelved.until), shelved.words, who(shelved.by))}{' '}
        {ended && said.over}
      </p>
      {noticeSaid.isAtTheMachine(notice.kind) && (
        <Caution title={words.screen.caution.panelTitle} text={words.screen.caution.jam} />
      )}
      {station && !ended && (
        <p>
          <b>{screen.lookFirst}:</b> {look.length === 0 && screen.noLook}
        </p>
      )}
      {look.map((one) => (
        <p key={noticeSaid.look(one, naming)}>{noticeSaid.look(one, naming)}</p>
      ))}
      {evidence.rows.length > 0 && (
        <>
          <p>
            <b>{said.evidence(evidence.rows.length)}</b>
          </p>
          <ul>
            {evidence.rows.map(({ id, said: row }) => (
              <li key={id}>{row}</li>
            ))}
          </ul>
          {evidence.more > 0 && <p>{screen.moreStops(evidence.more)}</p>}
        </>
      )}
      <Joined notice={notice} />
    </Scrolled>
  );
}

/** So much of what was read stays in view, so that no line is passed over where it comes to rest at a whole one. px */
const OVERLAP = 160;

/** Longer text is moved by two keys, which a glove finds; they are dead at its ends, and not there where all is seen. */
function Scrolled({ children }: { readonly children: React.ReactNode }) {
  const box = useRef<HTMLElement>(null);
  const [ends, tell] = useState({ above: false, below: false });
  useEffect(() => {
    const room = box.current;
    const text = room?.firstElementChild;
    if (!room || !text) return undefined;
    const look = () => {
      const above = room.scrollTop > 1;
      const below = room.scrollTop + room.clientHeight < room.scrollHeight - 1;
      tell((before) => (before.above === above && before.below === below ? before : { above, below }));
    };
    const watch = new ResizeObserver(look);
    watch.observe(text);
    watch.observe(room);
    room.addEventListener('scroll', look);
    return () => {
      watch.disconnect();
      room.removeEventListener('scroll', look);
    };
  }, []);
  const move = (way: 1 | -1) =>
    box.current?.scrollBy({ top: way * (box.current.clientHeight - OVERLAP), behavior: 'instant' });
  const key = { left: 1106, width: 150, height: 196, look: 'quiet', kind: 'scrolls' } as const;
  return (
    <>
      <section
        ref={box}
        className="noticetext"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: who reads by keys moves it by keys
        tabIndex={0}
        aria-label={screen.title}
      >
        <div>{children}</div>
      </section>
      {(ends.above || ends.below) && (
        <>
          <Key {...key} says={said.up} top={236} disabled={!ends.above} onTap={() => move(-1)} />
          <Key {...key} says={said.down} top={440} disabled={!ends.below} onTap={() => move(1)} />
        </>
      )}
    </>
  );
}
