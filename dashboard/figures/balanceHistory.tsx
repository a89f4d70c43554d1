import type { BalanceAnswer } from '../../model/past/balanceAnswer.ts';
import { words } from '../app/words.ts';
import { Measured } from '../past/measured.tsx';
import { Line } from '../type/line.tsx';

const { past, balance } = words.screen;
const said = balance.screen.history;

const [TOP, HEIGHT, GAP, PICKED, FOOT, LEFT] = [12, 130, 10, 34, 26, 46];
/** So many px of the axis for each of its moments. */
const TICK_WIDE = 110;
/** A moment nearer to the end has no room for its words. */
const LAST_TICK = 76;

type Point = BalanceAnswer['points'][number];

/** How the unaccounted came about, as steps over a dashed line of none; what nobody can say is hatched. */
export function BalanceHistory({ answer, zone }: { readonly answer: BalanceAnswer; readonly zone: string }) {
  return (
    <section className="sheet balancehistory">
      <h2>{said.title}</h2>
      <p className="second">{said.about(answer)}</p>
      <Measured className="drawn">
        {(width) => <Drawing answer={answer} zone={zone} width={width} />}
      </Measured>
      <details className="noprint">
        <summary>{said.table}</summary>
        <Table points={answer.points} zone={zone} />
      </details>
    </section>
  );
}

function Drawing({
  answer: { points, step },
  zone,
  width,
}: {
  readonly answer: BalanceAnswer;
  readonly zone: string;
  readonly width: number;
}) {
  const known = points.flatMap(({ unaccounted }) => (unaccounted === undefined ? [] : [unaccounted]));
  const [low, high] = [Math.min(0, ...known), Math.max(1, ...known)];
  const [begin, end] = [points[0]!.from, points.at(-1)!.to];
  const x = (at: number) => LEFT + ((width - 2 - LEFT) * (at - begin)) / Math.max(1, end - begin);
  const y = (missing: number) => TOP + (HEIGHT * (high - missing)) / (high - low);
  const floor = TOP + HEIGHT + GAP + PICKED;
  const most = Math.max(1, ...points.map(({ picked }) => picked ?? 0));
  return (
    <svg
      viewBox={`0 0 ${width} ${floor + FOOT}`}
      height={floor + FOOT}
      role="img"
      aria-label={`${said.title}. ${said.drawn(points.length, known.at(-1))}`}
      className="balancesteps"
    >
      {points.map(({ from, to, unaccounted, picked }) => (
        <g key={from}>
          {unaccounted === undefined ? (
            <rect className="unseenbox" x={x(from)} y={TOP} width={x(to) - x(from)} height={HEIGHT} />
          ) : (
            <rect
              className="board"
              x={x(from)}
              y={Math.min(y(0), y(unaccounted))}
              // a little over its end, so that no seam shows between two
              width={x(to) - x(from) + (to < end ? 0.6 : 0)}
              height={Math.abs(y(0) - y(unaccounted))}
            />
          )}
          {picked !== undefined && (
            <rect
              className="pickedbar"
              x={x(from) + 0.5}
              y={floor - (PICKED * Math.max(0, picked)) / most}
              width={Math.max(0.5, x(to) - x(from) - 1)}
              height={(PICKED * Math.max(0, picked)) / most}
            />
          )}
        </g>
      ))}
      <path className="cutline" d={stepsOf(points, x, y)} />
      <path className="scoreline strong" d={`M${LEFT} ${y(0)}H${width - 2}`} />
      {[...new Set([low, 0, high])].map((value) => (
        <Line key={value} x={LEFT - 8} y={y(value) + 5} size={13} tone="ink2" anchor="end">
          {past.count(value)}
        </Line>
      ))}
      <path className="floor" d={`M${LEFT} ${floor}H${width - 2}`} />
      {ticksOf(points, width)
        .filter((at) => x(at) < width - LAST_TICK)
        .map((at) => (
          <g key={at}>
            <path className="cutline thin" d={`M${x(at)} ${floor}v4`} />
            <Line x={x(at)} y={floor + 18} size={13} tone="ink2">
              {said.tick(step, at, zone)}
            </Line>
          </g>
        ))}
    </svg>
  );
}

/** Over each part its own height; nothing is joined across what nobody knows. */
function stepsOf(
  points: readonly Point[],
  x: (at: number) => number,
  y: (missing: number) => number,
): string {
  let before: number | undefined;
  return points
    .map(({ from, to, unaccounted }) => {
      if (unaccounted === undefined) {
        before = undefined;
        return '';
      }
      const joins = before === undefined ? `M${x(from)} ${y(unaccounted)}` : `V${y(unaccounted)}`;
      before = unaccounted;
      return `${joins}H${x(to)}`;
    })
    .join('');
}

/** Some of the moments at which parts begin, evenly spaced. */
function ticksOf(points: readonly Point[], width: number): readonly number[] {
  const every = Math.max(1, Math.ceil((points.length * TICK_WIDE) / Math.max(TICK_WIDE, width - LEFT)));
  return points.filter((_, place) => place % every === 0).map(({ from }) => from);
}

function Table({ points, zone }: { readonly points: readonly Point[]; readonly zone: string }) {
  const { columns } = said;
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">{columns.from}</th>
          <th scope="col">{columns.to}</th>
          <th scope="col" className="n">
            {columns.picked}
          </th>
          <th scope="col" className="n">
            {columns.unaccounted}
          </th>
        </tr>
      </thead>
      <tbody>
        {points.map((point) => (
          <tr key={point.from}>
            <td>{said.part(point, zone)}</td>
            <td>{past.when(point.to, zone)}</td>
            <td className="n">{point.picked === undefined ? said.notKnown : past.count(point.picked)}</td>
            <td className="n">
              {point.unaccounted === undefined ? said.notKnown : past.count(point.unaccounted)}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
