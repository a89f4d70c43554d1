import { memo, useMemo } from 'react';
import type { Course } from '../../model/past/course.ts';
import { words } from '../app/words.ts';
import { Mark } from '../marks/symbols.tsx';
import { measure } from '../type/measure.ts';
import { boardOf, cutsOf, freePips } from './board.ts';
import { Dragged } from './dragged.tsx';
import { Flag } from './flag.tsx';
import { type TimeBox, ticksOf, xOf } from './scale.ts';

const said = words.screen.past.replay;
const TYPE = 13;
/** Rows from the top: pips, board, clock, marks. */
const TOP = 46;
const HEIGHT = 82;
const FLOOR = TOP + HEIGHT;
const RAIL = FLOOR + 42;
export const STRIP_HEIGHT = RAIL + 16;
const PATTERN: Partial<Readonly<Record<string, string>>> = {
  changeover: 'url(#setting)',
  isolated: 'url(#isolated)',
  unknown: 'url(#unseen)',
};

/** A shift as board, what was cut out of it, and on its chain the pocket that is looked at, within the folded window. */
export function CourseStrip({
  course,
  width,
  zone,
  at,
  window,
  go,
}: {
  readonly course: Course;
  readonly width: number;
  readonly zone: string;
  readonly at: number;
  readonly window: { readonly from: number; readonly to: number };
  readonly go: (at: number) => void;
}) {
  const { from, to } = course.seen;
  const box = useMemo<TimeBox>(() => ({ from, to, left: 1, right: width - 1 }), [from, to, width]);
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
      <svg width={width} height={STRIP_HEIGHT} aria-hidden="true">
        <Board course={course} box={box} zone={zone} />
        <Fold window={window} box={box} />
        <Notes notes={course.notes} box={box} />
        <Pocket at={at} box={box} zone={zone} />
      </svg>
    </Dragged>
  );
}

const Board = memo(function Board({
  course,
  box,
  zone,
}: {
  readonly course: Course;
  readonly box: TimeBox;
  readonly zone: string;
}) {
  const drawn = useMemo(() => {
    const most = Math.max(10, (course.strip.target ?? 0) * 1.2, ...course.strip.rates.map((one) => one ?? 0));
    const y = (rate: number) => FLOOR - (HEIGHT * rate) / most;
    return { board: boardOf(course.strip, box, y, FLOOR), cuts: cutsOf(course.strip, box), y };
  }, [course, box]);
  const pips = useMemo(() => freePips(course.stops, box), [course, box]);
  const { target } = course.strip;
  return (
    <g>
      <path d={drawn.board.filled} className="boardfill" />
      <path d={drawn.board.line} className="boardline" />
      {drawn.cuts.map(({ cut, left, right }) => (
        <g key={`${cut.kind} ${cut.from}`}>
          <rect x={left} y={TOP} width={right - left} height={HEIGHT} fill="var(--ground)" />
          {PATTERN[cut.kind] && (
            <rect x={left} y={TOP} width={right - left} height={HEIGHT} fill={PATTERN[cut.kind]} />
          )}
          <path
            d={`M${left} ${TOP}V${FLOOR}M${right} ${TOP}V${FLOOR}`}
            className={isScored(cut.kind) ? 'scoreline' : 'edge'}
          />
          <Inside cut={cut} left={left} right={right} />
        </g>
      ))}
      {target !== undefined && (
        <path d={`M${box.left} ${drawn.y(target)}H${box.right}`} className="targetline" />
      )}
      <path d={`M${box.left} ${FLOOR}H${box.right}`} className="floorline" />
      {ticksOf(box, 90).map((tick) => {
        const x = xOf(tick, box);
        const name = said.clock(tick, zone);
        const half = measure(name, TYPE) / 2;
        return (
          <g key={tick}>
            <path d={`M${x} ${FLOOR}v6`} className="edge" />
            <text
              x={Math.min(box.right - half, Math.max(box.left + half, x))}
              y={FLOOR + 20}
              fontSize={TYPE}
              textAnchor="middle"
              className="ink2"
            >
              {name}
            </text>
          </g>
        );
      })}
      {pips.map(({ stop, x, pip }) => (
        <g key={stop.id}>
          <path d={`M${pip} ${TOP - 20}L${x} ${TOP - 4}`} className="edge" />
          <path d={pipShape(pip)} className="piptab" />
          <text x={pip} y={TOP - 26} dy=".36em" fontSize={12} textAnchor="middle">
            {stop.station?.number}
          </text>
        </g>
      ))}
      <Presses course={course} box={box} />
    </g>
  );
});

function isScored(kind: string): boolean {
  return kind === 'plannedPause' || kind === 'pauseOver' || kind === 'changeover' || kind === 'unknown';
}

function pipShape(x: number): string {
  const [top, floor] = [TOP - 36, TOP - 16];
  return `M${x - 9} ${floor}V${top + 4}L${x - 5} ${top}H${x + 5}L${x + 9} ${top + 4}V${floor}Z`;
}

/** What it was, upright where it does not fit along; left out where neither does. */
function Inside({
  cut,
  left,
  right,
}: {
  readonly cut: Course['strip']['cuts'][number];
  readonly left: number;
  readonly right: number;
}) {
  const name =
    cut.kind === 'unknown'
      ? said.notSeen(cut.to - cut.from)
      : cut.kind === 'plannedPause'
        ? said.break
        : cut.kind === 'changeover'
          ? said.changeover(undefined)
          : undefined;
  if (name === undefined || right - left < TYPE + 4) return null;
  const wide = measure(name, TYPE);
  const along = wide + 8 <= right - left;
  if (!along && wide + 8 > HEIGHT) return null;
  const [x, y] = [(left + right) / 2, TOP + HEIGHT / 2];
  return (
    <g transform={along ? `translate(${x} ${y})` : `translate(${x} ${y}) rotate(-90)`}>
      <rect x={-wide / 2 - 3} y={-9} width={wide + 6} height={18} fill="var(--ground)" />
      <text fontSize={TYPE} textAnchor="middle" dy=".36em" className="ink2">
        {name}
      </text>
    </g>
  );
}

const PRESS = { caused: 'd-button', during: 'd-button-open', uncertain: 'd-button-dotted' } as const;

function Presses({ course: { presses }, box }: { readonly course: Course; readonly box: TimeBox }) {
  const marks = presses.map((press) => ({ press, x: xOf(press.at, box) }));
  return marks.map(({ press, x }, place) => {
    const text = said.press(press.device, press.until === undefined ? undefined : press.until - press.at);
    const room = (marks[place + 1]?.x ?? box.right + 10) - x - 24;
    return (
      <g key={press.id}>
        <Mark id={PRESS[press.role]} size={18} x={x - 9} y={RAIL - 10} />
        {measure(text, TYPE) < room && (
          <text x={x + 13} y={RAIL + 5} fontSize={TYPE} className="ink2">
            {text}
          </text>
        )}
      </g>
    );
  });
}

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
}: {
  readonly window: { readonly from: number; readonly to: number };
  readonly box: TimeBox;
}) {
  const left = Math.max(box.left, xOf(window.from, box));
  const right = Math.min(box.right, Math.max(left + 8, xOf(window.to, box)));
  const slope = Math.min(8, (right - left) / 4);
  return (
    <g className="foldedwindow">
      <path
        d={`M${left} ${TOP}L${left + slope} ${TOP - 12}H${right - slope}L${right} ${TOP}V${FLOOR}H${left}Z`}
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
