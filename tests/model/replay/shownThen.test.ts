import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { foldKnown } from '../../../model/replay/foldKnown.ts';
import { foldTape } from '../../../model/replay/foldTape.ts';
import type { LiveLine } from '../../../gateway/live/liveLine.ts';
import type { Tape } from '../../../gateway/tape/tape.ts';
import type { Entry } from '../../../model/entries/entries.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import type { Line } from '../../../model/line/line.ts';
import { byLineTime, type Change } from '../../../model/signals/signals.ts';
import { type EpochMs, epochMs, type Instant } from '../../../model/units/units.ts';
import { viewOf } from '../../../model/view/lineView.ts';
import { readFaults } from '../../../simulator/faults/language.ts';
import { runFaulted } from '../../faults/faultedRun.ts';
import { at, changes, goods, type Rows, running, smallLine } from '../../model/smallLine.ts';
import { Memory } from '../../gateway/tape/memoryTape.ts';
import { entry, msAt, stand } from '../../gateway/live/shell.ts';

/** What a live line held at a position: its state, and what a screen showed of it then. */
interface Shown {
  readonly position: number;
  readonly now: Instant;
  readonly hash: string;
}

function hashOf(fold: LineFold, now: Instant): string {
  const view = viewOf(fold, now, { servers: [] });
  return createHash('sha256').update(fold.text()).update(JSON.stringify(view)).digest('hex');
}

function shownBy(live: LiveLine): Shown {
  const now = live.now();
  const hash = createHash('sha256').update(live.fold().text()).update(JSON.stringify(live.view()));
  return { position: live.position(), now, hash: hash.digest('hex') };
}

async function onTape(tape: Tape, line: Line): Promise<Change[]> {
  const all: Change[] = [];
  for await (const some of tape.read(line.id, 0, tape.end(line.id))) all.push(...some);
  return all;
}

/** How many came after something newer in line time. */
function lateOf(all: readonly Change[]): number {
  let newest = -1;
  return all.filter((change) => {
    const late = change.at < newest;
    newest = Math.max(newest, change.at);
    return late;
  }).length;
}

/** Positions at which the fold of so many first changes of the tape, one by one, is not what was shown. */
function notAsShown(line: Line, all: readonly Change[], shown: readonly Shown[]): number[] {
  const fold = new LineFold(line);
  let reached = 0;
  return shown
    .filter(({ position, now, hash }) => {
      for (; reached < position; reached += 1) fold.take([all[reached]!]);
      return hashOf(fold, now) !== hash;
    })
    .map(({ position }) => position);
}

function inLineTime(line: Line, all: readonly Change[]): string {
  const fold = new LineFold(line);
  fold.take([...all].sort(byLineTime));
  return fold.text();
}

describe('a line heard through outages, with entries meanwhile', () => {
  const faults =
    '0:02:00 link dark for 40 s\n0:04:00 link cut for 3 min\n0:09:00 server killed for 20 s\n0:10:30 link cut for 30 s';
  /** Minutes after the beginning at which somebody enters an order; most of them in an outage. */
  const entered = [2.3, 2.5, 4.9, 6.5, 8, 10.8];

  it('[TI2] as shown then: what it held at every position is the fold of the tape up to it; as known now: in line time', async () => {
    const { line, changes: told } = await runFaulted(3, 1 / 5, readFaults(faults));
    const memory = new Memory();
    let stood = await stand(line, { memory });
    const shown: Shown[] = [];
    const waiting = [...entered];
    const began = told[0]!.received;
    for (const some of asTheyCame(told)) {
      const ms = epochMs(some[0]!.received);
      while (waiting.length > 0 && ms > epochMs(began) + waiting[0]! * 60_000) {
        const wall = epochMs(began) + waiting.shift()! * 60_000;
        stood.clock.second = (wall - msAt(0)) / 1000;
        await stood.live.enter(order(wall));
        shown.push(shownBy(stood.live));
        // killed in the longest outage, and resumed from its tape
        if (waiting.length === 3) stood = await stand(line, { memory, clock: stood.clock });
      }
      stood.clock.second = (ms - msAt(0)) / 1000;
      await stood.live.offer(some);
      shown.push(shownBy(stood.live));
    }
    const all = await onTape(stood.tape, line);
    expect(waiting).toEqual([]);
    expect(lateOf(all)).toBeGreaterThan(100);
    expect(shown.length).toBeGreaterThan(200);
    expect(notAsShown(line, all, shown)).toEqual([]);
    expect(stood.live.fold().text()).toBe(inLineTime(line, all));
    const some = shown.filter((_one, place) => place % 47 === 0);
    for (const { position, now, hash } of some) {
      const { fold } = await foldTape(stood.tape, line, { version: 'none', end: position });
      expect(hashOf(fold, now)).toBe(hash);
    }
  });
});

/** An hour and a half with a stop, a press and its twin, a guard and an order in each ten minutes; of one server, and whole. */
const morning: readonly Change[] = changes(smallLine(), [
  ...running(),
  ...Array.from({ length: 9 }, (_, n) => {
    const from = n * 600;
    return [
      ...goods(from + 1, from + 20, n * 20 + 1),
      [from + 100, 'panel', true] as const,
      [from + 100, 'panelCount', n + 1] as const,
      [from + 100.01, 'state', 8] as const,
      [from + 100.01, 'reason', 301] as const,
      [from + 130, 'panel', false] as const,
      [from + 150, 'state', 6] as const,
      [from + 150, 'reason', 0] as const,
      [from + 300, 'door', true] as const,
      [from + 303, 'door', false] as const,
      [from + 400, 'order', `447${n}`] as const,
    ];
  }).flat(),
]);

describe('a line whose changes come in any order', () => {
  const line = smallLine();

  it('[TI2] as shown then is the fold of the tape up to each position, and as known now that in line time, also beyond the reach of one fold', async () => {
    // how much later than it happened each comes, in seconds: most at once, some up to ninety minutes
    const delay = fc.oneof({ weight: 9, arbitrary: fc.constant(0) }, fc.integer({ min: 1, max: 5400 }));
    let beyond = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.array(delay, { minLength: morning.length, maxLength: morning.length }),
        fc.integer({ min: 10, max: 60 }),
        async (delays, batch) => {
          const arrived = morning
            .map((change, place) => ({ change, comes: change.at + delays[place]! * 1e7 }))
            .sort((a, b) => a.comes - b.comes)
            .map(({ change }) => change);
          const { live, tape, notes } = await stand(line);
          const shown: Shown[] = [];
          for (let from = 0; from < arrived.length; from += batch) {
            await live.offer(arrived.slice(from, from + batch));
            shown.push(shownBy(live));
          }
          beyond += notes.filter(({ kind }) => kind === 'refolded').length;
          expect(await notAsFolded(tape, line, shown)).toEqual([]);
          expect(live.fold().text()).toBe(inLineTime(line, arrived));
        },
      ),
      { numRuns: 12 },
    );
    expect(beyond).toBeGreaterThan(0);
  });
});

/** The same by what a restart would fold of the tape up to there: this goes however far back it has to. */
async function notAsFolded(tape: Tape, line: Line, shown: readonly Shown[]): Promise<number[]> {
  const wrong: number[] = [];
  for (const { position, now, hash } of shown) {
    const { fold, whole } = await foldTape(tape, line, { version: 'none', end: position });
    if (!whole || hashOf(fold, now) !== hash) wrong.push(position);
  }
  return wrong;
}

describe('a moment in an outage', () => {
  const line = smallLine();
  const before: Rows = [...running(), ...goods(1, 20, 1), [20.5, 'link', false]];
  const version = 'v';

  async function heardAgain(value: 'whole' | true) {
    const { live, tape, clock } = await stand(line, { second: 20 });
    await live.offer(changes(line, before));
    clock.second = 30;
    const position = await live.enter(entry('n-1', 30, { kind: 'note', words: 'looked in' }));
    await tape.keep(line.id, { position, version, body: JSON.stringify(live.fold().save()) });
    clock.second = 61;
    await live.offer(changes(line, [...goods(21, 60, 21), [61, 'link', value]]));
    const then = await foldTape(tape, line, { version, end: position });
    const known = await foldKnown(tape, line, { version, at: at(40) });
    return [then.fold, known!].map((fold) => viewOf(fold, at(40), { servers: [] }));
  }

  it('[TI2] was unseen as shown then, and is seen as known now when nothing was missed', async () => {
    const [then, known] = await heardAgain('whole');
    expect(then).toMatchObject({ head: { kind: 'unknown' }, plan: { good: 20 } });
    expect(known).toMatchObject({ head: { kind: 'running' }, plan: { good: 40 }, sight: { kind: 'live' } });
  });

  it('[TI2] [CV1] stays unseen where something was missed, whatever else came late', async () => {
    const [then, known] = await heardAgain(true);
    expect(then).toMatchObject({ head: { kind: 'unknown' }, plan: { good: 20 } });
    expect(known).toMatchObject({ head: { kind: 'unknown' }, plan: { good: 40 } });
  });

  it('[TI2] as known now is the fold in line time of what the tape holds up to it, from any saved state', async () => {
    const all = changes(line, [...running(), ...goods(1, 300, 1)]);
    const arrived = [...all.slice(0, 100), ...all.slice(150, 250), ...all.slice(100, 150), ...all.slice(250)];
    const { live, tape } = await stand(line);
    for (let from = 0; from < arrived.length; from += 20) {
      await live.offer(arrived.slice(from, from + 20));
      const body = JSON.stringify(live.fold().save());
      await tape.keep(line.id, { position: live.position(), version, body });
    }
    for (const moment of [0, 50, 120, 180, 299].map(at)) {
      const known = await foldKnown(tape, line, { version, at: moment });
      expect(known?.text()).toBe(
        inLineTime(
          line,
          all.filter((change) => change.at <= moment),
        ),
      );
    }
    expect(await foldKnown(tape, line, { version: 'other', at: at(299), sortedMost: 10 })).toBeUndefined();
  });
});

/** Batches as they came, those within two seconds as one. */
function asTheyCame(all: readonly Change[]): Change[][] {
  const batches: Change[][] = [];
  for (const change of all) {
    const last = batches.at(-1);
    if (last && Math.floor(last[0]!.received / 2e7) === Math.floor(change.received / 2e7)) last.push(change);
    else batches.push([change]);
  }
  return batches;
}

/** From its moment on cartons belong to it: it matters which of them came before. */
function order(wall: number): Entry {
  const number = `o-${wall}`;
  const body = {
    kind: 'order',
    number,
    size: 'sachet-20',
    blend: 'green',
    quantity: 500,
    starts: 'now',
  } as const;
  return { ...entry(number, 0, body), at: wall as EpochMs };
}
