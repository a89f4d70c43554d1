import type { RejectReason } from '../../../model/line/line.ts';
import type { Value } from '../../../model/signals/signals.ts';
import { boundSignals, foldOf, type Rows, running, smallLine } from '../smallLine.ts';

type Row = readonly [number, string, Value, number?];

/** The small line, whose fold station counts its near misses: cartons pass pick 4, and fold 2 pockets before the check. */
export function sensedLine(reason: Partial<RejectReason> = { from: ['pick', 'fold'] }, sensors = ['fold']) {
  const place = boundSignals.findIndex(({ id }) => id === 'crushed') + 1;
  const signals = [
    ...boundSignals.slice(0, place),
    ...sensors.map((of) => ({ id: `near-${of}`, role: 'nearMissCount' as const, of, wraps: 65536 })),
    ...boundSignals.slice(place),
  ];
  const { rejects } = smallLine();
  return smallLine(
    { rejects: rejects.map((one) => (one.id === 'open' ? { ...one, ...reason } : one)) },
    signals,
  );
}

/** One cycle a second, up to so many, from the beginning: in second n the n-th. */
export function cycles(from: number, to: number): Row[] {
  return Array.from({ length: to - from + 1 }, (_, n) => [from + n, 'cycles', from + n] as const);
}

/** Parts laid to pick, fold (and what else may have done it) and nobody, of rows after the first values. */
export function partsOf(rows: Rows, line = sensedLine()): readonly number[] {
  const sensors = line.signals.flatMap(({ role, id }) =>
    role === 'nearMissCount' ? [[0, id, 0] as const] : [],
  );
  return foldOf(inLineTime([...running(), ...sensors, ...rows], line), line).state.attribution.parts;
}

/** Rows by second, and then by the order of the line's signals. */
export function inLineTime(rows: Rows, line: ReturnType<typeof sensedLine>): Rows {
  return [...rows].sort((a, b) => a[0] - b[0] || placeOf(line, a[1]) - placeOf(line, b[1]));
}

function placeOf(line: ReturnType<typeof sensedLine>, id: string): number {
  return line.signals.findIndex((signal) => signal.id === id);
}
