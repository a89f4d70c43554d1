/** A speed that was measured several times. */
export interface Speed {
  /** A second of processor time: what else the machine does counts little. */
  readonly perSecond: number;
  /** How far the slowest and the fastest lay apart, as a share of the middle one: the machine's noise. */
  readonly spread: number;
}

/** How many of `count` things are done in a second of processor time; once beforehand to warm up. */
export async function speedOf(count: number, turns: number, act: () => void | Promise<void>): Promise<Speed> {
  await act();
  const speeds: number[] = [];
  for (let turn = 0; turn < turns; turn += 1) speeds.push(count / (await secondsOf(act)));
  speeds.sort((a, b) => a - b);
  const middle = speeds[speeds.length >> 1]!;
  const spread = (speeds.at(-1)! - speeds[0]!) / middle;
  return { perSecond: Math.round(middle), spread: Math.round(spread * 100) / 100 };
}

/** Processor time that something takes, in seconds. */
export async function secondsOf(act: () => void | Promise<void>): Promise<number> {
  const before = process.cpuUsage();
  await act();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1_000_000;
}
