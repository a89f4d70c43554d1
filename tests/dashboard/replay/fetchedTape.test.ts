import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { FetchedTape } from '../../../dashboard/replay/fetchedTape.ts';
import { openDatabase, statement } from '../../../gateway/tape/database.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import { Replay } from '../../../model/replay/replay.ts';
import type { Change } from '../../../model/signals/signals.ts';
import { epochMs, HOUR, type Instant, MINUTE } from '../../../model/units/units.ts';
import { viewOf } from '../../../model/view/lineView.ts';
import { runUntil, startMachine } from '../../../simulator/machine/machine.ts';
import { type GatewaySite, openGatewaySite } from '../../browser/gatewaySite.ts';
import { boundLine, changesOf, monday } from '../../simulator/simulatedLine.ts';

const bound = boundLine();
const { line } = bound;
const end = (monday + 3 * HOUR) as Instant;
const never = new AbortController().signal;

let site: GatewaySite;
beforeAll(async () => {
  site = await openGatewaySite({ bound, now: () => epochMs(end) });
  const machine = startMachine({ seed: 5, start: monday });
  for (let at = monday; at < end; at = (at + HOUR / 12) as Instant)
    await site.live.offer(changesOf(bound, runUntil(machine, (at + HOUR / 12) as Instant)));
});
afterAll(() => site.end());

function hash(fold: LineFold, now: Instant): string {
  const view = JSON.stringify(viewOf(fold, now, { servers: [] }));
  return createHash('sha256').update(fold.text()).update(view).digest('hex');
}

async function opened(from: Instant, to: Instant) {
  const asked: string[] = [];
  const tape = await FetchedTape.open(
    line.id,
    epochMs(from),
    epochMs(to),
    (path, signal) => {
      asked.push(path);
      return fetch(`${site.address}${path}`, { signal });
    },
    never,
  );
  const { version, start } = tape.stretch;
  const replay = await Replay.open(tape, { line: tape.line, version, from, to, start, oldest: tape.oldest });
  return { tape, replay, asked };
}

async function onTape(): Promise<readonly Change[]> {
  const all: Change[] = [];
  for await (const some of site.tape.read(line.id, 0, site.tape.end(line.id))) all.push(...some);
  return all;
}

describe('a stretch of a gateway’s tape that a browser fetches and folds', () => {
  it('[RP4] is at any moment the state that the gateway folds of its tape, from pieces and a state it was given', async () => {
    const from = (monday + HOUR) as Instant;
    const to = (monday + 2 * HOUR) as Instant;
    const { tape, replay, asked } = await opened(from, to);
    expect(JSON.stringify([...tape.line.machines[0]!.states])).toBe(
      JSON.stringify([...line.machines[0]!.states]),
    );
    // not all of the tape, and no piece twice
    const questions = () =>
      asked.filter((path) => path.includes('/bytes?')).map((path) => new URL(path, site.address));
    const first = questions();
    const spans = first.map(
      ({ searchParams: of }) => [Number(of.get('from')), Number(of.get('to'))] as const,
    );
    const covered = spans.reduce((sum, [begin, until]) => sum + until - begin, 0);
    expect(covered).toBeLessThan(site.tape.end(line.id));
    expect(covered).toBe(
      Math.max(...spans.map(([, until]) => until)) - Math.min(...spans.map(([begin]) => begin)),
    );
    const all = await onTape();
    const fold = new LineFold(line);
    let reached = 0;
    for (let at = from; at <= to; at = (at + 7 * MINUTE) as Instant) {
      const { position, fold: played } = await replay.at(at, 'shown');
      for (; reached < position; reached += 1) fold.take([all[reached]!]);
      expect(hash(played, at)).toBe(hash(fold, at));
      expect(hash((await replay.at(at, 'known')).fold, at)).toBe(hash(fold, at));
    }
    expect(questions().length).toBe(first.length);
  });

  it('[RP4] [TP5] a damaged piece is time that nobody saw, as it is for the gateway; all else is played', async () => {
    const [, , third] = site.tape.pieces(line.id, 0, site.tape.end(line.id));
    const database = openDatabase(join(site.folder, 'tape.sqlite'));
    const read = statement(database, 'SELECT body FROM segment WHERE start = ?').pluck();
    const write = statement(database, 'UPDATE segment SET body = ? WHERE start = ?');
    const body = read.get(third!.start) as Buffer;
    const broken = Buffer.from(body);
    broken[broken.length >> 1]! ^= 0x55;
    write.run(broken, third!.start);
    const { replay } = await opened(monday, (monday + HOUR) as Instant);
    const within = ((third!.at!.least + third!.at!.most) / 2) as Instant;
    const after = (third!.at!.most + 5 * MINUTE) as Instant;
    const of = async (at: Instant) => viewOf((await replay.at(at, 'known')).fold, at, { servers: [] });
    expect((await of(within)).head.kind).toBe('unknown');
    expect((await of(after)).head.kind).not.toBe('unknown');
    expect((await of(after)).sight.unknown).toBeGreaterThan(0);
    const all = await onTape();
    const fold = new LineFold(line);
    const { position, fold: played } = await replay.at(after, 'shown');
    // what stands in for it has no places of its own, and is folded whole
    fold.take(all.filter(({ at }) => at <= after));
    expect(position).toBeGreaterThan(third!.start);
    expect(played.state.shift.account).toEqual(fold.state.shift.account);
    write.run(body, third!.start);
    database.close();
  });

  it('says what the gateway says where it refuses', async () => {
    const ask = (path: string, signal: AbortSignal) => fetch(`${site.address}${path}`, { signal });
    await expect(FetchedTape.open('other', epochMs(monday), epochMs(end), ask, never)).rejects.toMatchObject({
      message: expect.stringContaining('other'),
      mend: expect.any(String),
    });
    await expect(FetchedTape.open(line.id, epochMs(end), epochMs(monday), ask, never)).rejects.toMatchObject({
      why: expect.any(String),
    });
  });
});
