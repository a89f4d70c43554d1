import type { Report } from '../../model/report/report.ts';
import { words } from '../app/words.ts';
import { type Fill, Filled } from './drawn.tsx';

const { past } = words.screen;
const said = past.report;
const BOX = { left: 34, width: 662, height: 52 } as const;
/** Above it stand the stations of stops; where these are not written on there is no room for them. */
const TOP = { numbered: 24, plain: 4 } as const;
/** Stops whose station is written on: the longest that do not stand on one another. */
const NUMBERED = 14;
const APART = 20;
/** Two numbers beside the strip stand so far from one another, at least. */
const TICK = 14;
/** Under two days the day says nothing: ticks bear the clock. */
const CLOCKED = 2 * 86_400_000;

const DRAWN: { readonly [kind in Report['strip']['cuts'][number]['kind']]?: Fill } = {
  unknown: 'hatch',
  plannedPause: 'dashedEmpty',
  pauseOver: 'dashedEmpty',
  changeover: 'setting',
  isolated: 'plus',
};

/** Good cartons over the period as a strip of board; what it did not produce in is cut out of it. */
export function PaperStrip({ report }: { readonly report: Report }) {
  const { strip, from, to, zone, kind } = report;
  const most = Math.max(10, (strip.target ?? 0) * 1.15, ...strip.rates.map((rate) => rate ?? 0));
  const x = (at: number) => BOX.left + ((at - from) / (to - from)) * BOX.width;
  const top = kind === 'shift' ? TOP.numbered : TOP.plain;
  const y = (rate: number) => top + BOX.height * (1 - rate / most);
  const floor = top + BOX.height;
  if (to <= from || strip.rates.length === 0) return null;
  return (
    <section>
      <h3>{said.strip.title(kind)}</h3>
      <svg
        viewBox={`0 0 714 ${floor + 18}`}
        className="paperstrip"
        role="img"
        aria-label={said.strip.said(report)}
      >
        <path className="board" d={boardOf(strip, from, x, y, floor)} />
        {strip.cuts.map((cut) => (
          <Filled
            key={`${cut.from} ${cut.kind}`}
            fill={DRAWN[cut.kind] ?? 'empty'}
            x={x(cut.from)}
            y={top}
            width={Math.max(1.2, x(cut.to) - x(cut.from))}
            height={BOX.height}
          />
        ))}
        <path className="floor" d={`M${BOX.left} ${floor}H${BOX.left + BOX.width}`} />
        {strip.target !== undefined && (
          <>
            <path className="score" d={`M${BOX.left} ${y(strip.target)}H${BOX.left + BOX.width}`} />
            <text x={BOX.left - 4} y={y(strip.target) + 4} textAnchor="end" className="tick">
              {past.count(strip.target)}
            </text>
          </>
        )}
        {(strip.target === undefined || floor - y(strip.target) > TICK) && (
          <text x={BOX.left - 4} y={floor} textAnchor="end" className="tick">
            0
          </text>
        )}
        {kind === 'shift' &&
          numbered(strip.cuts, x).map(({ station, from: at }) => (
            <g key={at}>
              <rect className="tab" x={x(at) - 8} y={2} width={17} height={17} rx={3} />
              <text x={x(at) + 0.5} y={14.5} textAnchor="middle" className="tick">
                {station}
              </text>
            </g>
          ))}
        {ticksOf(from, to).map((at, nth) => (
          <text
            key={at}
            x={x(at)}
            y={floor + 15}
            textAnchor="middle"
            className={nth % 2 === 1 ? 'tick second' : 'tick'}
          >
            {to - from < CLOCKED ? past.at(at, zone) : past.on(at, zone)}
          </text>
        ))}
      </svg>
    </section>
  );
}

function boardOf(
  { rates, bucketMs }: Report['strip'],
  from: number,
  x: (at: number) => number,
  y: (rate: number) => number,
  floor: number,
): string {
  return rates
    .map((rate, n) => {
      if (rate === null) return '';
      const [left, right] = [x(from + n * bucketMs), x(from + (n + 1) * bucketMs)];
      return `M${left} ${floor}V${y(rate)}H${right}V${floor}Z`;
    })
    .join('');
}

function numbered(cuts: Report['strip']['cuts'], x: (at: number) => number): Report['strip']['cuts'] {
  const longest = cuts
    .filter(({ station }) => station !== undefined)
    .sort((a, b) => b.to - b.from - (a.to - a.from));
  const chosen: (typeof longest)[number][] = [];
  for (const cut of longest) {
    if (chosen.length >= NUMBERED) break;
    if (chosen.every((other) => Math.abs(x(other.from) - x(cut.from)) >= APART)) chosen.push(cut);
  }
  return chosen;
}

/** Nine moments at most, evenly apart. */
function ticksOf(from: number, to: number): readonly number[] {
  const hour = 3_600_000;
  const step = [1, 2, 4, 12, 24, 48, 96, 168]
    .map((hours) => hours * hour)
    .find((one) => (to - from) / one <= 9);
  const every = step ?? (to - from) / 8;
  return Array.from({ length: Math.floor((to - from) / every) + 1 }, (_, n) => from + n * every);
}
