import type { MaintenancePast, MaintenanceStation } from '../../model/past/maintenancePast.ts';
import { words } from '../app/words.ts';

const { past } = words.screen;
const WIDE = 12;
const HIGH = 34;
/** Days that bear their date: the first, and every tenth from it. */
const DATED = 10;

/** One panel a day, joined by scores as the flaps of a blank are; its height is the time that stood there. */
export function DayMarks({
  days,
  starts,
  most,
  zone,
  dated,
}: {
  readonly days: MaintenanceStation['days'];
  readonly starts: MaintenancePast['days'];
  readonly most: number;
  readonly zone: string;
  /** Days stand under one another: the first row bears their dates. */
  readonly dated: boolean;
}) {
  const width = days.length * WIDE;
  return (
    <svg className="daymarks" viewBox={`0 0 ${width} ${HIGH + (dated ? 18 : 2)}`} aria-hidden="true">
      <path className="scores" d={days.map((_, n) => `M${n * WIDE} 4V${HIGH}`).join('')} />
      <path className="base" d={`M0 ${HIGH}H${width}`} />
      {days.map(({ stops, stood }, n) => {
        const height = stood === 0 ? 0 : Math.max(2, Math.round((stood / most) * (HIGH - 8)));
        return (
          <g key={starts[n]!.at}>
            {starts[n]!.unseen && (
              <path
                className="unseenday"
                d={`M${n * WIDE + 2} ${HIGH - 3}L${(n + 1) * WIDE - 2} ${HIGH - 11}`}
              />
            )}
            {height > 0 && <rect x={n * WIDE + 2} y={HIGH - height} width={WIDE - 4} height={height} />}
            {stops > 0 && <circle cx={n * WIDE + WIDE / 2} cy={HIGH - height - 4} r={2} />}
          </g>
        );
      })}
      {starts.map(
        ({ at }, n) =>
          dated &&
          n % DATED === 0 && (
            <text key={at} x={n * WIDE} y={HIGH + 15}>
              {past.on(at, zone)}
            </text>
          ),
      )}
    </svg>
  );
}
