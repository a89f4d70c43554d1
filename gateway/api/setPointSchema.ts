import { z } from 'zod';
import { DATUM_WHYS } from '../../model/entries/sheetEntries.ts';
import type { Approval, SetPointOpened, SetPointRow, SetPointsPast } from '../../model/past/setPointsPast.ts';
import { author } from './noticeViewSchema.ts';
import { stationRef } from './pastParts.ts';
import { sameAs } from './sameAs.ts';
import { list, moment, momentIfKnown, numberIfKnown, textIfKnown } from './viewParts.ts';

const named = z.strictObject({ id: z.string(), name: z.string() });
const range = z.strictObject({ from: z.number(), to: z.number() });
const known = z.enum(['sensor', 'uncertain', 'typed', 'readBack', 'confirmed', 'silent', 'none']);
const datumWhy = z.enum(DATUM_WHYS);

const approval = sameAs<Approval>()(
  z.strictObject({ value: numberIfKnown, at: moment, author, why: z.string(), seen: textIfKnown }),
);

const learned = z.strictObject({
  recommended: numberIfKnown,
  likely: range.optional(),
  ranWell: range.optional(),
  sure: z.enum(['sure', 'fairlySure', 'thin', 'cannotSay', 'neverVaried']),
  runs: z.number(),
  settings: z.number(),
  lots: z.number(),
  marks: list(z.strictObject({ at: z.number(), runs: z.number() })),
  rejects: z.strictObject({ mean: z.number(), low: numberIfKnown, high: numberIfKnown }).optional(),
  cost: list(
    z.strictObject({
      at: z.number(),
      rejectsPerThousand: z.number(),
      low: z.number(),
      high: z.number(),
      stopsPerThousand: z.number(),
      lostPerRun: z.number(),
    }),
  ),
  together: list(z.string()),
  teaches: z
    .strictObject({ to: z.number(), why: z.enum(['otherSide', 'neverVaried', 'apart', 'wide']) })
    .optional(),
});

const row = sameAs<SetPointRow>()(
  z.strictObject({
    number: z.string(),
    name: z.string(),
    unit: z.string(),
    decimals: z.number(),
    min: z.number(),
    max: z.number(),
    station: stationRef,
    drawing: z.string(),
    book: numberIfKnown,
    approved: approval.optional(),
    stands: z.strictObject({
      value: numberIfKnown,
      known,
      at: momentIfKnown,
      off: numberIfKnown,
      tried: z.enum(['well', 'badly', 'never']).optional(),
    }),
    datum: z.strictObject({ number: z.number(), since: moment, why: datumWhy }).optional(),
    scale: z.strictObject({
      from: z.number(),
      to: z.number(),
      ticks: list(z.strictObject({ at: z.number(), labelled: z.boolean() })),
    }),
    learned: learned.optional(),
  }),
);

/** The book of one size. */
export const setPointsAnswer = sameAs<SetPointsPast>()(
  z.strictObject({
    size: named,
    sizes: list(named),
    runs: z.enum(['now', 'before', 'never']),
    from: z.strictObject({
      runs: z.number(),
      since: momentIfKnown,
      lots: list(z.string()),
      parts: list(z.string()),
      cartons: z.number(),
    }),
    rows: list(row),
    sums: z.strictObject({
      adjustments: z.number(),
      off: z.number(),
      neverTried: z.number(),
      silent: z.number(),
      confirmed: z.number(),
      unknown: z.number(),
    }),
  }),
);

/** One adjustment of it. */
export const setPointAnswer = sameAs<SetPointOpened>()(
  z.strictObject({
    row,
    approvals: list(approval),
    datums: list(
      z.strictObject({
        datum: z.number(),
        at: moment,
        why: datumWhy,
        words: textIfKnown,
        author,
        offset: numberIfKnown,
      }),
    ),
    runs: list(
      z.strictObject({
        from: moment,
        to: moment,
        value: numberIfKnown,
        known: z.enum(['sensor', 'typed', 'confirmed']).optional(),
        found: numberIfKnown,
        datum: z.number(),
        lot: textIfKnown,
        parts: textIfKnown,
        cartons: z.number(),
        rejectsPerThousand: numberIfKnown,
        stops: z.number(),
      }),
    ),
  }),
);
