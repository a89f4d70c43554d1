import { z } from 'zod';
import type { CauseAnswer, EvidenceAnswer, MoveAnswer } from '../../model/diagnosis/diagnosisAnswer.ts';
import { LOOSE, SIDES, STRENGTHS, SYMPTOMS } from '../../model/diagnosis/symptoms.ts';
import type { DiagnosisTold } from '../../model/diagnosis/told.ts';
import { sameAs } from './sameAs.ts';
import { list, moment, momentIfKnown, numberIfKnown } from './viewParts.ts';

const how = z.enum([
  'misSet',
  'moved',
  'loose',
  'knocked',
  'lot',
  'part',
  'creeping',
  'atOnce',
  'chance',
  'somethingElse',
]);
const fits = z.enum(STRENGTHS).optional();
const spoken = { speaks: z.enum(['for', 'against']), times: z.number() };

const evidence = sameAs<EvidenceAnswer>()(
  z.discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('deviation'),
      ...spoken,
      reading: z.strictObject({
        value: z.number(),
        known: z.enum(['sensor', 'typed', 'confirmed']),
        since: moment,
        put: numberIfKnown,
      }),
      best: z.number(),
      sd: z.number(),
      far: z.number(),
      wanted: z.number(),
    }),
    z.strictObject({ kind: z.literal('began'), ...spoken, how, at: momentIfKnown }),
    z.strictObject({
      kind: z.literal('reasons'),
      ...spoken,
      reasons: list(
        z.strictObject({
          kind: z.enum(['reject', 'stop']),
          id: z.union([z.string(), z.number()]),
          seen: z.number(),
          usual: z.number(),
          fits,
          name: z.string(),
        }),
      ),
    }),
    z.strictObject({
      kind: z.literal('symptoms'),
      ...spoken,
      said: list(z.strictObject({ symptom: z.enum(SYMPTOMS), times: z.number(), fits })),
    }),
    z.strictObject({ kind: z.literal('worksLoose'), ...spoken, loose: z.enum(LOOSE) }),
  ]),
);

const move = sameAs<MoveAnswer>()(
  z.strictObject({
    at: moment,
    from: numberIfKnown,
    to: z.number(),
    by: z.enum(['changeover', 'hand', 'drift']),
  }),
);

const cause = sameAs<CauseAnswer>()(
  z.strictObject({
    key: z.string(),
    adjustment: z.strictObject({ number: z.string(), unit: z.string(), decimals: z.number() }).optional(),
    name: z.string(),
    chance: z.number(),
    side: z.strictObject({ is: z.enum(SIDES), chance: z.number() }).optional(),
    how: z.strictObject({ is: how, chance: z.number(), at: momentIfKnown }),
    evidence: list(evidence),
    moves: list(move),
  }),
);

/** What may explain a station's trouble. */
export const diagnosisTold = sameAs<DiagnosisTold>()(
  z.discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('told'),
      diagnosis: z.strictObject({
        station: z.strictObject({ id: z.string(), number: z.number(), name: z.string() }),
        says: z.enum(['cause', 'dontKnow']),
        causes: list(cause),
        unlikely: z.number(),
        dontKnow: z.strictObject({
          chance: z.number(),
          nothing: z.number(),
          somethingElse: z.number(),
        }),
        readFirst: list(z.strictObject({ number: z.string(), name: z.string(), bits: z.number() })),
        looksTell: z.number(),
        trouble: z.strictObject({
          since: moment,
          seen: z.number(),
          usual: z.number(),
          cartons: z.number(),
        }),
      }),
    }),
    z.strictObject({ kind: z.literal('noKnowledge') }),
    z.strictObject({ kind: z.literal('noRun') }),
    z.strictObject({ kind: z.literal('tooFew') }),
  ]),
);
