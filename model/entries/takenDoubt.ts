/** More cartons than lie in all pockets of two such machines are rarely taken out, or brought back, at once. */
const AT_ONCE_MOST = 60;

/** Whether a count of cartons taken out looks like a slip. It is asked about, never changed. */
export function takenDoubtful(cartons: number): boolean {
  return cartons > AT_ONCE_MOST;
}
