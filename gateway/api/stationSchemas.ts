import { z } from 'zod';
import { DATUM_WHYS } from '../../model/entries/sheetEntries.ts';
import type { AdjustmentNow } from '../../model/past/adjustmentsNow.ts';
import type { StationTrend } from '../../model/past/stationPast.ts';
import type { StationSum } from '../../model/past/stationsPast.ts';
import type { StationNormal, StationsTold, StationTold } from '../../model/past/worsePast.ts';
import { seenTime, stationRef } from './pastParts.ts';
import { pastStop } from './pastSchemas.ts';
import { sameAs } from './sameAs.ts';
import {
  list,
  lossPart,
  millis,
  moment,
  momentIfKnown,
  named,
  numberIfKnown,
  textIfKnown,
} from './viewParts.ts';

const judged = z.enum(['reject', 'notLoaded', 'missed']);

const rule = z.enum(['run', 'drift', 'stops']);

/** One station in the newest run of a size, by each rule. */
const normal = sameAs<StationNormal>()(
  z.strictObject({
    size: named,
    from: moment,
    to: moment,
    since: momentIfKnown,
    byHand: z.boolean(),
    earlierRuns: z.number(),
    rules: list(
      z.strictObject({
        rule,
        since: moment,
        seen: z.number(),
        of: z.number(),
        expected: numberIfKnown,
        interval: z.strictObject({ lower: z.number(), upper: z.number() }).optional(),
        most: numberIfKnown,
        seenFrom: numberIfKnown,
        outside: z.boolean(),
        tooThin: z
          .discriminatedUnion('kind', [
            z.strictObject({ kind: z.literal('past'), runs: z.number(), cartons: z.number() }),
            z.strictObject({ kind: z.literal('run'), cartons: z.number(), needed: z.number() }),
          ])
          .optional(),
        measured: z.strictObject({
          stationShifts: z.number(),
          calls: z.number(),
          onceIn: z.number(),
          from: z.number(),
          to: z.number(),
          worst: z.strictObject({ onceIn: z.number(), from: z.number(), to: z.number() }),
        }),
      }),
    ),
  }),
);

const stationSum = sameAs<StationSum>()(
  z.strictObject({
    station: stationRef,
    presented: numberIfKnown,
    rejects: numberIfKnown,
    empty: numberIfKnown,
    missed: numberIfKnown,
    crushed: numberIfKnown,
    stops: z.number(),
    stood: millis,
    lost: z.number(),
    causes: list(lossPart),
  }),
);

/** Every station in a stretch of whole shifts. */
export const stationsAnswer = sameAs<StationsTold>()(
  z.strictObject({
    seen: seenTime,
    shifts: z.number(),
    stations: list(stationSum),
    none: z.strictObject({ lost: z.number(), causes: list(lossPart) }),
    lost: z.strictObject({ total: z.number(), possible: z.number(), good: z.number() }),
    worse: list(z.strictObject({ station: z.string(), outside: list(rule), tooThin: list(rule) })),
  }),
);

const trend = sameAs<StationTrend>()(
  z.strictObject({
    kind: judged,
    size: named,
    sizes: list(named),
    since: momentIfKnown,
    byHand: z.boolean(),
    batches: list(
      z.strictObject({
        from: moment,
        to: moment,
        of: z.number(),
        counted: z.number(),
        most: numberIfKnown,
        above: z.boolean(),
        apart: z.boolean(),
      }),
    ),
    all: z.number(),
    above: z.number(),
    leftOut: z.number(),
    normal: z
      .strictObject({
        mean: z.number(),
        most: z.number(),
        onceIn: z.number(),
        worst: z.number(),
        earlier: z.number(),
      })
      .optional(),
    earlier: z.number(),
  }),
);

const adjustment = sameAs<AdjustmentNow>()(
  z.strictObject({
    number: z.string(),
    name: z.string(),
    unit: z.string(),
    decimals: z.number(),
    book: numberIfKnown,
    value: numberIfKnown,
    known: z.enum(['sensor', 'uncertain', 'typed', 'readBack', 'confirmed', 'silent', 'none']),
    since: momentIfKnown,
    beforeSize: z.boolean(),
    datum: z.strictObject({ number: z.number(), since: moment, why: z.enum(DATUM_WHYS) }).optional(),
    off: numberIfKnown,
    scale: z.strictObject({
      from: z.number(),
      to: z.number(),
      ticks: list(z.strictObject({ at: z.number(), labelled: z.boolean() })),
    }),
  }),
);

/** One of them. */
export const stationAnswer = sameAs<StationTold>()(
  z.strictObject({
    seen: seenTime,
    shifts: z.number(),
    sum: stationSum,
    trend: trend.optional(),
    normal: normal.optional(),
    judged: judged.optional(),
    stops: z.strictObject({
      stops: z.number(),
      stood: millis,
      list: list(pastStop),
      minorMinutes: z.number(),
    }),
    adjustments: z.strictObject({ size: textIfKnown, list: list(adjustment) }),
  }),
);
