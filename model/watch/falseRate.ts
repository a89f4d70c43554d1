import { FALSE_ONCE } from './falseRateTable.ts';

/** What the rate of false calls depends on besides the evidence that calls. */
export interface FalseRateOf {
  /** How alike runs are: the shape of the gamma distribution of their levels. */
  readonly shape: number;
  /** Stops that are usual in a whole run. */
  readonly stopsPerRun: number;
}

/** Corners of the table; beyond them the nearest one is taken. */
export const SHAPES = [1, 2, 4, 8, 32] as const;
export const STOPS_PER_RUN = [0.25, 0.5, 1, 2, 4, 8, 16] as const;
/** Evidence at which false calls were counted: powers of 2 from ½ on. */
export const EVIDENCE = Array.from({ length: 10 }, (_, place) => 2 ** (place - 1));

/**
 * [NO3] Without trouble evidence rises to so much or more once in so many usual stops (a new call each time: in between it was
 * below an eighth of it). As simulated where the table has it; beyond it as many times as seldom as the evidence is higher,
 * which is what the sum promises at least.
 */
export function onceInStops(evidence: number, of: FalseRateOf): number {
  if (!(evidence > 0)) return 0;
  const [shape, shapeShare] = placeIn(SHAPES, of.shape);
  const [run, runShare] = placeIn(STOPS_PER_RUN, of.stopsPerRun);
  const corner = (up: number, across: number) => logOnce(evidence, FALSE_ONCE[shape + up]![run + across]!);
  const below = mixed(corner(0, 0), corner(0, 1), runShare);
  const above = mixed(corner(1, 0), corner(1, 1), runShare);
  return Math.exp(mixed(below, above, shapeShare));
}

/** The least evidence that is reached no oftener than once in so many usual stops. */
export function evidenceFor(stops: number, of: FalseRateOf): number {
  let [low, high] = [EVIDENCE[0]! / 64, Math.max(1024, 64 * stops)];
  for (let step = 0; step < 60; step += 1) {
    const middle = Math.sqrt(low * high);
    if (onceInStops(middle, of) >= stops) high = middle;
    else low = middle;
  }
  return high;
}

/** [NO4] What each station may take of a recipient's budget of one false call in so many shifts: one in so many of its own. */
export function shareOf(
  { falseOnceInShifts }: { readonly falseOnceInShifts: number },
  watched: { readonly stations: number; readonly rules?: number },
): { readonly falseOnceInShifts: number } {
  return { falseOnceInShifts: falseOnceInShifts * Math.max(1, watched.stations) * (watched.rules ?? 1) };
}

function logOnce(evidence: number, row: readonly number[]): number {
  const at = Math.log2(evidence) + 1;
  const last = row.length - 1;
  if (at >= last) return Math.log(row[last]!) + (at - last) * Math.LN2;
  const low = Math.max(0, Math.floor(at));
  return mixed(Math.log(row[low]!), Math.log(row[low + 1]!), Math.max(0, at - low));
}

function placeIn(corners: readonly number[], value: number): readonly [place: number, share: number] {
  const last = corners.length - 1;
  const within = Math.min(corners[last]!, Math.max(corners[0]!, value));
  const place = Math.min(
    last - 1,
    corners.findLastIndex((corner) => corner <= within),
  );
  const share = Math.log(within / corners[place]!) / Math.log(corners[place + 1]! / corners[place]!);
  return [place, share];
}

function mixed(a: number, b: number, share: number): number {
  return a + share * (b - a);
}
