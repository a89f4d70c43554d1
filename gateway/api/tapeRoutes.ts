import { deflate } from 'node:zlib';
import { promisify } from 'node:util';
import { setImmediate } from 'node:timers/promises';
import express, { type Request } from 'express';
import type { z } from 'zod';
import { lineText } from '../../model/line/lineText.ts';
import { foldTape } from '../../model/replay/foldTape.ts';
import type { Piece, StateBefore, TapeStretch } from '../../model/replay/stretch.ts';
import { epochMs, instantFromMs } from '../../model/units/units.ts';
import type { LiveLine } from '../live/liveLine.ts';
import { pieceBefore } from '../tape/pieceBefore.ts';
import type { StoredPiece, Tape } from '../tape/tape.ts';
import { piecesQuery, positionParameter, stretchQuery } from './tapeSchema.ts';

interface Doors {
  readonly tape: Tape;
  readonly lineOf: (request: Request) => LiveLine;
  readonly read: <Shape>(schema: z.ZodType<Shape>, value: unknown) => Shape;
  /** Says that there is no such thing. */
  readonly nothing: (request: Request) => never;
}

/** States are kept or made at positions that these many changes lie between, so that the same ones are asked for again. */
const GRID = 20_000;
/** Pieces after the stretch's end that are told with it: it goes on until something came after it. */
const MORE = 2;
/** Pieces that one answer tells at most. */
const PIECES_MOST = 2_000;

/** Pieces that one answer brings at most. */
const TOGETHER_MOST = 16;

const packed = promisify(deflate);

/** The tape itself, for a browser that folds it: which pieces a stretch is in, their bytes, and a state to begin from. */
export function tapeRoutes({ tape, lineOf, read, nothing }: Doors): express.Router {
  const router = express.Router({ mergeParams: true });
  router.get('/', async (request, response) => {
    const live = lineOf(request);
    const { from, to } = read(stretchQuery, request.query);
    response.json(await stretchOf(tape, live, from, to));
  });
  router.get('/pieces', (request, response) => {
    const { line } = lineOf(request);
    const { from, to } = read(piecesQuery, request.query);
    response.json(tape.pieces(line.id, from, to).slice(0, PIECES_MOST).map(pieceOf));
  });
  router.get('/bytes', (request, response) => {
    const { line } = lineOf(request);
    const { from, to } = read(piecesQuery, request.query);
    response.type('application/octet-stream').send(bytesOf(tape, line.id, from, to));
  });
  router.get('/pieces/:position', (request, response) => {
    const { line } = lineOf(request);
    const { position } = read(positionParameter, request.params);
    const bytes = tape.pieceBytes(line.id, position);
    if (!bytes) return nothing(request);
    response.type('application/octet-stream').send(Buffer.from(bytes));
  });
  router.get('/pieces/:position/stand-in', (request, response) => {
    const { line } = lineOf(request);
    const { position } = read(positionParameter, request.params);
    const bytes = tape.standInBytes(line.id, position);
    if (!bytes) return nothing(request);
    response.type('application/octet-stream').send(Buffer.from(bytes));
  });
  router.get('/states/:position', async (request, response) => {
    const live = lineOf(request);
    const { position } = read(positionParameter, request.params);
    const bytes = await packed(JSON.stringify(await stateBefore(tape, live, position)));
    response.type('application/json').set('Content-Encoding', 'deflate').send(bytes);
  });
  return router;
}

async function stretchOf(tape: Tape, live: LiveLine, from: number, to: number): Promise<TapeStretch> {
  const { line } = live;
  const [begin, end] = [tape.begin(line.id), tape.end(line.id)];
  const [first, last] = [
    await pieceBefore(tape, line, instantFromMs(from)),
    await pieceBefore(tape, line, instantFromMs(to)),
  ];
  const start = beforeOf(tape, live, first);
  const pieces = tape.pieces(line.id, start, end);
  const within = pieces.filter((piece) => piece.start <= last);
  const more = pieces.slice(within.length, within.length + MORE);
  const until = instantFromMs(to);
  const later = pieces
    .slice(within.length + MORE)
    .filter(({ at }) => at === undefined || at.least <= until)
    .slice(0, PIECES_MOST);
  const [oldest] = tape.pieces(line.id, begin, begin + 1);
  return {
    version: live.version,
    line: lineText(line),
    numbers: [...tape.numbersOf(line.id)],
    ...{ begin, end, start },
    first: oldest?.at ? epochMs(oldest.at.least) : null,
    now: epochMs(live.now()),
    pieces: [...within, ...more].map(pieceOf),
    later: later.map(pieceOf),
  };
}

/** Where a state is, or can be made, that lies at a position or before it. */
function beforeOf(tape: Tape, live: LiveLine, at: number): number {
  const { id } = live.line;
  const kept = tape.nearest(id, at, live.version)?.position ?? tape.begin(id);
  return Math.max(tape.begin(id), kept, Math.floor(at / GRID) * GRID);
}

async function stateBefore(tape: Tape, live: LiveLine, at: number): Promise<StateBefore> {
  const { line, version } = live;
  const end = beforeOf(tape, live, Math.min(at, tape.end(line.id)));
  if (end <= tape.begin(line.id)) return { position: end, body: null };
  const { fold } = await foldTape(tape, line, { version, end, rest: () => setImmediate() });
  return { position: end, body: JSON.stringify(fold.save()) };
}

/** Pieces one after another, each led by its length: one answer for many of them. */
function bytesOf(tape: Tape, line: string, from: number, to: number): Buffer {
  const parts: Uint8Array[] = [];
  for (const { start } of tape.pieces(line, from, to).slice(0, TOGETHER_MOST)) {
    const bytes = tape.pieceBytes(line, start);
    if (!bytes) break;
    const length = new Uint8Array(4);
    new DataView(length.buffer).setUint32(0, bytes.length, true);
    parts.push(length, bytes);
  }
  return Buffer.concat(parts);
}

function pieceOf({ start, count, sealed, at, bytes }: StoredPiece): Piece {
  return { start, count, sealed, bytes, at: at ? [at.least, at.most] : null };
}
