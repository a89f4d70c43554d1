import { memo, useMemo } from 'react';
import { momentOf, placeOf } from '../../model/past/compared/aligned.ts';
import type { Compared } from '../../model/past/compared/compared.ts';
import type { Course } from '../../model/past/course.ts';
import { words } from '../app/words.ts';
import { Mark } from '../marks/symbols.tsx';
import { measure } from '../type/measure.ts';
import { freePips } from './board.ts';
import { CourseBoard, mostOf } from './courseBoard.tsx';
import { CourseTicks } from './courseTicks.tsx';
import { Dragged } from './dragged.tsx';
import { Flag } from './flag.tsx';
import { type TimeBox, xOf } from './scale.ts';
import { Unheard, type UnheardSpan } from './unheard.tsx';

const said = words.screen.past.replay;
const TYPE = 13;
/** Rows from the top: pips, board, clock, marks. */
const TOP = 46;
const HEIGHT = 82;
const FLOOR = TOP + HEIGHT;
const RAIL = FLOOR + 42;
export const STRIP_HEIGHT = RAIL + 16;
/** What is hung under it: its floor and its end, its own flag, and the marks of both. */
const HUNG = FLOOR + 28;
const HUNG_END = HUNG + HEIGHT;
const RAILS = [HUNG_END + 42, HUNG_END + 66] as const;
const HUNG_HEIGHT = RAILS[1] + 16;
const BOARD = { floor: FLOOR, top: TOP };
const HUNG_BOARD = { floor: HUNG, top: HUNG_END };

/** Another stretch that is hung under it. */
export interface Hung {
  readonly compared: Compared;
  readonly course: Course;
  readonly names: { readonly here: string; readonly there: string };
}

/** A shift as board, what was cut out of it, and on its chain the pocket that is looked at, within the folded window. */
export function CourseStrip({
  course,
  width,
  zone,
  at,
  window,
  unheard,
  go,
  hung,
}: {
  readonly course: Course;
  readonly width: number;
  readonly zone: string;
  readonly at: number;
  readonly window: { readonly from: number; readonly to: number };
  readonly unheard: readonly UnheardSpan[];
  readonly go: (at: number) => void;
  readonly hung?: Hung | undefined;
}) {
  const { from, to } = course.seen;
  const { here, there, axis, alignment } = hung?.compared ?? NOTHING;
  const box = useMemo<TimeBox>(
    () => ({ from, to, left: 1, right: width - 1, aligned: here && axis && { side: here, axis } }),
    [from, to, width, here, axis],
  );
  const other = hung?.course;
  const below = useMemo<TimeBox | undefined>(
    () =>
      there &&
      axis &&
      other && {
        ...{ from: other.seen.from, to: other.seen.to, left: 1, right: width - 1 },
        aligned: { side: there, axis },
      },
    [other, width, there, axis],
  );
  const most = useMemo(() => mostOf(other ? [course, other] : [course]), [course, other]);
  return (
    <Dragged box={box} go={go} className="coursestrip">
      <input
        type="range"
        className="unseen"
        aria-label={said.cursor}
        min={from}
        max={to}
        step={1000}
        value={Math.round(at)}
        aria-valuetext={said.cursorAt(at, zone)}
        onChange={({ target }) => go(Number(target.value))}
      />
      <svg width={width} height={hung ? HUNG_HEIGHT : STRIP_HEIGHT} aria-hidden="true">
        <CourseBoard course={course} box={box} most={most} {...BOARD} />
        <CourseTicks box={box} zone={zone} y={FLOOR} alignment={alignment ?? 'clock'} />
        <Pips course={course} box={box} />
        {hung && below && (
          <>
            <CourseBoard course={hung.course} box={below} most={most} {...HUNG_BOARD} />
            <NamedPresses course={course} box={box} name={hung.names.here} y={RAILS[0]} />
            <NamedPresses course={hung.course} box={below} name={hung.names.there} y={RAILS[1]} />
          </>
        )}
        {!hung && <Presses course={course} box={box} y={RAIL} />}
        <Fold window={window} box={box} floor={hung ? HUNG_END : FLOOR} />
        <Unheard spans={unheard} box={box} y={TOP + 2} />
        <Notes notes={course.notes} box={box} />
        <Pocket at={at} box={box} zone={zone} />
        {below && <There at={at} box={box} below={below} zone={zone} />}
      </svg>
    </Dragged>
  );
}

const NOTHING: Partial<Compared> = {};

/** Stations of the longest stops, as many as have room. */
const Pips = memo(function Pips({ course, box }: { readonly course: Course; readonly box: TimeBox }) {
  const pips = useMemo(() => freePips(course.stops, box), [course, box]);
  return pips.map(({ stop, x, pip }) => (
    <g key={stop.id}>
      <path d={`M${pip} ${TOP - 20}L${x} ${TOP - 4}`} className="edge" />
      <path d={pipShape(pip)} className="piptab" />
      <text x={pip} y={TOP - 26} dy=".36em" fontSize={12} textAnchor="middle">
        {stop.station?.number}
      </text>
    </g>
  ));
});

function pipShape(x: number): string {
  const [top, floor] = [TOP - 36, TOP - 16];
  return `M${x - 9} ${floor}V${top + 4}L${x - 5} ${top}H${x + 5}L${x + 9} ${top + 4}V${floor}Z`;
}

const PRESS = { caused: 'd-button', during: 'd-button-open', uncertain: 'd-button-dotted' } as const;

/** Of two stretches each has a row of marks that bears its name, where it has room. */
function NamedPresses({
  name,
  ...drawn
}: {
  readonly course: Course;
  readonly box: TimeBox;
  readonly name: string;
  readonly y: number;
}) {
  const { course, box, y } = drawn;
  const label = said.compared.presses(name, course.presses.length);
  const last = Math.max(0, ...course.presses.map((press) => xOf(press.at, box)));
  const free = box.right - measure(label, TYPE) - 8;
  return (
    <>
      <Presses {...drawn} until={last + 16 < free ? free : box.right} />
      {last + 16 < free && (
        <text x={box.right} y={y + 5} fontSize={TYPE} textAnchor="end" className="ink2">
          {label}
        </text>
      )}
    </>
  );
}

const Presses = memo(function Presses({
  course: { presses },
  box,
  y,
  until = box.right,
}: {
  readonly course: Course;
  readonly box: TimeBox;
  readonly y: number;
  /** From here on something else is written. */
  readonly until?: number;
}) {
  const marks = presses.map((press) => ({ press, x: xOf(press.at, box) }));
  return marks.map(({ press, x }, place) => {
    const text = said.press(press.device, press.until === undefined ? undefined : press.until - press.at);
    const room = (marks[place + 1]?.x ?? until + 10) - x - 24;
    return (
      <g key={press.id}>
        <Mark id={PRESS[press.role]} size={18} x={x - 9} y={y - 10} />
        {measure(text, TYPE) < room && (
          <text x={x + 13} y={y + 5} fontSize={TYPE} className="ink2">
            {text}
          </text>
        )}
      </g>
    );
  });
});

/** [RP21] Each note as a small flag at its moment, on a mast from the floor; dashed where it was written later. */
function Notes({ notes, box }: { readonly notes: Course['notes']; readonly box: TimeBox }) {
  return notes
    .filter(({ withdrawn }) => !withdrawn)
    .map((note) => {
      const x = xOf(note.at, box);
      // near the right edge it flies the other way
      const way = x + 12 > box.right ? -1 : 1;
      return (
        <g key={note.id} className={note.later ? 'noteflag later' : 'noteflag'}>
          <title>{said.notes.flag(note)}</title>
          <path d={`M${x} ${FLOOR}V${FLOOR - 34}`} />
          <path className="cloth" d={`M${x} ${FLOOR - 34}h${11 * way}l${-3 * way} 5l${3 * way} 5H${x}Z`} />
        </g>
      );
    });
}

/** The window as a panel that is folded up along two scores. */
function Fold({
  window,
  box,
  floor,
}: {
  readonly window: { readonly from: number; readonly to: number };
  readonly box: TimeBox;
  readonly floor: number;
}) {
  const left = Math.max(box.left, xOf(window.from, box));
  const right = Math.min(box.right, Math.max(left + 8, xOf(window.to, box)));
  const slope = Math.min(8, (right - left) / 4);
  return (
    <g className="foldedwindow">
      <path
        d={`M${left} ${TOP}L${left + slope} ${TOP - 12}H${right - slope}L${right} ${TOP}V${floor}H${left}Z`}
      />
      <path className="scoreline" d={`M${left} ${TOP}H${right}`} />
    </g>
  );
}

/** The pocket on the chain that is looked at: its lugs reach over the floor, its flag bears the time. */
function Pocket({ at, box, zone }: { readonly at: number; readonly box: TimeBox; readonly zone: string }) {
  const x = Math.min(box.right, Math.max(box.left, xOf(at, box)));
  return (
    <g className="pocket">
      <path d={`M${x} 4V${FLOOR}`} className="pocketline" />
      <path d={`M${x - 11} ${FLOOR - 13}V${FLOOR + 5}H${x + 11}V${FLOOR - 13}`} className="lugs" />
      <rect x={x - 7} y={FLOOR - 9} width={14} height={12} className="carton" />
      <Flag x={x} box={box} name={said.moment(at, zone)} />
    </g>
  );
}

/** [RP10] Where the one that is hung was at the same place; nowhere where it was never there. */
function There({
  at,
  box,
  below,
  zone,
}: {
  readonly at: number;
  readonly box: TimeBox;
  readonly below: TimeBox;
  readonly zone: string;
}) {
  if (!box.aligned || !below.aligned) return null;
  const moment = momentOf(below.aligned.side, placeOf(box.aligned.side, at));
  if (moment === undefined) return null;
  const x = Math.min(below.right, Math.max(below.left, xOf(moment, below)));
  return (
    <g className="pocket">
      <path d={`M${x} ${HUNG}V${HUNG_END + 6}`} className="pocketline" />
      <g transform={`translate(0 ${HUNG_END + 6})`}>
        <Flag x={x} box={below} name={said.moment(moment, zone)} />
      </g>
    </g>
  );
}
