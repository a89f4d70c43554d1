import { Fragment, memo, useEffect, useMemo, useRef } from 'react';
import type { CourseNote } from '../../model/past/course.ts';
import type { Happened } from '../../model/replay/happened.ts';
import { withNotes } from '../../model/replay/withNotes.ts';
import type { WindowView } from '../../model/replay/window.ts';
import { words } from '../app/words.ts';
import { Rich } from '../type/line.tsx';
import { zeroOf } from './zero.ts';

const said = words.screen.past.replay;

/** What happened in the window, counted from what set it off; the moment looked at stands among it. */
export function HappenedSheet({
  window,
  notes,
  at,
  zone,
  go,
}: {
  readonly window: WindowView | undefined;
  readonly notes: readonly CourseNote[];
  readonly at: number;
  readonly zone: string;
  readonly go: (at: number) => void;
}) {
  const list = useRef<HTMLOListElement>(null);
  const happened = useMemo(() => (window ? withNotes(window.happened, notes, window) : []), [window, notes]);
  const zero = zeroOf(happened, at);
  const place = happened.filter((one) => one.at <= at).length;
  useEffect(() => {
    // the list keeps the moment in sight, without moving the page
    const [frame, row] = [list.current, list.current?.querySelector<HTMLElement>('.hererow')];
    if (frame && row && place >= 0) frame.scrollTop = row.offsetTop - frame.clientHeight / 2;
  }, [place]);
  return (
    <section className="sheet happened">
      <h2>{said.happened.title}</h2>
      <p className="second">{said.happened.from[zero.kind]}</p>
      {window && happened.length === 0 && <p>{said.happened.none}</p>}
      <ol ref={list}>
        {happened.map((one, nth) => (
          <Fragment key={`${one.at} ${one.kind} ${one.name} ${one.of ?? ''}`}>
            {nth === place && <Here at={at} zero={zero.at} zone={zone} />}
            <Row one={one} zero={zero.at} zone={zone} go={go} />
          </Fragment>
        ))}
        {window && place === happened.length && <Here at={at} zero={zero.at} zone={zone} />}
      </ol>
      {window && window.more > 0 && <p className="foot">{said.happened.more(window.more)}</p>}
    </section>
  );
}

const Row = memo(function Row({
  one,
  zero,
  zone,
  go,
}: {
  readonly one: Happened;
  readonly zero: number;
  readonly zone: string;
  readonly go: (at: number) => void;
}) {
  const isZero = Math.abs(one.at - zero) < 0.05;
  return (
    <li>
      <button type="button" onClick={() => go(one.at)}>
        <span className="offset">
          {isZero ? words.screen.pressed.exact(one.at, zone) : said.happened.offset(one.at - zero)}
        </span>
        <i className={`happenedmark ${one.kind}`} />
        <span className="what">
          <Rich text={said.happened.one(one, zone)} />
        </span>
      </button>
    </li>
  );
});

function Here({ at, zero, zone }: { readonly at: number; readonly zero: number; readonly zone: string }) {
  return (
    <li className="hererow" aria-current="time">
      <span className="offset">{at === zero ? '' : said.happened.offset(at - zero)}</span>
      <i className="happenedmark here" />
      <span className="what">{said.happened.here(at, zone)}</span>
    </li>
  );
}
