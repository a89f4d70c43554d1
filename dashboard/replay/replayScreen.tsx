import { type RefObject, useCallback, useEffect, useRef, useState } from 'react';
import type { ReplayWindow } from '../../model/replay/asked.ts';
import { WIDE, WIDE_USUAL } from '../../model/replay/address.ts';
import type { As } from '../../model/replay/replay.ts';
import type { Course } from '../../model/past/course.ts';
import type { PastOverview, PastShift } from '../../model/past/overview.ts';
import { epochMs, type Instant, instantFromMs, TICKS_PER_MS } from '../../model/units/units.ts';
import { words } from '../app/words.ts';
import { useAsked } from '../past/asked.ts';
import { Choice } from '../past/choose.tsx';
import { queryOf, useChosen } from '../past/chosen.ts';
import { ExportForm } from '../export/exportForm.tsx';
import { Frame } from '../past/frame.tsx';
import { Measured } from '../past/measured.tsx';
import { usePart } from '../store/use.tsx';
import { AtCursor } from './atCursor.tsx';
import { CourseStrip } from './courseStrip.tsx';
import { HappenedSheet } from './happenedSheet.tsx';
import { KeyList, useKeys } from './keys.tsx';
import { LinkKey } from './linkKey.tsx';
import { NoteLine } from './noteLine.tsx';
import { NotesSheet } from './notesSheet.tsx';
import type { ReplaySession } from './session.ts';
import { ShiftChoice } from './shiftChoice.tsx';
import { StationChoice } from './stationChoice.tsx';
import { nextOf, type Target } from './targets.ts';
import { Transport } from './transport.tsx';
import { SPEEDS, useCursor } from './useCursor.ts';
import { useReplay } from './useReplay.ts';
import { WindowSheet } from './windowSheet.tsx';

const { past } = words.screen;
const said = past.replay;

/** The course of a shift that goes on is asked for again so often. */
const AGAIN_MS = 30_000;
const MINUTE_MS = 60_000;
const NO_NOTES: Course['notes'] = [];
/** A shift that went on for so long since it was opened can be read on. */
const GONE_ON_MS = 30_000;
/** A shift that goes on is looked at so long before its newest moment at first. */
const FIRST_MS = 10 * MINUTE_MS;
/** The moment looked at stands in the address once it has rested so long. */
const REST_MS = 400;

/** Any minute of any shift, as it was: played, gone through and looked at closely. */
export function ReplayScreen({ overview }: { readonly overview: PastOverview | undefined }) {
  const choosing = useChosen();
  const [chosen] = choosing;
  // another shift is another page: where it was chosen has the focus again
  const another = useRef(false);
  const shift = overview && shiftOf(overview, chosen.of ?? chosen.at);
  if (!overview || !shift)
    return (
      <Frame
        screen="replay"
        title={past.screens.replay}
        lead={[overview ? said.none : past.asking, '']}
        overview={overview}
        asked={{ state: overview ? 'answered' : 'asking', trouble: undefined }}
      >
        {null}
      </Frame>
    );
  return <Shift key={shift.from} overview={overview} shift={shift} choosing={choosing} another={another} />;
}

/** The shift that a moment lies in; the newest one where none is chosen. */
function shiftOf({ shifts }: PastOverview, at: string | undefined): PastShift | undefined {
  const moment = Number(at);
  const found = shifts.find(({ from, to }) => moment >= from && moment < to);
  return found ?? shifts.findLast(({ from }) => !(moment < from)) ?? shifts.at(-1);
}

function Shift({
  overview,
  shift,
  choosing: [chosen, choose],
  another,
}: {
  readonly overview: PastOverview;
  readonly shift: PastShift;
  readonly choosing: ReturnType<typeof useChosen>;
  readonly another: RefObject<boolean>;
}) {
  const { id, zone } = usePart('line');
  // what is opened stays what it is: a shift that goes on is read up to the moment it was opened at
  const [until, setUntil] = useState(() => Math.min(shift.to, overview.now));
  const [from, to] = [instantFromMs(shift.from), instantFromMs(until)];
  const base = `/api/lines/${encodeURIComponent(id)}/past`;
  const course = useAsked<Course>(`${base}/course${queryOf({ from: shift.from, to: shift.to })}`, AGAIN_MS);
  const [session, playing] = useReplay(id, from, to);
  const first = Number(chosen.at);
  const cursor = useCursor(
    from,
    to,
    momentAt(
      chosen.at === undefined || !(first <= until)
        ? Math.max(shift.from, until - FIRST_MS)
        : Math.max(shift.from, first),
    ),
  );
  const as: As = chosen.as === 'known' ? 'known' : 'shown';
  const setAs = (next: As) => choose({ as: next === 'known' ? 'known' : undefined });
  const wide = WIDE.find((one) => String(one) === chosen.wide) ?? WIDE_USUAL;
  const station = chosen.station;
  const at = epochMs(cursor.at);
  const window = windowAround(at, wide * MINUTE_MS, { from: shift.from, to: until });
  const shown = useWindow(session, playing.progress.kind === 'open', window, station);

  useEffect(() => session?.show({ at: cursor.at, as, station }), [session, cursor.at, as, station]);
  useAddress(id, at, cursor.plays);

  const jump = (target: Target, way: 1 | -1) => {
    const next = course.data && nextOf(course.data, target, at, way);
    if (next === undefined) return;
    cursor.play(false);
    cursor.go(momentAt(next));
  };
  const step = async (by: 'change' | 'carton', way: 1 | -1) => {
    cursor.play(false);
    const next = await session?.step(cursor.at, by, way);
    if (next !== undefined) cursor.go(next);
  };
  const noteKey = useRef<HTMLButtonElement>(null);
  const linkKey = useRef<HTMLButtonElement>(null);
  const [listed, openList] = useState(0);
  const acts = {
    play: () => cursor.play(!cursor.plays),
    by: (ms: number) => cursor.go((cursor.at + ms * 10_000) as Instant),
    step: (by: 'change' | 'carton', way: 1 | -1) => void step(by, way),
    jump,
    speed: (place: number) => cursor.setSpeed(SPEEDS[place] ?? 1),
    widen: (way: 1 | -1) => {
      const next = WIDE[WIDE.indexOf(wide) + way];
      if (next !== undefined) choose({ wide: String(next) });
    },
    other: () => setAs(as === 'known' ? 'shown' : 'known'),
    edge: (which: 'begin' | 'end') => cursor.go(which === 'begin' ? from : to),
    note: () => noteKey.current?.click(),
    link: () => linkKey.current?.click(),
    list: () => openList((times) => times + 1),
  };
  useKeys(acts);
  const { go: goTo } = cursor;
  const go = useCallback((moment: number) => goTo(momentAt(moment)), [goTo]);

  return (
    <Frame
      screen="replay"
      title={said.title(shift.name, shift.from, shift.to, zone)}
      lead={course.data ? said.lead(course.data) : [past.asking, '']}
      actions={
        <ShiftChoice
          overview={overview}
          shift={shift}
          another={another}
          choose={(next) => choose({ at: String(next), of: undefined })}
        />
      }
      overview={overview}
      asked={course}
    >
      <Measured className="coursebox">
        {(width) =>
          course.data && (
            <CourseStrip course={course.data} width={width} zone={zone} at={at} window={window} go={go} />
          )
        }
      </Measured>
      <Transport
        cursor={cursor}
        step={(by, way) => void step(by, way)}
        jump={jump}
        reachable={(target, way) =>
          course.data !== undefined && nextOf(course.data, target, at, way) !== undefined
        }
      />
      <div className="besidestrip">
        <NoteLine at={at} zone={zone} opener={noteKey} again={course.again} />
        <LinkKey opener={linkKey} address={() => addressNow(id, at)} />
      </div>
      <Opening progress={playing.progress} />
      {Math.min(shift.to, overview.now) - until > GONE_ON_MS && (
        <p className="saying">
          {said.goesOn.upTo(until, zone)}
          <button
            type="button"
            className="btn plain"
            onClick={() => setUntil(Math.min(shift.to, overview.now))}
          >
            {said.goesOn.read}
          </button>
        </p>
      )}
      <section className="sheet windowpart">
        <div className="windowhead">
          <h2>{said.window.span(window.from, window.to, zone)}</h2>
          <Choice
            label={said.window.wide}
            options={WIDE.map((one) => ({ id: String(one), said: said.window.minutes(one) }))}
            chosen={String(wide)}
            choose={(next) => choose({ wide: next === String(WIDE_USUAL) ? undefined : next })}
          />
          <StationChoice
            stations={overview.stations}
            chosen={station}
            choose={(next) => choose({ station: next })}
          />
        </div>
        <Measured className="windowbox">
          {(width) => (
            <WindowSheet
              asked={shown ? { from: shown.window.from, to: shown.window.to } : window}
              shown={shown}
              width={width}
              zone={zone}
              at={at}
              go={go}
            />
          )}
        </Measured>
        <p className="foot">
          {said.window.rejects} {said.window.asKnown}
        </p>
      </section>
      <div className="replayhalves">
        <AtCursor
          frame={playing.frame}
          zone={zone}
          station={station}
          choose={(next) => choose({ station: next })}
          as={as}
          setAs={setAs}
          from={shift.from}
          go={go}
        />
        <HappenedSheet
          window={shown?.window}
          notes={course.data?.notes ?? NO_NOTES}
          at={at}
          zone={zone}
          go={go}
        />
      </div>
      <details className="windowexport">
        <summary>{said.window.export}</summary>
        <ExportForm key={`${window.from} ${window.to}`} line={id} from={window.from} to={window.to} />
      </details>
      {course.data && <NotesSheet notes={course.data.notes} zone={zone} go={go} again={course.again} />}
      <KeyList opened={listed} />
      <p className="foot">{said.caution}</p>
    </Frame>
  );
}

/** The last moment that is told as this millisecond: what is gone to has happened, and is not just about to. */
function momentAt(ms: number): Instant {
  return instantFromMs(Math.round(ms), TICKS_PER_MS / 2 - 1);
}

/** The window keeps its place while the moment looked at is well within it, so that the lanes stand still under the cursor. */
function windowAround(
  at: number,
  wide: number,
  { from, to }: { readonly from: number; readonly to: number },
): { readonly from: number; readonly to: number } {
  const step = wide / 2;
  const begin = Math.floor((at - from - step / 2) / step) * step + from;
  const last = Math.max(from, to - wide);
  const begun = Math.min(last, Math.max(from, begin));
  return { from: begun, to: Math.min(to, begun + wide) };
}

/** What was found of the window that was asked for last; while another is looked at the one before stays. */
function useWindow(
  session: ReplaySession | undefined,
  open: boolean,
  { from, to }: { readonly from: number; readonly to: number },
  station: string | undefined,
): ReplayWindow | undefined {
  const [shown, set] = useState<ReplayWindow>();
  useEffect(() => {
    if (!session || !open) return;
    let wanted = true;
    void session
      .window(instantFromMs(from), instantFromMs(to), station)
      .then((found) => wanted && found && set(found));
    return () => {
      wanted = false;
    };
  }, [session, open, from, to, station]);
  return shown;
}

/** [RP22] Where the same moment and view of the same line open: anywhere, by anybody who may look. */
function addressNow(line: string, at: number): string {
  const search = new URLSearchParams(location.search);
  search.set('line', line);
  search.set('at', String(at));
  // the moment lies in the shift that is shown: it says by itself which that is
  search.delete('of');
  return `${location.origin}${location.pathname}?${search}`;
}

/** The address opens the same moment; it follows when the moment rests, and makes no history of its own. */
function useAddress(line: string, at: number, plays: boolean): void {
  useEffect(() => {
    if (plays) return;
    const timer = setTimeout(() => {
      history.replaceState(null, '', addressNow(line, at));
    }, REST_MS);
    return () => clearTimeout(timer);
  }, [line, at, plays]);
}

function Opening({ progress }: { readonly progress: ReturnType<typeof useReplay>[1]['progress'] }) {
  if (progress.kind === 'open')
    return progress.opened.whole ? null : <p className="saying">{said.as.notKnown}</p>;
  if (progress.kind === 'opening')
    return (
      <p className="saying" role="status">
        {said.opening(progress.share)}
      </p>
    );
  return (
    <p className="saying" role="alert">
      {[said.failed(progress.trouble), progress.why, progress.mend].filter(Boolean).join(' ')}
      <button type="button" className="btn plain" onClick={() => location.reload()}>
        {said.again}
      </button>
    </p>
  );
}
