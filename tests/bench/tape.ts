import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { openDatabase, reading } from '../../gateway/tape/database.ts';
import { divide } from '../../gateway/tape/segments.ts';
import { openSqliteTape } from '../../gateway/tape/sqliteTape.ts';
import type { Tape } from '../../gateway/tape/tape.ts';
import type { Change } from '../../model/signals/signals.ts';
import { decode, encode } from '../../model/tape/codec.ts';
import { minutes } from '../../model/units/units.ts';
import { signals } from '../gateway/tape/stretch.ts';
import { inMilliseconds, storedShift } from '../model/tape/shift/shift.ts';
import { PlainRows } from './plainRows.ts';
import type { Figure } from './run.ts';
import { secondsOf, speedOf } from './speed.ts';
import { sealedBytes, stateShare } from './stateShare.ts';

type Lines = ReadonlyMap<string, ReturnType<typeof signals>>;

const line = 'line-3';
/** Each speed is measured so often; the middle one is told, and how far the others lie apart. */
const TURNS = 9;
const IMPORT_TURNS = 3;
/** What the line's first so many minutes brought is appended publish by publish. */
const APPENDED = minutes(12);
/** Of these as many are not counted: they warm up. */
const WARM_BATCHES = 500;
/** What a history that is brought in makes durable at one go. */
const IMPORTED_AT_ONCE = 50_000;
/** Between two commits the tape waits so long; so do the rows, as what is done after a wait costs more. Milliseconds. */
const PACE_MS = 10;

/**
 * What the stored shift of the bundled line costs on the tape, beside the same changes as plain rows of SQLite, one a
 * change, with the same settings and in the same batches, in the same run: bytes a change, changes read and changes appended
 * in a second of processor time. And what saved states take beside it.
 */
export async function measure(): Promise<Figure> {
  const { names, changes } = storedShift();
  const folder = mkdtempSync(join(tmpdir(), 'tape-'));
  const lines = new Map([[line, signals(...names)]]);
  const tape = await openSqliteTape(join(folder, 'tape'), lines);
  const rows = new PlainRows(join(folder, 'rows.sqlite'));
  try {
    await tape.importSealed(line, [changes]);
    inBulk(rows, changes);
    const read = await speedOf(changes.length, TURNS, async () => reads(tape, changes.length));
    const rowsRead = await speedOf(changes.length, TURNS, () => seen(rows.read(), changes.length));
    const bytesPerChange = sealedBytes(inMilliseconds(changes)) / changes.length;
    const reference = rows.bytes() / changes.length;
    return {
      value: bytesPerChange,
      unit: 'bytes/change',
      reference,
      ratio: bytesPerChange / reference,
      changes: changes.length,
      bytesPerChange,
      bytesPerChange100ns: sealedBytes(changes) / changes.length,
      fileBytesPerChange100ns: fileBytes(join(folder, 'tape', 'tape.sqlite')) / changes.length,
      readPerSecond: read.perSecond,
      readSpread: read.spread,
      rowsReadPerSecond: rowsRead.perSecond,
      rowsReadSpread: rowsRead.spread,
      readRatio: read.perSecond / rowsRead.perSecond,
      ...(await appending(folder, lines, changes)),
      ...(await importing(folder, lines, changes)),
      ...(await packing(changes)),
      ...stateShare(folder),
    };
  } finally {
    rows.close();
    await tape.close();
    rmSync(folder, { recursive: true });
  }
}

/** All of the tape's file: segments, what stands beside them, and room that is not used. */
function fileBytes(file: string): number {
  const database = openDatabase(file);
  const bytes = reading(database, 'page_count') * reading(database, 'page_size');
  database.close();
  return bytes;
}

async function reads(tape: Tape, count: number): Promise<void> {
  let total = 0;
  for await (const chunk of tape.read(line, 0, Number.POSITIVE_INFINITY)) total += chunk.length;
  seen(total, count);
}

function seen(count: number, of: number): void {
  if (count !== of) throw new Error(`${count} of ${of} changes were read`);
}

function inBulk(rows: PlainRows, changes: readonly Change[]): void {
  for (let from = 0; from < changes.length; from += IMPORTED_AT_ONCE)
    rows.append(changes.slice(from, from + IMPORTED_AT_ONCE));
}

/** A whole shift at one go, into a new file each time. */
async function importing(
  folder: string,
  lines: Lines,
  changes: readonly Change[],
): Promise<Record<string, number>> {
  let turn = 0;
  const onTape = await speedOf(changes.length, IMPORT_TURNS, async () => {
    turn += 1;
    const tape = await openSqliteTape(join(folder, `imported-${turn}`), lines);
    await tape.importSealed(line, [changes]);
    await tape.close();
  });
  const inRows = await speedOf(changes.length, IMPORT_TURNS, () => {
    turn += 1;
    const rows = new PlainRows(join(folder, `imported-${turn}.sqlite`));
    inBulk(rows, changes);
    rows.close();
  });
  return {
    importPerSecond: onTape.perSecond,
    importSpread: onTape.spread,
    rowsImportPerSecond: inRows.perSecond,
    importRatio: onTape.perSecond / inRows.perSecond,
  };
}

/** Publish by publish, each durable before the next one, as a line's come; segments are sealed on the way. */
async function appending(
  folder: string,
  lines: Lines,
  changes: readonly Change[],
): Promise<Record<string, number>> {
  const end = changes[0]!.received + APPENDED;
  const part = changes.filter(({ received }) => received < end);
  const publishes = publishesOf(part);
  const [first, batches] = [publishes.slice(0, WARM_BATCHES), publishes.slice(WARM_BATCHES)];
  const count = batches.reduce((total, { length }) => total + length, 0);
  const tape = await openSqliteTape(join(folder, 'appended'), lines);
  const rows = new PlainRows(join(folder, 'appended.sqlite'));
  const append = async (some: readonly Change[][]) => {
    for (const batch of some) await tape.append(line, batch);
  };
  const appendRows = async (some: readonly Change[][]) => {
    for (const batch of some) {
      await setTimeout(PACE_MS);
      rows.append(batch);
    }
  };
  await append(first);
  await appendRows(first);
  const began = performance.now();
  const onTape = await secondsOf(() => append(batches));
  const ms = performance.now() - began;
  const inRows = await secondsOf(() => appendRows(batches));
  await tape.close();
  rows.close();
  return {
    appendPerSecond: Math.round(count / onTape),
    rowsAppendPerSecond: Math.round(count / inRows),
    appendRatio: inRows / onTape,
    batches: batches.length,
    msPerDurableBatch: ms / batches.length,
  };
}

function publishesOf(changes: readonly Change[]): Change[][] {
  const publishes: Change[][] = [];
  for (const change of changes) {
    const last = publishes.at(-1);
    if (last?.[0]?.received === change.received) last.push(change);
    else publishes.push([change]);
  }
  return publishes;
}

/** The codec by itself, without file and deflate. */
async function packing(changes: readonly Change[]): Promise<Record<string, number>> {
  const { sealed, rest } = divide([], changes);
  const segments = [...sealed, rest];
  const blobs = segments.map((segment) => encode(segment));
  const packed = await speedOf(changes.length, TURNS, () => {
    for (const segment of segments) encode(segment);
  });
  const opened = await speedOf(changes.length, TURNS, () => {
    for (const blob of blobs) decode(blob);
  });
  return {
    bytesBeforeDeflate: blobs.reduce((total, { length }) => total + length, 0) / changes.length,
    encodePerSecond: packed.perSecond,
    decodePerSecond: opened.perSecond,
    decodeSpread: opened.spread,
  };
}
