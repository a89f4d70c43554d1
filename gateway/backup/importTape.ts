import { existsSync, mkdirSync, rmSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Line } from '../../model/line/line.ts';
import type { Change, Signal } from '../../model/signals/signals.ts';
import { GOOD } from '../../model/status/status.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import { epochMs, type Instant } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import { ContentHash } from '../tape/contentHash.ts';
import { openSqliteTape } from '../tape/sqliteTape.ts';
import { type StoredLine, StoredTape } from '../tape/storedTape.ts';
import { lineIn } from './linesIn.ts';
import { MANIFEST, readManifest } from './manifest.ts';
import { onFile } from './onFile.ts';
import type { Work } from './progress.ts';
import { checkFile } from './restore.ts';

const words = wordsIn('en').gateway.importing;

export interface ImportAsked {
  /** A backup, a data folder, or a tape's file. */
  readonly source: string;
  readonly data: string;
  readonly line: Line;
  /** Id of the line on that tape. */
  readonly from: string;
}

export interface Imported {
  readonly changes: number;
  readonly sha256: string;
  /** Signals on that tape that this line's file has not: they are kept, and left out when the tape is read. */
  readonly unknown: readonly string[];
  /** Signals of this line's file of which that tape has nothing. */
  readonly missing: readonly string[];
  /** Links of which it ended without saying that they were no more heard: that is said after it. */
  readonly ended: number;
  readonly begin: number;
}

/** Line time of what was entered before anything was heard. */
const BEFORE_ALL = 1;
/** Changes at the beginning of this line's tape that are looked at for when it begins. */
const LOOKED_AT = 4096;

/**
 * Puts a tape of another machine before what this line's tape holds: all of it or nothing, whoever ends or kills it. What is
 * on the disk is held against the source, by the hash of its changes, before it is the line's.
 */
export async function importTape(asked: ImportAsked, work: Work): Promise<Imported> {
  const file = await sourceFile(asked.source, work);
  const source = new StoredTape(file);
  try {
    const from = source.lines().find(({ id }) => id === asked.from);
    if (!from || from.begin === from.end) throw nothingOf(asked, source);
    const { end, sha256, open } = await readWhole(source, from, asked.line, work);
    onFile(asked.data, () => mkdirSync(asked.data, { recursive: true }));
    return await put(asked, { source, from, end, sha256, open }, work);
  } finally {
    source.close();
  }
}

/** The tape's file; of a backup it is checked against what was backed up. */
async function sourceFile(source: string, { stopping }: Work): Promise<string> {
  const isFolder = onFile(source, () => statSync(source)).isDirectory();
  if (!isFolder) {
    refuseSimulated(dirname(source));
    return source;
  }
  const file = join(source, 'tape.sqlite');
  refuseSimulated(source);
  if (existsSync(join(source, MANIFEST)))
    await checkFile(source, readManifest(source), 'tape.sqlite', stopping);
  if (!existsSync(file))
    throw new LineError(words.noTape(source), { why: words.noTapeWhy, mend: words.noTapeMend });
  return file;
}

/** What a simulated machine did never stands among what a real one does. */
function refuseSimulated(folder: string): void {
  if (!existsSync(join(folder, 'demo.json'))) return;
  const { demoFolder, demoFolderWhy } = wordsIn('en').gateway;
  throw new LineError(demoFolder(folder), { why: demoFolderWhy, mend: words.noTapeMend });
}

function nothingOf({ from }: ImportAsked, source: StoredTape): LineError {
  const known = source.lines().flatMap(({ id, begin, end }) => (begin < end ? [id] : []));
  return new LineError(words.noLine(from), { why: words.noLineWhy(known), mend: words.noLineMend });
}

/** When what there is ends, by line time and by receipt, its hash, and which links still count as heard. */
async function readWhole(source: StoredTape, from: StoredLine, line: Line, work: Work) {
  const links = new Map(line.signals.flatMap(({ id, role }) => (role === 'link' ? [[id, false]] : [])));
  const end = { at: 0, received: 0 };
  const hash = new ContentHash(from.signals);
  for await (const changes of source.read(from)) {
    work.stopping.throwIfAborted();
    hash.add(changes);
    for (const { signal, at, received, value } of changes) {
      if (at > end.at) end.at = at;
      if (received > end.received) end.received = received;
      if (links.has(from.signals[signal]!)) links.set(from.signals[signal]!, value !== false);
    }
    work.progress(words.reading, hash.changes / (from.end - from.begin));
  }
  const open = [...links].flatMap(([id, heard]) => (heard ? [id] : []));
  return { end: end as { at: Instant; received: Instant }, sha256: hash.end(), open };
}

interface Found {
  readonly source: StoredTape;
  readonly from: StoredLine;
  readonly end: { readonly at: Instant; readonly received: Instant };
  readonly sha256: string;
  readonly open: readonly string[];
}

async function put({ data, line }: ImportAsked, found: Found, work: Work): Promise<Imported> {
  const { from, sha256, open } = found;
  const known = new Set(line.signals.map(({ id }) => id));
  const unknown = from.signals.filter((id) => !known.has(id));
  const signals = [...line.signals, ...unknown.map((id, place) => stranger(id, line.signals.length + place))];
  const tape = await openSqliteTape(data, new Map([[line.id, signals]]));
  const file = join(data, 'tape.sqlite');
  const own = new StoredTape(file);
  try {
    await refuseOverlap(own, line, found.end);
    const count = from.end - from.begin;
    // a cache that lacks what comes: it is made anew at the next start, whatever becomes of this
    for (const end of ['', '-wal', '-shm'])
      onFile(data, () => rmSync(join(data, `records.sqlite${end}`), { force: true }));
    const begin = await tape.importBefore(line.id, chunksOf(found, signals, work), async ({ number }) => {
      const stored = own.lines().find(({ id }) => id === line.id)!;
      const hidden = { ...stored, number, begin: 0, end: count };
      const there = await lineIn(own, hidden, {
        ...work,
        progress: (_, share) => work.progress(words.checking, share),
      });
      if (there.sha256 !== sha256)
        throw new LineError(words.different(file), { why: words.differentWhy, mend: words.differentMend });
    });
    const missing = line.signals.flatMap(({ id, server }) =>
      server !== '' && !from.signals.includes(id) ? [id] : [],
    );
    return { changes: count, sha256, unknown, missing, ended: open.length, begin };
  } finally {
    own.close();
    await tape.close();
  }
}

/** A signal that is on that tape alone: nobody reads it as long as the line's file has not got it. */
function stranger(id: string, index: number): Signal {
  return { index, id, role: 'condition', machine: '', server: '', type: 'number' };
}

/** All changes by the places of this line's signals; where it ended in the middle, that nobody is heard from then on. */
async function* chunksOf(
  { source, from, end, open }: Found,
  signals: readonly Signal[],
  work: Work,
): AsyncGenerator<readonly Change[]> {
  const placeOf = new Map(signals.map(({ id, index }) => [id, index]));
  const places = from.signals.map((id) => placeOf.get(id)!);
  let done = 0;
  for await (const changes of source.read(from)) {
    work.stopping.throwIfAborted();
    yield changes.map((change) => ({ ...change, signal: places[change.signal]! }));
    done += changes.length;
    work.progress(words.writing, done / (from.end - from.begin));
  }
  if (open.length > 0)
    yield open.map((id) => ({ ...end, signal: placeOf.get(id)!, status: GOOD, value: false }));
}

async function refuseOverlap(own: StoredTape, line: Line, end: Found['end']): Promise<void> {
  const stored = own.lines().find(({ id }) => id === line.id);
  if (!stored || stored.begin === stored.end) return;
  if (stored.begin > 0)
    throw new LineError(words.takenAway, { why: words.takenAwayWhy, mend: words.takenAwayMend });
  let first = Number.POSITIVE_INFINITY;
  let received = Number.POSITIVE_INFINITY;
  for await (const changes of own.read(stored, stored.begin, stored.begin + LOOKED_AT))
    for (const change of changes) {
      if (change.at > BEFORE_ALL && change.at < first) first = change.at;
      if (change.received < received) received = change.received;
    }
  if (end.at < first && end.received <= received) return;
  const iso = (at: number) => new Date(epochMs(at as Instant)).toISOString();
  throw new LineError(words.overlaps(line.name), {
    why: words.overlapsWhy(iso(Math.max(end.at, end.received)), iso(Math.min(first, received))),
    mend: words.overlapsMend,
  });
}
