import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { startLiveLine } from '../../../gateway/live/liveLine.ts';
import { openRecords } from '../../../gateway/records/records.ts';
import { keptFrom, type Limits } from '../../../gateway/retention/limits.ts';
import { retain } from '../../../gateway/retention/retention.ts';
import { openSqliteTape } from '../../../gateway/tape/sqliteTape.ts';
import type { StoredPiece } from '../../../gateway/tape/tape.ts';
import { foldTape } from '../../../model/replay/foldTape.ts';
import { epochMs, HOUR, type Instant, minutes, type Span } from '../../../model/units/units.ts';
import { monday } from '../../simulator/simulatedLine.ts';
import { line, recordedFolder } from '../export/recordedFolder.ts';
import { gathered } from '../tape/stretch.ts';

const HOURS = 6;
const end = (monday + HOURS * HOUR) as Instant;
const lines = new Map([[line.id, line.signals]]);
const never = new AbortController().signal;

async function opened(data: string) {
  const tape = await openSqliteTape(data, lines);
  const records = openRecords(data);
  const notes: { readonly kind: string; readonly without?: boolean }[] = [];
  const live = await startLiveLine({
    line,
    tape,
    records,
    now: () => epochMs(end),
    speed: 1,
    outside: () => ({ servers: [] }),
    told: (note) => void notes.push(note),
  });
  const said: unknown[] = [];
  const log = { info: (text: unknown) => void said.push(text), error: () => {} } as never;
  const keep = (limits: Limits) =>
    retain({ live, tape, records, limits, now: () => end, ready: () => true, log }, never);
  const close = async () => {
    await live.stop();
    records.close();
    await tape.close();
  };
  const stops = () => records.ask({ line: line.id, kind: 'stop', from: monday, to: end });
  return { tape, records, live, notes, said, keep, close, stops };
}

describe('a tape that is not kept for good', () => {
  it('[OI8] loses whole segments, the oldest first: what stays keeps its positions, and folding goes on from the state there', async () => {
    const data = await recordedFolder(HOURS);
    const { tape, keep, live, said, stops, close } = await opened(data);
    const last = tape.end(line.id);
    const all = await gathered(tape.read(line.id, 0, last));
    const before = { state: live.fold().save(), stops: stops() };
    expect(await keep({})).toBe(0);
    expect(tape.begin(line.id)).toBe(0);

    const begin = await keep({ age: (2 * HOUR) as Span });
    expect(tape.begin(line.id)).toBe(begin);
    const received = all[begin]!.received;
    expect(received).toBeGreaterThan(end - 2 * HOUR - minutes(11));
    expect(received).toBeLessThanOrEqual(end - 2 * HOUR);
    expect(await gathered(tape.read(line.id, 0, last))).toEqual(all.slice(begin));
    expect(said).toEqual([expect.stringMatching(/^The tape of Line 3 begins at 2026-03-16T08:5\d/)]);
    expect(tape.nearest(line.id, begin, live.version)?.position).toBe(begin);
    expect(tape.nearest(line.id, begin - 1, live.version)).toBeUndefined();
    const { fold } = await foldTape(tape, line, { version: live.version, end: last, since: begin });
    expect(fold.save()).toEqual(before.state);
    // stops that were over are gone as well, but for the newest, and all later ones are there
    const kept = stops();
    expect(kept.length).toBeLessThan(before.stops.length);
    expect(before.stops.slice(-kept.length)).toEqual(kept);
    expect(kept.filter((stop) => stop.begin < all[begin]!.at).length).toBeLessThanOrEqual(1);
    expect(await keep({ age: (2 * HOUR) as Span })).toBe(begin);
    await close();

    const again = await opened(data);
    expect(again.tape.begin(line.id)).toBe(begin);
    expect(again.live.fold().save()).toEqual(before.state);
    expect(again.notes.filter(({ without }) => without)).toEqual([]);
    expect(again.stops()).toEqual(kept);
    expect(await again.tape.append(line.id, [])).toBe(last);
    await again.close();
  });

  it('[OI8] goes by size as well, and never loses its last segment', async () => {
    const data = await recordedFolder(2);
    const { tape, keep, close } = await opened(data);
    const sealed = tape.pieces(line.id, 0, tape.end(line.id)).filter((piece) => piece.sealed);
    const bytes = sealed.slice(-3).reduce((sum, piece) => sum + piece.bytes, 0);
    expect(await keep({ bytes })).toBe(sealed.at(-3)!.start);
    expect(await keep({ bytes: 1 })).toBe(sealed.at(-1)!.start);
    expect(await keep({ age: 1 as Span })).toBe(sealed.at(-1)!.start);
    await close();
    const again = await opened(data);
    expect(again.tape.begin(line.id)).toBe(sealed.at(-1)!.start);
    await again.close();
  });

  it('[OI8] says that nothing is known from before where no state of this version stands at its beginning', async () => {
    const data = await recordedFolder(3);
    const { keep, close } = await opened(data);
    const begin = await keep({ age: HOUR });
    await close();
    // as after an update: states of another version are no states
    const tape = await openSqliteTape(data, lines);
    await tape.keepOnly(line.id, 'another');
    await tape.close();
    const again = await opened(data);
    expect(again.notes).toContainEqual(expect.objectContaining({ kind: 'resumed', without: true }));
    const { state } = again.live.fold();
    expect(state.shift.from).toBeGreaterThanOrEqual(
      (await gathered(again.tape.read(line.id, begin, begin + 1)))[0]!.at,
    );
    await again.close();
  });

  it('[OI8] keeps what is young or near enough, whatever its pieces are', () => {
    const piece = fc.record({
      count: fc.integer({ min: 1, max: 50 }),
      bytes: fc.integer({ min: 1, max: 1000 }),
      took: fc.integer({ min: 1, max: 100 }),
      timed: fc.boolean(),
    });
    fc.assert(
      fc.property(
        fc.array(piece, { maxLength: 30 }),
        fc.option(fc.integer({ min: 0, max: 1500 }), { nil: undefined }),
        fc.option(fc.integer({ min: 0, max: 9000 }), { nil: undefined }),
        (drawn, age, bytes) => {
          let start = 7;
          let at = 0;
          const pieces = drawn.map(({ count, took, timed, ...rest }, place): StoredPiece => {
            const span = { least: at as Instant, most: (at + took) as Instant };
            const made = { start, count, sealed: place < drawn.length - 1, at: undefined, ...rest };
            start += count;
            at += took;
            return { ...made, received: timed ? span : undefined };
          });
          const limits = {
            ...(age === undefined ? {} : { age: age as Span }),
            ...(bytes === undefined ? {} : { bytes }),
          };
          const from = keptFrom(pieces, limits, at as Instant);
          const sealed = pieces.filter((one) => one.sealed);
          const gone = sealed.filter((one) => one.start < from);
          const kept = sealed.filter((one) => one.start >= from);
          expect(sealed.length === 0 || kept.length > 0).toBe(true);
          expect(kept[0] === undefined || kept[0].start === from).toBe(true);
          const sum = (some: readonly StoredPiece[]) => some.reduce((total, one) => total + one.bytes, 0);
          // the last one stays, however old it is
          const judged = [gone, ...(kept.length === 1 ? [sealed] : [])];
          const newest = judged.map((some) => some.findLast(({ received }) => received !== undefined));
          const tooOld = age !== undefined && newest.some((one) => (one?.received?.most ?? at) < at - age);
          const tooMuch = bytes !== undefined && gone.length > 0 && sum([gone.at(-1)!, ...kept]) > bytes;
          expect(gone.length === 0 || tooOld || tooMuch).toBe(true);
          if (bytes !== undefined && kept.length > 1) expect(sum(kept)).toBeLessThanOrEqual(bytes);
        },
      ),
    );
  });
});
