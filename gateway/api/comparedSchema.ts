import { z } from 'zod';
import { ALIGNMENTS } from '../../model/past/compared/aligned.ts';
import type { Compared } from '../../model/past/compared/compared.ts';
import type { PastRun } from '../../model/past/runsPast.ts';
import { stationRef } from './pastParts.ts';
import { sameAs } from './sameAs.ts';
import { list, lossCause, millis, moment, named, numberIfKnown } from './viewParts.ts';

/** Runs of a line, and two stretches of it one over the other. */
export const pastRuns = sameAs<readonly PastRun[]>()(
  list(
    z.strictObject({
      size: named,
      from: moment,
      to: moment,
      lasted: millis,
      goesOn: z.boolean(),
      cut: z.boolean(),
    }),
  ),
);

const which = z.enum(['here', 'there']);
const span = z.strictObject({ from: moment, to: moment });
const side = z.strictObject({
  from: moment,
  to: moment,
  origin: moment,
  made: list(z.strictObject({ at: moment, cartons: z.number() })).optional(),
  window: span,
  sizes: list(z.string()),
});
const value = z.strictObject({ value: numberIfKnown, lower: numberIfKnown, upper: numberIfKnown });

const meaning = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('counted'), differ: z.number() }),
  z.strictObject({ kind: z.enum(['notKnown', 'listed', 'notSeen', 'nothing']) }),
  z.strictObject({ kind: z.literal('real'), more: which, chance: z.number() }),
  z.strictObject({ kind: z.literal('notEnough'), chance: z.number() }),
  z.strictObject({ kind: z.literal('cannotTell'), shifts: z.number(), counted: z.number() }),
]);

export const comparedAnswer = sameAs<Compared>()(
  z.strictObject({
    asked: z.enum(ALIGNMENTS),
    alignment: z.enum(ALIGNMENTS),
    without: list(which),
    axis: z.strictObject({ from: z.number(), to: z.number() }),
    here: side,
    there: side,
    leftOut: list(span),
    ended: which.optional(),
    shifts: z.number(),
    needed: z.number(),
    comparisons: z.number(),
    rows: list(
      z.strictObject({
        kind: z.enum([
          'good',
          'possible',
          'lost',
          'lostTo',
          'stops',
          'rejects',
          'took',
          'running',
          'stood',
          'notSeen',
        ]),
        cause: z.union([lossCause, z.literal('slowOrNotLoaded')]).optional(),
        stops: z.enum(['own', 'outside', 'safety']).optional(),
        station: stationRef.optional(),
        here: value,
        there: value,
        meaning,
      }),
    ),
  }),
);
