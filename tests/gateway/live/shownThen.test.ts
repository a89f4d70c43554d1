import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { foldKnown } from '../../../gateway/live/foldKnown.ts';
import { foldTape } from '../../../gateway/live/foldTape.ts';
import type { LiveLine } from '../../../gateway/live/liveLine.ts';
import type { Tape } from '../../../gateway/tape/tape.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import type { Line } from '../../../model/line/line.ts';
import { byLineTime, type Change } from '../../../model/signals/signals.ts';
import { type EpochMs, epochMs, type Instant } from '../../../model/units/units.ts';
import { viewOf } from '../../../model/view/lineView.ts';
import { readFaults } from '../../../simulator/faults/language.ts';
import { runFaulted } from '../../faults/faultedRun.ts';
import { at, changes, goods, running, smallLine } from '../../model/smallLine.ts';
import { Memory } from '../tape/memoryTape.ts';
import { entry, msAt, stand } from './shell.ts';

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
    '0:03:00 link dark for 40 s\n0:07:00 link cut for 3 min\n0:14:00 server killed for 20 s\n0:16:00 link cut for 30 s';
  /** Minutes after the beginning at which somebody enters something; most of them in an outage. */
  const entered = [3.3, 3.5, 7.9, 9.5, 12, 16.2];

  it('[TI2] as shown then: what it held at every position is the fold of the tape up to it; as known now: in line time', async () => {
    const { line, changes: told } = await runFaulted(3, 1 / 3, readFaults(faults));
    const memory = new Memory();
    let stood = await stand(line, { memory });
    const shown: Shown[] = [];
    const waiting = [...entered];
    const began = told[0]!.received;
    for (const some of bySecond(told)) {
      const ms = epochMs(some[0]!.received);
      while (waiting.length > 0 && ms > epochMs(began) + waiting[0]! * 60_000) {
        const wall = epochMs(began) + waiting.shift()! * 60_000;
        stood.clock.second = (wall - msAt(0)) / 1000;
        await stood.live.enter(note(wall));
        shown.push(shownBy(stood.live));
      }
      if (waiting.length === 2 && shown.length % 100 === 0) {
        // killed, and resumed from a checkpoint
        stood = await stand(line, { memory, clock: stood.clock });
      }
      stood.clock.second = (ms - msAt(0)) / 1000;
      await stood.live.offer(some);
      shown.push(shownBy(stood.live));
    }
    const all = await onTape(stood.tape, line);
    expect(waiting).toEqual([]);
    expect(lateOf(all)).toBeGreaterThan(100);
    expect(shown.length).toBeGreaterThan(500);
    expect(notAsShown(line, all, shown)).toEqual([]);
    expect(stood.live.fold().text()).toBe(inLineTime(line, all));
    const some = shown.filter((_one, place) => place % 97 === 0);
    for (const { position, now, hash } of some) {
      const { fold } = await foldTape(stood.tape, line, { version: 'none', end: position });
      expect(hashOf(fold, now)).toBe(hash);
    }
  });
});

/** Batches as they came, those within a second as one. */
function bySecond(all: readonly Change[]): Change[][] {
  const batches: Change[][] = [];
  for (const change of all) {
    const last = batches.at(-1);
    if (last && Math.floor(last[0]!.received / 1e7) === Math.floor(change.received / 1e7)) last.push(change);
    else batches.push([change]);
  }
  return batches;
}

function note(wall: number) {
  return { ...entry(`n-${wall}`, 0, { kind: 'note', words: 'looked in' }), at: wall as EpochMs };
}
