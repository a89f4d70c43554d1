import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { after, between, instantFromMs, SECOND } from '../../model/units/units.ts';
import type { Fault } from '../../simulator/faults/faults.ts';
import { readFaults } from '../../simulator/faults/language.ts';
import { monday } from '../simulator/simulatedLine.ts';
import { judge } from './judge.ts';
import { moreCases, wireCases, type WireLine } from './wireCases.ts';
import { dropKeys, runWired, type WireRun, type WireWish } from './wireRun.ts';

type Told = Pick<WireWish, 'seed' | 'seconds' | 'speed'> & Partial<WireWish>;

/** Eight seconds before the hour that comes twice in Berlin. */
const clocksBack = instantFromMs(Date.parse('2026-10-25T00:59:52Z'));

/**
 * Seeds with a stop where one is wanted. The line whose PLC alone is at fault runs faster than time: what its values are
 * stamped with is the same for it. An outage, and a clock that is set, are what they are in real time only.
 */
const lines: Readonly<Record<WireLine, Told>> = {
  cable: { seed: 91, seconds: 29, speed: 1 },
  server: { seed: 32, seconds: 19, speed: 1 },
  values: { seed: 49, seconds: 145, speed: 7 },
  clock: { seed: 49, seconds: 25, speed: 1, start: clocksBack, clock: 'local' },
  door: { seed: 32, seconds: 19, speed: 1, waits: false },
  small: { seed: 3, seconds: 16, speed: 1, lively: 2, mark: 'Magazine.BoardLot' },
  size: { seed: 12, seconds: 977, speed: 1, lively: 2, madeBefore: 5395, heardFrom: 957 },
};

const cases = [...Object.values(wireCases), ...moreCases];
const runs = new Map<WireLine, WireRun>();
const faultsOf = (line: WireLine) =>
  readFaults(cases.flatMap((one) => (one.line === line ? [one.faults] : [])).join('\n'));

function makesOutage(fault: Fault): boolean {
  if (fault.kind === 'dark') return fault.lasts > SECOND;
  return ['cut', 'unheard', 'killed', 'reissued', 'download'].includes(fault.kind);
}

/** All at once: what they cost is mostly waiting. */
beforeAll(async () => {
  const wired = Object.entries(lines).map(async ([name, told]) => {
    const line = name as WireLine;
    const happens = { faults: faultsOf(line), makesOutage };
    runs.set(line, await runWired({ start: monday, lively: 50, ...told, ...happens }));
  });
  await Promise.all(wired);
}, 600_000);

afterAll(dropKeys);

/**
 * As the judge knows it, who allows no longer a gap than an outage: it lasts until the intake says on the tape that it hears
 * again. That this run looked later, on a computer that was busy, is no part of the outage.
 */
function asJudged({ start, outages, link }: WireRun, fault: Fault): Fault {
  if (!makesOutage(fault)) return fault;
  const at = after(start, fault.at);
  const seen = outages.find(({ to }) => to > at)!.to;
  const heard = link.findLast(({ value, at: said }) => value !== false && said > at && said < seen);
  const lasts = Math.max('lasts' in fault ? fault.lasts : 0, between(at, heard?.at ?? seen));
  return { ...fault, lasts } as Fault;
}

/** How the outages of a line have to end, in their order. The last fault of a case is the one that makes its outage. */
function endsOf(line: WireLine): readonly ('whole' | true)[] {
  return cases
    .filter((one) => one.line === line)
    .flatMap(({ faults, end }) => (end === undefined ? [] : [{ end, at: readFaults(faults).at(-1)!.at }]))
    .sort((a, b) => a.at - b.at)
    .map(({ end }) => end);
}

/** What the link said, without that it is heard still. */
function linkOf({ link }: WireRun): readonly unknown[] {
  return link
    .map(({ value }) => value)
    .filter((value, place, all) => place === 0 || (value === false) !== (all[place - 1] === false));
}

describe('through real OPC UA', () => {
  for (const line of Object.keys(lines)) {
    it(`[CV1] on the line “${line}” every figure is the ledger’s or lies in a declared gap`, () => {
      const run = runs.get(line as WireLine)!;
      const judged = judge(
        run,
        run.faults.map((fault) => asJudged(run, fault)),
        run.start,
      );
      expect(judged.wrong, run.said.join('\n')).toEqual([]);
      expect(judged.counted).toBeGreaterThan(5);
      expect(run.status.trouble).toBeUndefined();
      const ends = endsOf(line as WireLine);
      expect(linkOf(run), run.said.join('\n')).toEqual([true, ...ends.flatMap((end) => [false, end])]);
    });
  }

  for (const { line, faults, title, follows } of cases) {
    it(`${title} (${faults.replaceAll('\n', ', ')})`, () => follows(runs.get(line)!));
  }
});
