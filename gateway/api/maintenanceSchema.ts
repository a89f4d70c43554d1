import { z } from 'zod';
import { MEASURES } from '../../model/entries/saidEntries.ts';
import { DONE, FOUND } from '../../model/notices/answers.ts';
import type { DoneRow } from '../../model/past/donePast.ts';
import type { HeldAnswer } from '../../model/past/held.ts';
import type { MaintenancePast } from '../../model/past/maintenancePast.ts';
import { author } from './noticeViewSchema.ts';
import { seenTime, stationRef } from './pastParts.ts';
import { sameAs } from './sameAs.ts';
import { changedThing } from './saidSchema.ts';
import { list, millis, moment, numberIfKnown, textIfKnown } from './viewParts.ts';

const side = z.strictObject({ count: z.number(), of: z.number(), runs: z.number(), lots: numberIfKnown });
const needed = { so: z.number(), needed: z.number(), lots: z.boolean() };

const heldAnswer = sameAs<HeldAnswer>()(
  z.strictObject({
    measure: z.enum(MEASURES),
    verdict: z.enum(['fewer', 'more', 'cannotTell']),
    before: side,
    after: side,
    chance: numberIfKnown,
    why: z
      .discriminatedUnion('kind', [
        z.strictObject({ kind: z.literal('noneBefore'), needed: z.number() }),
        z.strictObject({ kind: z.literal('tooFew'), ...needed }),
        z.strictObject({ kind: z.literal('changedAgain'), ...needed }),
        z.strictObject({ kind: z.literal('chance'), next: numberIfKnown }),
      ])
      .optional(),
  }),
);

const row = { id: z.string(), at: moment, station: stationRef, by: author, words: textIfKnown };
const doneRow = sameAs<DoneRow>()(
  z.discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('changed'),
      ...row,
      changed: changedThing,
      adjustment: textIfKnown,
      corrected: z.boolean(),
      expects: z.enum(MEASURES).optional(),
      held: heldAnswer.optional(),
    }),
    z.strictObject({
      kind: z.literal('notice'),
      ...row,
      found: z.enum(FOUND),
      done: z.enum(DONE),
      measure: z.enum(MEASURES).optional(),
      held: heldAnswer.optional(),
      again: moment.optional(),
    }),
  ]),
);
export const doneAnswer = z.array(doneRow);

const rules = list(z.enum(['run', 'drift', 'stops']));
export const maintenanceAnswer = sameAs<MaintenancePast>()(
  z.strictObject({
    seen: seenTime,
    days: list(z.strictObject({ at: moment, unseen: z.boolean() })),
    stations: list(
      z.strictObject({
        station: stationRef,
        days: list(z.strictObject({ stops: z.number(), stood: millis })),
        stops: z.number(),
        stood: millis,
        outside: rules,
        tooThin: rules,
      }),
    ),
    done: list(doneRow),
  }),
);
