import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createHash } from 'node:crypto';
import { afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type LiveNote, startLiveLine } from '../../../gateway/live/liveLine.ts';
import { openSqliteTape } from '../../../gateway/tape/sqliteTape.ts';
import type { EntryBody } from '../../../model/entries/entries.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import { byLineTime, type Change } from '../../../model/signals/signals.ts';
import { epochMs, type Instant } from '../../../model/units/units.ts';
import { boundLine, changesOf, monday, runFor } from '../../simulator/simulatedLine.ts';
import { entry } from './shell.ts';

const bound = boundLine();
const { line } = bound;
const BATCH = 400;
let told: readonly Change[];
let whole: string;
let folder: string;

beforeAll(() => {
  told = changesOf(bound, runFor(2).told);
  whole = inLineTime(told);
});
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'scoreline-live-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

function inLineTime(all: readonly Change[]): string {
  const fold = new LineFold(line);
  fold.take([...all].sort(byLineTime));
  return hashOf(fold);
}

function hashOf(fold: LineFold): string {
  return createHash('sha256').update(fold.text()).digest('hex');
}

/** The bundled line on a tape in a folder, whose clock is the newest line time offered. */
async function open() {
  const tape = await openSqliteTape(folder, new Map([[line.id, line.signals]]));
  const notes: LiveNote[] = [];
  let moment = monday;
  const now = () => epochMs(moment);
  const outside = () => ({ servers: [] });
  const live = await startLiveLine({
    line,
    tape,
    now,
    speed: 1,
    outside,
    told: (note) => void notes.push(note),
  });
  const offer = async (changes: readonly Change[]) => {
    for (let from = 0; from < changes.length; from += BATCH) {
      const batch = changes.slice(from, from + BATCH);
      moment = Math.max(moment, batch.at(-1)!.at) as Instant;
      await live.offer(batch);
    }
  };
  return { tape, live, notes, offer };
}

describe('the bundled line on a tape on disk', () => {
  it('[TI3] killed and started again it goes on to the state of one that ran through', async () => {
    const cuts = [0.2, 0.35, 0.7].map((share) => Math.round(told.length * share));
    let from = 0;
    for (const [place, cut] of cuts.entries()) {
      const { tape, live, offer } = await open();
      await offer(told.slice(from, cut));
      // the second of them ends in order; the others as a process does that is killed
      if (place === 1) await live.stop();
      await tape.close();
      from = cut;
    }
    const { tape, live, offer, notes } = await open();
    const resumed = notes.find((note) => note.kind === 'resumed');
    expect(resumed).toMatchObject({ position: from, whole: true });
    // from a saved state: not everything is folded again
    expect(resumed?.kind === 'resumed' && resumed.replayed).toBeLessThan(from / 2);
    await offer(told.slice(from));
    expect(hashOf(live.fold())).toBe(whole);
    await tape.close();
  });

  it('[TI2] what comes an hour and a half late is worked in, and stands after a restart too', async () => {
    const [from, to] = [Math.round(told.length * 0.1), Math.round(told.length * 0.1) + 700];
    const first = await open();
    await first.offer([...told.slice(0, from), ...told.slice(to)]);
    expect(hashOf(first.live.fold())).not.toBe(whole);
    await first.offer(told.slice(from, to));
    await first.live.stop();
    expect(first.notes.some((note) => note.kind === 'refolded' && note.whole)).toBe(true);
    expect(hashOf(first.live.fold())).toBe(whole);
    await first.tape.close();
    const second = await open();
    expect(hashOf(second.live.fold())).toBe(whole);
    await second.tape.close();
  });

  it('never goes on from a saved state of another version of the model', async () => {
    const first = await open();
    await first.offer(told.slice(0, 5000));
    const position = first.tape.end(line.id);
    await first.tape.keep(line.id, { position, version: 'another', body: '{"state":{"at":1}}' });
    await first.tape.close();
    const { tape, live, offer } = await open();
    await offer(told.slice(5000));
    expect(hashOf(live.fold())).toBe(whole);
    await tape.close();
  });

  it('an entry of an old tape that names what is not there, whatever its name, harms neither view nor restart', async () => {
    const first = await open();
    await first.offer(told.slice(0, 20_000));
    const names = [
      'nothing',
      '__proto__',
      'constructor',
      'toString',
      '-1',
      '\ud800',
      '\u0000',
      '<b>',
      '”\\"',
    ];
    const entrySignal = line.signals.findLastIndex(({ role }) => role === 'entry');
    let count = 0;
    for (const name of names) {
      const bodies: EntryBody[] = [
        { kind: 'reason', stop: name, reason: name, words: name },
        { kind: 'reason', stop: first.live.fold().state.stops.at(-1)?.id ?? name, reason: name },
        { kind: 'notNow', stop: name },
        { kind: 'order', number: name, size: name, blend: name, quantity: 1, starts: 'now' },
        { kind: 'order', number: name, size: 'sachet-20', blend: name, quantity: 1e7, starts: 'whenEnded' },
        { kind: 'crew', people: 0 },
        { kind: 'crew', people: 50 },
        { kind: 'handedOver', order: name, cartons: 0 },
        { kind: 'note', words: name, stop: name },
        { kind: 'device', press: name, candidate: name },
        { kind: 'going', stop: name },
        { kind: 'closed', finding: name },
      ];
      for (const body of bodies) {
        count += 1;
        // such entries are refused now, and were not always
        const at = first.live.fold().state.at;
        const value = JSON.stringify(entry(`${name}-${count}`, 0, body));
        await first.live.offer([{ signal: entrySignal, at, received: at, status: 0, value }]);
        expect(JSON.stringify(first.live.view()).length).toBeGreaterThan(0);
      }
    }
    await first.offer(told.slice(20_000, 40_000));
    const text = first.live.fold().text();
    await first.tape.close();
    const second = await open();
    expect(second.live.position()).toBe(40_000 + count);
    expect(second.live.fold().text()).toBe(text);
    expect(Object.keys(Object.prototype)).toEqual([]);
    await second.tape.close();
  });
});
