import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { stationOf, stationsToldOf } from '../../../gateway/api/pastStations.ts';
import { stationAnswer, stationsAnswer } from '../../../gateway/api/stationSchemas.ts';
import { type LiveLine, startLiveLine } from '../../../gateway/live/liveLine.ts';
import { openRecords, type Records } from '../../../gateway/records/records.ts';
import { PIECE_MOST } from '../../../model/past/pieces.ts';
import type { RecordStep } from '../../../model/records/records.ts';
import { epochMs, HOUR, type Instant, seconds } from '../../../model/units/units.ts';
import { daysOfRecords } from '../../bench/pastRecords.ts';
import { boundLine, monday } from '../../simulator/simulatedLine.ts';
import { Memory, openMemoryTape } from '../tape/memoryTape.ts';

/** A simulated week in the records; the shift before the last is looked at, as the live line has counted nothing of it. */
const DAYS = 7;
/** In other ones the size that ran first never ends: longer than is looked at in one go. */
const LONG_DAYS = 9;
const { line } = boundLine();
const folders: string[] = [];
const to = epochMs((monday - 9 * HOUR) as Instant);
const query = { from: epochMs((monday - 15 * HOUR) as Instant), to };
let records: Records;
let live: LiveLine;

async function recordsOf(days: number, belongs: (step: RecordStep) => boolean) {
  const folder = mkdtempSync(join(tmpdir(), 'scoreline-test-normal-'));
  folders.push(folder);
  const kept = openRecords(folder);
  const tape = openMemoryTape(new Memory(), new Map([[line.id, line.signals]]));
  const now = () => epochMs(monday);
  const outside = () => ({ servers: [] });
  const started = await startLiveLine({ line, tape, records: kept, now, speed: 1, outside, told: () => {} });
  const edition = kept.begin(line.id, started.version);
  for (const steps of daysOfRecords(days, monday)) kept.write(edition, steps.filter(belongs), 0);
  kept.serve(line.id, edition);
  const state = line.signals.findIndex(({ role }) => role === 'state');
  const at = (monday - seconds(1)) as Instant;
  await started.offer([{ signal: state, at, received: at, status: 0, value: 6 }]);
  return { records: kept, live: started };
}

beforeAll(async () => {
  ({ records, live } = await recordsOf(DAYS, () => true));
});
afterAll(async () => {
  await live?.stop();
  records?.close();
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

const all = () => stationsToldOf(records, live, query);
const one = (station: string, size?: string) =>
  stationOf(records, live, station, { ...query, most: 20, batches: 160, size });
/** As it leaves over the API: what is not known is left out. */
const sent = (answer: unknown): unknown => JSON.parse(JSON.stringify(answer));

describe('stations against their own normal over the API', () => {
  it('[NW1] [NW3] says of every station what each rule that can be asked there found, in an answer as described', () => {
    for (const { id } of line.stations) {
      const told = one(id)!;
      expect(stationAnswer.safeParse(sent(told)).error?.issues ?? [], id).toEqual([]);
      // two people load this line: crews are not held against one another
      const asked = told.judged === undefined || id === 'loading' ? ['stops'] : ['run', 'drift', 'stops'];
      expect(told.normal!.rules.map(({ rule }) => rule)).toEqual(asked);
      for (const { tooThin, expected, interval, seen, of } of told.normal!.rules) {
        expect(tooThin?.kind === 'past', id).toBe(false);
        expect(of).toBeGreaterThanOrEqual(seen);
        if (tooThin) continue;
        expect(interval!.lower).toBeLessThanOrEqual(expected!);
        expect(interval!.upper).toBeGreaterThanOrEqual(Math.floor(expected!));
      }
    }
  });

  it('says in short, of all, the same as of each', () => {
    const { worse, ...rest } = all();
    expect(stationsAnswer.safeParse(sent({ ...rest, worse })).error?.issues ?? []).toEqual([]);
    expect(worse.map(({ station }) => station)).toEqual(line.stations.map(({ id }) => id));
    for (const { station, outside } of worse)
      expect(outside).toEqual(
        one(station)!.normal!.rules.flatMap(({ rule, outside: is }) => (is ? [rule] : [])),
      );
  });

  it('works out what does not change once, for all who ask', () => {
    expect(one('pick')!.normal).toBe(one('pick')!.normal);
  });

  it('holds the size that is chosen against runs of that size only, and says nothing of one that did not run', () => {
    const chosen = one('top-major')!.trend!.size.id;
    expect(one('top-major', chosen)!.normal!.size.id).toBe(chosen);
    const { earlierRuns } = one('top-major')!.normal!;
    const begun = records.first(line.id)!;
    const runs = records.ask({
      line: line.id,
      kind: 'size',
      from: begun,
      to: (monday - 8 * HOUR) as Instant,
    });
    expect(earlierRuns).toBe(runs.filter(({ size }) => size === chosen).length - 1);
    expect(one('top-major', 'none')!.normal).toBeUndefined();
  });

  it('[NW1] draws no line for what people left empty, and one for what the machine spoiled', () => {
    expect(one('loading')!.trend).toMatchObject({ kind: 'notLoaded', byHand: true, above: 0 });
    expect(one('loading')!.trend!.normal).toBeUndefined();
    const { normal, batches } = one('top-major')!.trend!;
    expect(normal!.earlier).toBeGreaterThan(3000);
    expect(batches.every(({ most }) => most !== undefined)).toBe(true);
  });

  it('[NW4] has too short a past to say anything of a line’s first run', () => {
    const first = {
      from: epochMs((monday - DAYS * 24 * HOUR) as Instant),
      to: epochMs((monday - (DAYS * 24 - 1) * HOUR) as Instant),
    };
    const told = stationOf(records, live, 'pick', { ...first, most: 20, batches: 160 })!;
    expect(told.normal!.rules.every(({ tooThin, outside }) => tooThin?.kind === 'past' && !outside)).toBe(
      true,
    );
  });

  it('[NW4] a size that runs on is one run: what it brought before is no earlier run of its own', async () => {
    let sizes = 0;
    const long = await recordsOf(LONG_DAYS, (step) => {
      if (step.kind !== 'put' || step.record.kind !== 'size') return true;
      sizes += 1;
      return sizes === 1;
    });
    const { normal, trend } = stationOf(long.records, long.live, 'top-major', {
      ...query,
      most: 20,
      batches: 160,
    })!;
    const [began] = long.records.ask({ line: line.id, kind: 'size', from: 0 as Instant, to: monday });
    expect(normal).toMatchObject({ earlierRuns: 0, from: epochMs(began!.at) });
    expect(normal!.since).toBe(epochMs((began!.at + PIECE_MOST) as Instant));
    expect(normal!.rules.map(({ tooThin }) => tooThin)).toEqual(
      ['run', 'drift', 'stops'].map(() => ({ kind: 'past', runs: 0, cartons: 0 })),
    );
    expect([trend!.earlier, trend!.normal]).toEqual([0, undefined]);
    expect(trend!.all).toBeGreaterThan(20);
    await long.live.stop();
    long.records.close();
  });
});
