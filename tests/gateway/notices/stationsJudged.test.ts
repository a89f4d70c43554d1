import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { StationsJudge } from '../../../gateway/notices/stationsJudged.ts';
import { triedOf } from '../../../gateway/notices/tried.ts';
import { openRecords } from '../../../gateway/records/records.ts';
import { FIRST_SETTINGS, type NoticeSettings } from '../../../model/notices/settings.ts';
import { epochMs } from '../../../model/units/units.ts';
import { changes, type Rows, running, smallLine } from '../../model/smallLine.ts';
import { entry, stand } from '../live/shell.ts';

/** Stations of a line as many as a plant's: what is divided over them is divided as there. */
const line = smallLine();
const settings: NoticeSettings = {
  ...FIRST_SETTINGS,
  when: { ...FIRST_SETTINGS.when, rejects: { on: false } },
};

/** A line that tells its count each ten seconds, sixty a minute, and of jams in between. */
class Told {
  readonly rows: Rows[number][] = [...running()];
  second = 0;
  made = 0;

  run(cartons: number): this {
    for (let more = 0; more < cartons; more += 10) {
      this.second += 10;
      this.made += 10;
      this.rows.push([this.second, 'good', this.made]);
    }
    return this;
  }

  jam(lasts = 40): this {
    this.rows.push([this.second + 1, 'state', 11], [this.second + 1, 'reason', 51]);
    this.second += lasts;
    this.rows.push([this.second, 'state', 6], [this.second, 'reason', 0]);
    return this;
  }

  size(code: number): this {
    this.second += 30;
    this.rows.push([this.second, 'size', code]);
    return this;
  }
}

/** Six runs with a jam in each, two thousand cartons apart, and the size of the seventh. */
function past(): Told {
  const told = new Told();
  for (let n = 0; n < 6; n += 1) told.run(1000).jam().run(1000).size(48).run(60).size(20);
  return told;
}

async function judging(told: Told) {
  const folder = mkdtempSync(join(tmpdir(), 'scoreline-judged-'));
  const records = openRecords(folder);
  onTestFinished(() => {
    records.close();
    rmSync(folder, { recursive: true });
  });
  const { live, clock } = await stand(line, { records });
  const take = async (rows: Rows) => {
    clock.second = Math.max(clock.second, ...rows.map(([second]) => second));
    await live.offer(changes(line, rows));
  };
  // made anew from nothing they would serve nobody before they are whole
  await take(told.rows);
  return { live, clock, records, take, judge: new StationsJudge(records, live) };
}

describe('a station that stops again and again', () => {
  it('[NO1] [NC1] is called by its own normal, once a stop has lasted longer than operators take to clear it', async () => {
    const told = past().run(500).jam().run(60).jam().run(60).jam();
    const { judge, take, live, clock } = await judging(told);
    expect(live.recordsDue()).toBe(false);
    const { rows } = new Told();
    rows.length = 0;
    await take([
      [told.second + 20, 'good', told.made + 20],
      [told.second + 21, 'state', 11],
      [told.second + 21, 'reason', 51],
    ]);
    clock.second = told.second + 21 + 59;
    expect(judge.now(settings)).toEqual([]);
    clock.second = told.second + 21 + 60;
    const [called, ...others] = judge.now(settings) ?? [];
    expect(others).toEqual([]);
    expect(called).toMatchObject({ key: 'stops/fold', station: 'fold', size: 'sachet-20', level: 'call' });
    const { facts } = called!;
    expect(facts).toMatchObject({ kind: 'stops', stops: 4, fault: 'tuck jam' });
    if (facts.kind !== 'stops') throw new Error('another kind');
    // 60, 60 and 20 cartons lie between the four
    expect(facts.cartons).toBe(140);
    expect(facts.usualCartons).toBeGreaterThan(1000);
    expect(facts.usualCartons).toBeLessThan(3000);
    expect(facts.onceInShifts).toBeGreaterThanOrEqual(5);
    expect(called!.look).toEqual([{ kind: 'fault', name: 'tuck jam', times: 4, of: 4 }]);
    expect(epochMs(called!.since)).toBe(facts.from);
  });

  it('[NO1] is not called for what is usual', async () => {
    const told = past().run(1000).jam().run(1000).jam().run(100);
    const { judge } = await judging(told);
    expect(judge.now(settings)).toEqual([]);
  });

  it('[NO3] is called by the plain rule where that is on, whatever its normal', async () => {
    const told = past().run(1000).jam().run(600).jam().run(600).jam().run(10);
    const { judge } = await judging(told);
    const counted = (stops: number, minutes: number): NoticeSettings => ({
      ...settings,
      when: {
        ...settings.when,
        stopsCounted: { on: true, stops, within: { kind: 'minutes', minutes } },
      },
    });
    expect(judge.now(counted(3, 20))).toEqual([]);
    expect(judge.now(counted(3, 21))).toMatchObject([
      { key: 'stopsCounted/fold', facts: { kind: 'stopsCounted', stops: 3, minutes: 21, fault: 'tuck jam' } },
    ]);
  });

  it('[NL4] what came before a notice was ended is not held against it again', async () => {
    const told = past().run(500).jam().run(60).jam().run(60).jam().run(60).jam().run(20);
    const { judge, live, clock } = await judging(told);
    const [called] = judge.now(settings) ?? [];
    expect(called).toMatchObject({ key: 'stops/fold' });
    const itself = { kind: 'itself' } as const;
    const { key, level, facts, since, station } = called!;
    const raised = { kind: 'noticeRaised', notice: 'n1', key, level, facts, look: [] } as const;
    await live.enter({
      ...entry('e1', clock.second, { ...raised, since: epochMs(since), station: station! }),
      author: itself,
    });
    await live.enter(entry('e2', clock.second, { kind: 'noticeTaken', notice: 'n1' }));
    await live.enter(
      entry('e3', clock.second, { kind: 'noticeClosed', notice: 'n1', found: 'part', done: 'partChanged' }),
    );
    expect(judge.now(settings)).toEqual([]);
  });

  it('says nothing of what is not known while records are being made', async () => {
    const { judge, live } = await judging(past().run(10));
    expect(judge.now(settings)).toEqual([]);
    Object.assign(live, { recordsDue: () => true });
    expect(judge.now(settings)).toBeUndefined();
  });

  it('what other budgets would have done is counted stop by stop, and a stricter one never raises more', async () => {
    const told = past().run(500).jam().run(60).jam().run(60).jam().run(60).jam().run(2000);
    const { live, records } = await judging(told);
    const { rows, inUse } = await triedOf(records, live, 30);
    expect(inUse).toBe(5);
    expect(rows.map(({ falseOnceInShifts }) => falseOnceInShifts)).toEqual([1, 5, 10, 20, 50]);
    const counts = rows.map(({ notices }) => notices.length);
    expect(counts).toEqual(counts.toSorted((a, b) => b - a));
    expect(counts[0]).toBeGreaterThan(0);
    expect(rows[0]!.notices.at(-1)).toMatchObject({ station: 'fold', became: 'unsaid' });
    expect(rows.find(({ falseOnceInShifts }) => falseOnceInShifts === 5)!.later).toBe(0);
    // four jams within an hour
    expect(rows.map(({ missed, notices }) => (notices.length === 0 ? missed : 0)).some((n) => n > 1)).toBe(
      false,
    );
  });
});
