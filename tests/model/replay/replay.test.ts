import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { foldKnown } from '../../../model/replay/foldKnown.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import { Replay } from '../../../model/replay/replay.ts';
import type { Change } from '../../../model/signals/signals.ts';
import { epochMs, type Instant, minutes } from '../../../model/units/units.ts';
import { viewOf } from '../../../model/view/lineView.ts';
import { readFaults } from '../../../simulator/faults/language.ts';
import { runFaulted } from '../../faults/faultedRun.ts';
import { at, changes, goods, running, smallLine } from '../smallLine.ts';
import { msAt, stand } from '../../gateway/live/shell.ts';
import { replayTape } from './replayTape.ts';

const version = 'v';

function hash(fold: LineFold, now: Instant): string {
  const view = viewOf(fold, now, { servers: [] });
  return createHash('sha256').update(fold.text()).update(JSON.stringify(view)).digest('hex');
}

interface Shown {
  readonly position: number;
  readonly now: Instant;
  readonly hash: string;
}

/** A line heard through outages for some minutes, batch by batch, and what it showed after each of them. */
async function heard() {
  const faults = '0:02:00 link dark for 40 s\n0:04:00 link cut for 3 min\n0:09:00 server killed for 20 s';
  const { line, changes: told } = await runFaulted(3, 1 / 4, readFaults(faults));
  const stood = await stand(line);
  const shown: Shown[] = [];
  for (const batch of batches(told)) {
    stood.clock.second = (epochMs(batch[0]!.received) - msAt(0)) / 1000;
    await stood.live.offer(batch);
    const now = stood.live.now();
    shown.push({ position: stood.live.position(), now, hash: hash(stood.live.fold(), now) });
  }
  const all: Change[] = [];
  for await (const some of stood.tape.read(line.id, 0, stood.tape.end(line.id))) all.push(...some);
  return { line, tape: stood.tape, shown, all };
}

describe('a replay of a line that was heard through outages', () => {
  it('[RP1] shows at 200 positions what the live line showed, which is the fold of the tape up to there from its beginning', async () => {
    const { line, tape, shown, all } = await heard();
    const to = all.reduce((most, change) => Math.max(most, change.at), 0) as Instant;
    const from = all[0]!.at;
    const replay = await Replay.open(replayTape(tape, line), { line, version, from, to, start: 0 });
    const every = shown.filter(
      ({ now }, place) => place % Math.ceil(shown.length / 220) === 0 && now >= from && now <= to,
    );
    expect(every.length).toBeGreaterThan(200);
    const fold = new LineFold(line);
    let reached = 0;
    const wrong: number[] = [];
    for (const one of every) {
      for (; reached < one.position; reached += 1) fold.take([all[reached]!]);
      const played = await replay.at(one.now, 'shown');
      expect(played.position).toBe(one.position);
      if (hash(played.fold, one.now) !== one.hash || hash(fold, one.now) !== one.hash)
        wrong.push(one.position);
    }
    expect(wrong).toEqual([]);
    // backwards, and here and there, no moment stands on the one looked at before
    for (const one of [...every].reverse().filter((_one, place) => place % 9 === 0))
      expect(hash((await replay.at(one.now, 'shown')).fold, one.now)).toBe(one.hash);
  });

  it('[RP2] as known now it is the fold of all that has come by now, in line time', async () => {
    const { line, tape, shown, all } = await heard();
    const [from, to] = [all[0]!.at, shown.at(-1)!.now];
    const replay = await Replay.open(replayTape(tape, line), { line, version, from, to, start: 0 });
    for (const { now } of shown.filter((_one, place) => place % 40 === 0)) {
      if (now < from) continue;
      const known = await foldKnown(tape, line, { version, at: now });
      expect(hash((await replay.at(now, 'known')).fold, now)).toBe(hash(known!, now));
    }
  });
});

describe('a stretch of which much came late', () => {
  const line = smallLine();
  const morning: readonly Change[] = changes(line, [...running(), ...goods(1, 5400, 1)]);

  it('[RP2] is known now at each moment, played forwards or looked at anywhere, as the fold in line time knows it', async () => {
    const delay = fc.oneof({ weight: 30, arbitrary: fc.constant(0) }, fc.integer({ min: 1, max: 2400 }));
    await fc.assert(
      fc.asyncProperty(
        fc.array(delay, { minLength: morning.length, maxLength: morning.length }),
        async (delays) => {
          const arrived = morning
            .map((change, place) => {
              const received = (change.at + delays[place]! * 1e7) as Instant;
              return { ...change, received };
            })
            .sort((a, b) => a.received - b.received);
          const { live, tape } = await stand(line);
          await live.offer(arrived);
          const [from, to] = [at(1200), at(4200)];
          const replay = await Replay.open(replayTape(tape, line), { line, version, from, to, start: 0 });
          for (const second of [1200, 1201, 1500, 1502, 2500, 2510, 1300, 4200, 3100]) {
            const known = await foldKnown(tape, line, { version, at: at(second) });
            const played = await replay.at(at(second), 'known');
            expect(played.fold.text()).toBe(known!.text());
            const shown = await replay.at(at(second), 'shown');
            const fold = new LineFold(line);
            fold.take(arrived.slice(0, shown.position).sort((a, b) => a.at - b.at || a.signal - b.signal));
            expect(shown.fold.text()).toBe(fold.text());
          }
        },
      ),
      { numRuns: 6 },
    );
  });

  it('[RP5] [RP2] a link that was lost and missed nothing leaves no trace in what is known now, and is told as time in which nothing came', async () => {
    const { live, tape, clock } = await stand(line);
    const rows = changes(line, [...running(), ...goods(1, 20, 1), [20.5, 'link', false]]);
    const late = changes(line, [...goods(21, 60, 21), [61, 'link', 'whole']]);
    for (const [second, some] of [
      [20.5, rows],
      [61, late],
    ] as const) {
      clock.second = second;
      await live.offer(some.map((change) => ({ ...change, received: at(second) })));
    }
    const replay = await Replay.open(replayTape(tape, line), {
      ...{ line, version, from: at(0), to: at(61), start: 0 },
    });
    const known = await replay.changes(at(10), at(61));
    expect(known.filter(({ value }) => value === false)).toEqual([]);
    expect(known.length).toBeGreaterThan(50);
    expect(replay.unheard).toEqual([{ from: at(20.5), to: at(61) }]);
  });

  it('[RP3] goes by change and by carton, forwards and backwards', async () => {
    const { live, tape } = await stand(line);
    await live.offer(morning);
    const wish = { line, version, from: at(600), to: at(660), start: 0 };
    const replay = await Replay.open(replayTape(tape, line), wish);
    const good = (await replay.step(at(620), 'carton', 1))!;
    expect(good).toBeGreaterThan(at(620));
    expect(await replay.step(good, 'carton', -1)).toBeLessThanOrEqual(at(620));
    expect((await replay.step(at(620), 'change', 1))!).toBeLessThanOrEqual(good);
    expect(await replay.step(at(660 + minutes(1) / 1e7), 'carton', 1)).toBeUndefined();
  });
});

/** As they came: what was received in the same half second came at once. */
function batches(all: readonly Change[]): Change[][] {
  const found: Change[][] = [];
  for (const change of all) {
    const last = found.at(-1);
    if (last && Math.floor(last[0]!.received / 5e6) === Math.floor(change.received / 5e6)) last.push(change);
    else found.push([change]);
  }
  return found.map((batch) => batch.map((change) => ({ ...change, received: batch.at(-1)!.received })));
}
