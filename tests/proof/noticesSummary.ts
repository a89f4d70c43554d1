import type { Seldom } from '../../model/normal/measured.ts';
import { rateInterval } from '../../model/statistics/poissonRate.ts';
import type { FalseMeasured, ToldMeasured } from '../../model/watch/measured.ts';
import { type Budget, BUDGETS, type QuietRow, type TroubleRow } from './notices.ts';
import type { Delay } from './noticesPlain.ts';

/** Shifts of a person's week. */
const WEEK = 5;

/** How often somebody is called falsely who watches all stations of a line, for each budget. */
export function falseOf(rows: readonly QuietRow[]): Readonly<Record<Budget, FalseMeasured>> {
  const of = (budget: Budget): FalseMeasured => {
    const lines = rows.map((row) => ({ calls: row.calls[budget].length, shifts: row.shifts }));
    const { calls, shifts } = sumOf(lines);
    return {
      calls,
      perWeek: Math.round((100 * WEEK * calls) / shifts) / 100,
      ...seldomOf(lines),
      worst: worstOf(rows, budget).seldom,
    };
  };
  const [week, month, quarter] = BUDGETS;
  return { [week]: of(week), [month]: of(month), [quarter]: of(quarter) } as Record<Budget, FalseMeasured>;
}

/** The kind of line and family of levels in which it called falsely most often. */
export function worstOf(rows: readonly QuietRow[], budget: Budget) {
  const cells = new Map<string, QuietRow[]>();
  for (const row of rows) {
    const name = `${row.variant} ${row.levels}`;
    cells.set(name, [...(cells.get(name) ?? []), row]);
  }
  return [...cells]
    .map(([name, own]) => ({
      name,
      seldom: seldomOf(own.map((row) => ({ calls: row.calls[budget].length, shifts: row.shifts }))),
    }))
    .reduce((worst, cell) => (cell.seldom.onceIn < worst.seldom.onceIn ? cell : worst));
}

interface LineCalls {
  readonly calls: number;
  readonly shifts: number;
}

/** With 95 % bounds of a Poisson rate, wider by as much as calls varied more from line to line than such a rate would. */
function seldomOf(lines: readonly LineCalls[]): Seldom {
  const { calls, shifts } = sumOf(lines);
  const pearson = lines.reduce((sum, line) => {
    const mean = (calls * line.shifts) / shifts;
    return sum + (mean > 0 ? (line.calls - mean) ** 2 / mean : 0);
  }, 0);
  const more = Math.max(1, pearson / Math.max(1, lines.length - 1));
  const { lower, upper } = rateInterval({ count: calls / more, time: shifts / more }, 0.95)!;
  const tenths = (value: number) => Math.round(10 * value) / 10;
  return {
    onceIn: tenths(shifts / Math.max(1, calls)),
    from: tenths(1 / upper),
    to: lower > 0 ? tenths(1 / lower) : tenths(shifts),
  };
}

function sumOf(lines: readonly LineCalls[]): LineCalls {
  return {
    calls: lines.reduce((sum, line) => sum + line.calls, 0),
    shifts: lines.reduce((sum, line) => sum + line.shifts, 0),
  };
}

export function shiftsOf(rows: readonly QuietRow[]): number {
  return Math.round(rows.reduce((sum, { shifts }) => sum + shifts, 0));
}

/** How many troubles were told, and how soon: undefined where fewer than half of all, or nine in ten, were. */
export function toldOf(delays: readonly Delay[]): ToldMeasured {
  const told = delays.filter((delay) => delay !== null);
  const within = (stops: number) => told.filter((delay) => delay.stops <= stops).length;
  const at = (key: 'stops' | 'cartons', share: number) =>
    told.map((delay) => delay[key]).sort((a, b) => a - b)[Math.ceil(share * delays.length) - 1];
  return {
    of: delays.length,
    told: told.length,
    within3: within(3),
    within6: within(6),
    stops: { half: at('stops', 0.5), most: at('stops', 0.9) },
    cartons: { half: at('cartons', 0.5), most: at('cartons', 0.9) },
  };
}

/** Troubles that made as many stops as any rule needs: a judge of stops can tell no others. */
export function stoppedTwice(rows: readonly TroubleRow[]): number {
  return rows.filter(({ stops, before }) => stops.length - before >= 2).length;
}
