import { z } from 'zod';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import {
  REPORT_PARTS,
  type Report,
  type ReportAnswer,
  SIGNED_AS,
  type Signature,
} from '../../model/report/report.ts';
import { changeoverRow } from './changeoverSchema.ts';
import { figureId, figureValue } from './figuresSchema.ts';
import { asMoment } from './pastAsked.ts';
import { seenTime, stationRef, stopKind } from './pastParts.ts';
import { pastStop } from './pastSchemas.ts';
import { safetyUse } from './safetySchema.ts';
import { sameAs } from './sameAs.ts';
import { list, lossPart, millis, moment, numberIfKnown, textIfKnown } from './viewParts.ts';

const kind = z.enum(['shift', 'week', 'month', 'order', 'size']);
/** Which report: of the shift, week or month of a moment, of an order, or of a size in the month of a moment. */
export const reportQuery = z.object({
  kind: kind.default('shift'),
  at: asMoment.optional().describe('milliseconds since 1970, within the period; now unless it is said'),
  order: z.string().max(ENTRY_MOST.orderNumber).optional(),
  size: z.string().max(100).optional(),
});

/** A number that stands for a person, and no name: it has a digit in it, and no spaces. */
const person = z
  .string()
  .trim()
  .min(1)
  .max(ENTRY_MOST.person)
  .regex(/^[\w./-]*\d[\w./-]*$/);

/** What a person sends to sign the report that a question names. */
export const signing = z.strictObject({
  id: z.string().regex(/^[\w.:-]{1,64}$/),
  person,
  as: z.enum(SIGNED_AS),
  words: z.string().trim().min(1).max(ENTRY_MOST.words).optional(),
  /** The mark of the page that was read. */
  read: z.string().max(64),
});

const timeClass = z.enum([
  'producing',
  'stopped',
  'starved',
  'blocked',
  'changeover',
  'safety',
  'plannedPause',
  'pauseOver',
  'isolated',
  'unknown',
]);

export const reportStrip = z.strictObject({
  bucketMs: z.number(),
  // null where it was not seen: a list has no holes in JSON
  rates: list(z.number().nullable()),
  target: numberIfKnown,
  cuts: list(z.strictObject({ kind: timeClass, from: moment, to: moment, station: numberIfKnown })),
});
const counted = z.strictObject({ stops: z.number(), stood: millis });
const stretch = z.strictObject({ from: moment, to: moment });

export const report = sameAs<Report>()(
  z.strictObject({
    format: z.literal(1),
    line: z.strictObject({ id: z.string(), name: z.string(), product: z.string() }),
    zone: z.string(),
    kind,
    shift: textIfKnown,
    size: textIfKnown,
    order: textIfKnown,
    from: moment,
    to: moment,
    goesOn: z.boolean(),
    sizes: list(z.string()),
    seen: seenTime,
    figures: list(figureValue),
    lost: z
      .strictObject({ possible: z.number(), total: z.number(), causes: list(lossPart), none: z.number() })
      .optional(),
    strip: reportStrip,
    stations: list(
      z.strictObject({
        id: z.string(),
        kind: z.enum(['reject', 'notLoaded', 'missed']).optional(),
        counted: z.number(),
        among: z.number(),
        usual: numberIfKnown,
        perThousand: numberIfKnown,
        lower: numberIfKnown,
        upper: numberIfKnown,
        more: z.boolean(),
        station: stationRef,
        laid: numberIfKnown,
        lost: numberIfKnown,
        stops: z.number(),
        stood: millis,
      }),
    ),
    stops: z.strictObject({
      list: list(pastStop),
      more: counted,
      carried: counted,
      rows: list(
        z.strictObject({
          id: z.string(),
          name: textIfKnown,
          station: stationRef.optional(),
          kind: stopKind,
          stops: z.number(),
          stood: millis,
        }),
      ),
      moreRows: z.strictObject({ rows: z.number(), stops: z.number(), stood: millis }),
    }),
    safety: z.strictObject({
      list: list(safetyUse),
      uses: z.number(),
      caused: z.number(),
      ranOn: z.number(),
      notExplained: z.number(),
    }),
    changeovers: list(changeoverRow),
    moreChangeovers: z.number(),
    unseen: list(stretch),
    moreUnseen: z.number(),
    notes: list(
      z.strictObject({ at: moment, words: z.string(), by: z.string(), about: moment.exactOptional() }),
    ),
    moreNotes: z.number(),
    handedOver: list(z.strictObject({ order: z.string(), counted: numberIfKnown, handedOver: z.number() })),
    model: z.string(),
    position: z.number(),
    made: moment,
  }),
);

const signature = sameAs<Signature>()(
  z.strictObject({
    id: z.string(),
    at: moment,
    person: z.string(),
    as: z.enum(SIGNED_AS),
    words: textIfKnown,
  }),
);

export const reportAnswer = sameAs<ReportAnswer>()(
  z.strictObject({
    now: report,
    mark: z.string(),
    signed: z
      .strictObject({
        report: report.optional(),
        page: textIfKnown,
        mark: z.string(),
        signatures: list(signature),
      })
      .optional(),
    since: z.strictObject({
      figures: list(z.strictObject({ figure: figureId, was: numberIfKnown, is: numberIfKnown })),
      parts: list(z.enum(REPORT_PARTS)),
      why: z.enum(['newModel', 'otherLine', 'laterData']).optional(),
    }),
  }),
);

export const signedAnswer = z.strictObject({ ok: z.literal(true), position: z.number() });
