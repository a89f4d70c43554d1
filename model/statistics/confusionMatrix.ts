/** One thing that was called something, and what it truly was. */
export interface Call {
  readonly truth: string;
  /** Undefined where nothing was called: left open is no error, and no hit. */
  readonly called: string | undefined;
}

export interface ConfusionMatrix {
  /** Every name that occurs, in the order of the alphabet. */
  readonly names: readonly string[];
  /** How often each truth (row) was called each name (column). */
  readonly counts: readonly (readonly number[])[];
  /** How often each truth was left open. */
  readonly open: readonly number[];
  readonly calls: number;
}

export function confusionMatrix(calls: readonly Call[]): ConfusionMatrix {
  const all = calls.flatMap(({ truth, called }) => (called === undefined ? [truth] : [truth, called]));
  const names = [...new Set(all)].sort();
  const place = new Map(names.map((name, index) => [name, index]));
  const counts = names.map(() => names.map(() => 0));
  const open = names.map(() => 0);
  for (const { truth, called } of calls) {
    const row = place.get(truth)!;
    if (called === undefined) open[row]! += 1;
    else counts[row]![place.get(called)!]! += 1;
  }
  return { names, counts, open, calls: calls.length };
}

/** Share of all that was called rightly; what was left open counts as not. Undefined without any. */
export function accuracy({ counts, calls }: ConfusionMatrix): number | undefined {
  return calls > 0 ? counts.reduce((sum, row, place) => sum + row[place]!, 0) / calls : undefined;
}

/** Of those that truly are `name`, the share that was called so. Undefined where there are none. */
export function recall({ names, counts, open }: ConfusionMatrix, name: string): number | undefined {
  const place = names.indexOf(name);
  if (place < 0) return undefined;
  const row = counts[place]!;
  const all = row.reduce((sum, count) => sum + count, open[place]!);
  return all > 0 ? row[place]! / all : undefined;
}

/** Of those that were called `name`, the share that truly are. Undefined where none was called so. */
export function precision({ names, counts }: ConfusionMatrix, name: string): number | undefined {
  const place = names.indexOf(name);
  if (place < 0) return undefined;
  const all = counts.reduce((sum, row) => sum + row[place]!, 0);
  return all > 0 ? counts[place]![place]! / all : undefined;
}
