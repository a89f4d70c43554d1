/** Handed over and counted are rarely the same, and rarely further apart than this share of what was counted. */
const APART_MOST = 0.1;

/**
 * Whether a count of cartons handed over looks like a slip: further from what was counted as good than cartons go astray.
 * It is asked about, never changed. Where nothing was counted there is nothing to doubt it with.
 */
export function handedDoubtful(cartons: number, counted: number): boolean {
  return counted > 0 && Math.abs(cartons - counted) > APART_MOST * counted;
}
