import { type RefObject, useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { WIDE, WIDE_USUAL } from '../../model/replay/address.ts';
import type { As } from '../../model/replay/replay.ts';
import type { Course } from '../../model/past/course.ts';
import { ALIGNMENTS } from '../../model/past/compared/aligned.ts';
import type { PastRun } from '../../model/past/runsPast.ts';
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
import { AlignChoice } from './alignChoice.tsx';
import { AtCursor } from './atCursor.tsx';
import { ComparedSheet } from './comparedSheet.tsx';
import { CourseStrip } from './courseStrip.tsx';
import { HappenedSheet } from './happenedSheet.tsx';
import { KeyList, useKeys } from './keys.tsx';
import { LinkKey } from './linkKey.tsx';
import { NoteLine } from './noteLine.tsx';
import { NotesSheet } from './notesSheet.tsx';
import { GoneOn, Opening } from './opening.tsx';
import { ShiftChoice, UnderChoice } from './shiftChoice.tsx';
import { StationChoice } from './stationChoice.tsx';
import { idOf, namesOf, type Stretch, shiftStretch, stretchOf, titleOf } from './stretch.ts';
import { nextOf, type Target } from './targets.ts';
import { Transport } from './transport.tsx';
import { addressNow, useAddress } from './useAddress.ts';
import { useCompared } from './useCompared.ts';
import { SPEEDS, useCursor } from './useCursor.ts';
import { isWithin, unheardIn } from './unheard.tsx';
import { useReplay } from './useReplay.ts';
import { useWindow, windowAround } from './useWindow.ts';
import { WindowSheet } from './windowSheet.tsx';

const { past } = words.screen;
const said = past.replay;

/** The course of a shift that goes on is asked for again so often. */
const AGAIN_MS = 30_000;
const MINUTE_MS = 60_000;
const NO_RUNS: readonly PastRun[] = [];
const NO_NOTES: Course['notes'] = [];
/** A shift that goes on is looked at so long before its newest moment at first. */
const FIRST_MS = 10 * MINUTE_MS;

/** Any minute of any shift, as it was: played, gone through and looked at closely. */
export function ReplayScreen({ overview }: { readonly overview: PastOverview | undefined }) {
  const choosing = useChosen();
  const [chosen] = choosing;
  const { id } = usePart('line');
  const runs = useAsked<readonly PastRun[]>(`/api/lines/${encodeURIComponent(id)}/past/runs`, AGAIN_MS);
  // another shift is another page: where it was chosen has the focus again
  const another = useRef(false);
  const shift = overview && shiftOf(overview, chosen.of ?? chosen.at);
  if (!overview || !shift || (chosen.run !== undefined && runs.state === 'asking'))
    return (
      <Frame
        screen="replay"
        title={past.screens.replay}
        lead={[overview && !shift ? said.none : past.asking, '']}
        overview={overview}
        asked={{ state: overview ? 'answered' : 'asking', trouble: undefined }}
      >
        {null}
      </Frame>
    );
  const list = runs.data ?? NO_RUNS;
  const run = chosen.run === undefined ? undefined : stretchOf(`run-${chosen.run}`, overview, list);
  const stretch = run ?? shiftStretch(shift);
  return (
    <Looked
      key={idOf(stretch)}
      overview={overview}
      runs={list}
      stretch={stretch}
      choosing={choosing}
      another={another}
    />
  );
}

/** The shift that a moment lies in; the newest one where none is chosen. */
function shiftOf({ shifts }: PastOverview, at: string | undefined): PastShift | undefined {
  const moment = Number(at);
  const found = shifts.find(({ from, to }) => moment >= from && moment < to);
  return found ?? shifts.findLast(({ from }) => !(moment < from)) ?? shifts.at(-1);
}

function Looked({
  overview,
  runs,
  stretch,
  choosing: [chosen, choose],
  another,
}: {
  readonly overview: PastOverview;
  readonly runs: readonly PastRun[];
  readonly stretch: Stretch;
  readonly choosing: ReturnType<typeof useChosen>;
  readonly another: RefObject<boolean>;
}) {
  const { id, zone } = usePart('line');
  // what is opened stays what it is: a shift that goes on is read up to the moment it was opened at
  const [until, setUntil] = useState(() => Math.min(stretch.to, overview.now));
  const [from, to] = [instantFromMs(stretch.from), instantFromMs(until)];
  const base = `/api/lines/${encodeURIComponent(id)}/past`;
  const course = useAsked<Course>(
    `${base}/course${queryOf({ from: stretch.from, to: stretch.to })}`,
    AGAIN_MS,
  );
  const [session, playing] = useReplay(id, from, to);
  const first = Number(chosen.at);
  const cursor = useCursor(
    from,
    to,
    momentAt(
      chosen.at === undefined || !(first <= until)
        ? Math.max(stretch.from, until - FIRST_MS)
        : Math.max(stretch.from, first),
    ),
  );
  const as: As = chosen.as === 'known' ? 'known' : 'shown';
  const setAs = (next: As) => choose({ as: next === 'known' ? 'known' : undefined });
  const wide = WIDE.find((one) => String(one) === chosen.wide) ?? WIDE_USUAL;
  const station = chosen.station;
  const at = epochMs(cursor.at);
  const window = windowAround(at, wide * MINUTE_MS, { from: stretch.from, to: until });
  // asked for before the window around it: the moment comes first
  useEffect(() => session?.show({ at: cursor.at, as, station }), [session, cursor.at, as, station]);
  const shown = useWindow(session, playing.progress.kind === 'open', window, station);

  useAddress(id, at, cursor.plays);

  const align = ALIGNMENTS.find((one) => one === chosen.align) ?? 'clock';
  const other = chosen.other === undefined ? undefined : stretchOf(chosen.other, overview, runs);
  const compared = useCompared(base, stretch, other, align, at);
  const names = other && namesOf(stretch, other, zone);

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
  const unheard = useMemo(() => unheardIn(playing.progress), [playing.progress]);
  const { go: goTo } = cursor;
  const go = useCallback((moment: number) => goTo(momentAt(moment)), [goTo]);

  return (
    <Frame
      screen="replay"
      title={titleOf(stretch, zone)}
      lead={course.data ? said.lead(course.data) : [past.asking, '']}
      actions={
        <>
          <ShiftChoice
            overview={overview}
            runs={runs}
            stretch={stretch}
            another={another}
            choose={(next) =>
              choose({
                at: String(next.from),
                of: undefined,
                run: next.kind === 'run' ? String(next.from) : undefined,
                ...(idOf(next) === chosen.other ? { other: undefined } : {}),
              })
            }
          />
          <UnderChoice
            overview={overview}
            runs={runs}
            stretch={stretch}
            other={other}
            choose={(next) => choose({ other: next && idOf(next) })}
          />
        </>
      }
      overview={overview}
      asked={course}
    >
      <Measured className="coursebox">
        {(width) =>
          course.data && (
            <CourseStrip
              course={course.data}
              width={width}
              zone={zone}
              at={at}
              window={window}
              unheard={unheard}
              go={go}
              hung={
                names && compared?.compared && compared.course
                  ? { compared: compared.compared, course: compared.course, names }
                  : undefined
              }
            />
          )
        }
      </Measured>
      {names && (
        <AlignChoice
          align={align}
          compared={compared?.compared}
          names={names}
          choose={(next) => choose({ align: next === 'clock' ? undefined : next })}
        />
      )}
      <Saying
        texts={[
          stretch.kind === 'run' && stretch.run.cut && said.compared.cut,
          chosen.run !== undefined && stretch.kind !== 'run' && said.compared.noRun,
          chosen.other !== undefined && !other && runs !== NO_RUNS && said.compared.noOther,
          compared?.asked.state === 'refused' && past.refused(compared.asked.trouble ?? ''),
        ]}
      />
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
      <GoneOn until={until} now={Math.min(stretch.to, overview.now)} zone={zone} readOn={setUntil} />
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
              unheard={unheard}
              go={go}
            />
          )}
        </Measured>
        <p className="foot">
          {said.window.rejects} {unheard.some((span) => isWithin(span, window)) && said.window.unheard}{' '}
          {said.window.asKnown}
        </p>
      </section>
      <div className="replayhalves">
        <div>
          <AtCursor
            frame={playing.frame}
            zone={zone}
            station={station}
            choose={(next) => choose({ station: next })}
            as={as}
            setAs={setAs}
            from={stretch.from}
            go={go}
          />
          {names && <ComparedSheet compared={compared?.compared} names={names} zone={zone} />}
        </div>
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

function Saying({ texts }: { readonly texts: readonly (string | false)[] }) {
  return texts.map((text) =>
    text === false ? null : (
      <p key={text} className="saying">
        {text}
      </p>
    ),
  );
}
