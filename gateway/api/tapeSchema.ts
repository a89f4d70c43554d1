import { z } from 'zod';
import type { Piece, StateBefore, TapeStretch } from '../../model/replay/stretch.ts';
import { asMoment } from './pastAsked.ts';
import { sameAs } from './sameAs.ts';
import { list, moment } from './viewParts.ts';

export const position = z.coerce.number().int().min(Number.MIN_SAFE_INTEGER).max(Number.MAX_SAFE_INTEGER);
/** A stretch of line time, half open. */
export const stretchQuery = z
  .object({ from: asMoment, to: asMoment })
  .refine(({ from, to }) => to > from, { path: ['to'] });
/** Positions on the tape, from (inclusive) and to (exclusive). */
export const piecesQuery = z.object({ from: position, to: position });
export const positionParameter = z.object({ position });

export const piece = sameAs<Piece>()(
  z.strictObject({
    start: z.number(),
    count: z.number(),
    sealed: z.boolean(),
    at: z.tuple([z.number(), z.number()]).readonly().nullable(),
    bytes: z.number(),
  }),
);

export const stretchAnswer = sameAs<TapeStretch>()(
  z.strictObject({
    version: z.string(),
    line: z.string(),
    numbers: list(z.tuple([z.number(), z.number()]).readonly()),
    begin: z.number(),
    end: z.number(),
    first: moment.nullable(),
    now: moment,
    start: z.number(),
    pieces: list(piece),
    later: list(piece),
  }),
);

export const stateAnswer = sameAs<StateBefore>()(
  z.strictObject({ position: z.number(), body: z.string().nullable() }),
);
