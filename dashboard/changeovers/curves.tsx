import type { ChangeoverCurve, ChangeoverCurves } from '../../model/past/changeoverCurves.ts';
import type { OpenedChangeover } from '../../model/past/changeoverOpened.ts';
import { words } from '../app/words.ts';
import { Measured } from '../past/measured.tsx';
import { Figure } from '../figures/figure.tsx';
import type { Numbered } from '../figures/pieces.ts';
import { Line, Rich } from '../type/line.tsx';

const { past } = words.screen;
const said = past.changeovers;

const MINUTE_MS = 60_000;
const [TOP, HEIGHT, LEFT] = [14, 260, 52];
/** Room at the right for the names of lines; where a column is narrower than `NAMES_FROM` there are none. */
const [NAMES, NAMES_FROM] = [200, 640];
const ROW = 17;
/** Of a curve's points so many are in its table: every fourth. */
const TABLE_STEP = 4;

/** Earlier ones of the pair as thin curves of good cartons; the board between this one and no changeover is what was lost. */
export function Curves({ opened, zone }: { readonly opened: OpenedChangeover; readonly zone: string }) {
  const { curves, earlier, usual } = opened;
  return (
    <section className="sheet">
      <h2>
        <span>
          <Rich text={said.curves.title(earlier)} of={[['earlierChangeovers', past.count(earlier)]]} />
        </span>
      </h2>
      <p className="second">
        <Rich
          text={said.curves.foot(curves.curves.length - 1, earlier)}
          of={[['earlierChangeovers', past.count(curves.curves.length - 1)]]}
        />
        {usual === undefined && earlier > 0 && ` ${said.curves.tooFew}`}
      </p>
      <Measured className="drawn">
        {(width) => <Drawing opened={opened} zone={zone} width={width} />}
      </Measured>
      <details className="noprint">
        <summary>{said.curves.table}</summary>
        <Table curves={curves} zone={zone} />
      </details>
    </section>
  );
}

function Drawing({
  opened,
  zone,
  width,
}: {
  readonly opened: OpenedChangeover;
  readonly zone: string;
  readonly width: number;
}) {
  const { curves } = opened;
  const right = width >= NAMES_FROM ? width - NAMES : width - 12;
  const floor = TOP + HEIGHT;
  const x = (after: number) => LEFT + ((right - LEFT) * after) / curves.until;
  const y = (good: number) => floor - (HEIGHT * good) / curves.goodMax;
  const none = (curves.target * curves.until) / MINUTE_MS;
  const own = curves.curves.find((curve) => curve.opened);
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing is no fieldset
    <svg
      viewBox={`0 0 ${width} ${floor + 28}`}
      role="group"
      aria-label={`${said.curves.title(opened.earlier)}. ${said.drawnAs(opened)}`}
      className="curves"
    >
      {own?.atRate && <Lost curve={own} curves={curves} x={x} y={y} />}
      {goodTicks(curves.goodMax).map((good) => (
        <g key={good}>
          <path className="grid" d={`M${LEFT} ${y(good)}H${right}`} />
          <Line x={LEFT - 6} y={y(good) + 5} size={13} tone="ink2" anchor="end">
            {past.count(good)}
          </Line>
        </g>
      ))}
      <path className="scoreline" d={`M${x(0)} ${y(0)}L${right} ${y(none)}`} />
      {curves.curves.map((curve) => (
        <Curve key={curve.id} curve={curve} x={x} y={y} />
      ))}
      <path className="floor" d={`M${LEFT} ${floor}H${right}`} />
      {minuteTicks(curves.until, right - LEFT).map((after, place, all) => (
        <g key={after}>
          <path className="cutline thin" d={`M${x(after)} ${floor}v5`} />
          <Line x={x(after)} y={floor + 20} size={13} tone="ink2" anchor="middle">
            {said.curves.minutes(after, place === all.length - 1)}
          </Line>
        </g>
      ))}
      {width >= NAMES_FROM && <Names opened={opened} zone={zone} x={right + 8} y={y} none={none} />}
    </svg>
  );
}

function Curve({
  curve,
  x,
  y,
}: {
  readonly curve: ChangeoverCurve;
  readonly x: (after: number) => number;
  readonly y: (good: number) => number;
}) {
  const { points, atRate, opened } = curve;
  return (
    <>
      <path className={opened ? 'own' : 'earlier'} d={pathOf(points, x, y)} />
      {atRate &&
        (opened ? (
          <path className="ownrate" d={`M${x(atRate.after)} ${y(atRate.good) - 7}l7 7l-7 7l-7 -7Z`} />
        ) : (
          <circle className="rate1" cx={x(atRate.after)} cy={y(atRate.good)} r={4} />
        ))}
    </>
  );
}

/** Nothing is joined across what nobody saw. */
function pathOf(
  points: ChangeoverCurve['points'],
  x: (after: number) => number,
  y: (good: number) => number,
): string {
  return points
    .map(({ after, good }, place) =>
      good === undefined
        ? ''
        : `${place > 0 && points[place - 1]?.good !== undefined ? 'L' : 'M'}${x(after)} ${y(good)}`,
    )
    .join('');
}

function Lost({
  curve,
  curves,
  x,
  y,
}: {
  readonly curve: ChangeoverCurve;
  readonly curves: ChangeoverCurves;
  readonly x: (after: number) => number;
  readonly y: (good: number) => number;
}) {
  const { after, good } = curve.atRate!;
  const below = curve.points
    .filter((point) => point.after < after && point.good !== undefined)
    .map((point) => `L${x(point.after)} ${y(point.good!)}`)
    .reverse();
  return (
    <>
      <path
        className="lost"
        d={`M${x(0)} ${y(0)}L${x(after)} ${y((curves.target * after) / MINUTE_MS)}V${y(good)}${below.join('')}Z`}
      />
      <path
        className="cutline thin"
        d={`M${x(after)} ${y((curves.target * after) / MINUTE_MS)}V${y(good)}`}
      />
    </>
  );
}

/** Names at the lines' ends, pushed apart where they would overlap. */
function Names({
  opened,
  zone,
  x,
  y,
  none,
}: {
  readonly opened: OpenedChangeover;
  readonly zone: string;
  readonly x: number;
  readonly y: (good: number) => number;
  readonly none: number;
}) {
  const { curves, changeover } = opened;
  const earlier = curves.curves.filter((curve) => !curve.opened);
  const shortest = earlier.toSorted((a, b) => a.lasted - b.lasted)[0];
  const longest = earlier.toSorted((a, b) => b.lasted - a.lasted)[0];
  const end = (curve: ChangeoverCurve | undefined) => curve?.points.at(-1)?.good;
  const own = curves.curves.find((curve) => curve.opened);
  const timed = (ms: number): readonly Numbered[] => [['changeoverTime', past.past(ms)]];
  const names: readonly {
    readonly text: string;
    readonly of: readonly Numbered[];
    readonly good: number | undefined;
    readonly bold: boolean;
  }[] = [
    {
      text: said.curves.none(curves.target),
      of: [['target', past.count(curves.target)]],
      good: none,
      bold: false,
    },
    { text: said.curves.this(changeover.lasted), of: timed(changeover.lasted), good: end(own), bold: true },
    ...(shortest && earlier.length > 1
      ? [
          {
            text: said.curves.shortest(shortest.lasted, shortest.at, zone),
            of: timed(shortest.lasted),
            good: end(shortest),
            bold: false,
          },
        ]
      : []),
    ...(longest && earlier.length > 1
      ? [
          {
            text: said.curves.longest(longest.lasted, longest.at, zone),
            of: timed(longest.lasted),
            good: end(longest),
            bold: false,
          },
        ]
      : []),
  ];
  const placed = names
    .flatMap((name) => (name.good === undefined ? [] : [{ ...name, y: y(name.good) }]))
    .sort((a, b) => a.y - b.y);
  let last = Number.NEGATIVE_INFINITY;
  return placed.map(({ text, of, bold, y: wanted }) => {
    last = Math.max(wanted, last + ROW);
    return (
      <Line key={text} x={x} y={last + 4} size={13} bold={bold} max={NAMES - 10} least={12} of={of}>
        {text}
      </Line>
    );
  });
}

function Table({ curves, zone }: { readonly curves: ChangeoverCurves; readonly zone: string }) {
  const own = curves.curves.at(-1);
  const rows = (own?.points ?? []).filter((_, place) => place % TABLE_STEP === 0);
  return (
    <table>
      <thead>
        <tr>
          <th>{said.curves.columns.after}</th>
          <th className="n">
            <Figure of="target">{said.curves.columns.none}</Figure>
          </th>
          {curves.curves.map(({ id, at, opened }) => (
            <th key={id} className="n">
              <Figure of="goodSinceBegin">{opened ? said.curves.columns.own : past.on(at, zone)}</Figure>
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ after }, row) => (
          <tr key={after}>
            <td>{past.lasted(after)}</td>
            <td className="n">{past.count(Math.round((curves.target * after) / MINUTE_MS))}</td>
            {curves.curves.map(({ id, points }) => {
              const good = points[row * TABLE_STEP]?.good;
              return (
                <td key={id} className="n">
                  {good === undefined ? said.cartons(undefined) : past.count(Math.round(good))}
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Four or five round numbers. */
function goodTicks(most: number): readonly number[] {
  const power = 10 ** Math.floor(Math.log10(most / 4));
  const step = [1, 2, 5, 10].map((times) => times * power).find((one) => most / one <= 5) ?? most;
  return Array.from({ length: Math.floor(most / step) }, (_, n) => (n + 1) * step).filter((one) => one >= 1);
}

function minuteTicks(until: number, width: number): readonly number[] {
  const step = [5, 10, 20, 30, 60].find((one) => (until / (one * MINUTE_MS)) * 48 <= width) ?? 60;
  return Array.from({ length: Math.floor(until / (step * MINUTE_MS)) + 1 }, (_, n) => n * step * MINUTE_MS);
}
