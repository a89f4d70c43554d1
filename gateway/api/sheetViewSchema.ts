import { z } from 'zod';
import { FITTED } from '../../model/entries/sheetEntries.ts';
import type { FittedView } from '../../model/view/fittedView.ts';
import type { Aside } from '../../model/view/sheetAside.ts';
import type { SheetStep, SheetsView } from '../../model/view/sheetView.ts';
import { author } from './noticeViewSchema.ts';
import { sameAs } from './sameAs.ts';
import { list, moment, momentIfKnown, named, numberIfKnown, textIfKnown } from './viewParts.ts';

export const changeoverKind = z.enum(['size', 'artwork', 'startUp']);
const saidHow = z.enum(['typed', 'readBack', 'confirmed']);
const readHow = z.enum(['typed', 'readBack', 'confirmed', 'sensor']);

const done = z.strictObject({
  at: moment,
  author,
  entry: z.string(),
  well: z.boolean(),
  words: textIfKnown,
  value: numberIfKnown,
  how: saidHow.optional(),
  found: numberIfKnown,
});

const endedSheet = z.strictObject({
  id: z.string(),
  alsoBegun: list(z.string()),
  kind: changeoverKind,
  size: named,
  at: moment,
  how: z.enum(['done', 'closed', 'replaced']),
  by: z.strictObject({ kind: changeoverKind, size: named, author: author.optional() }).optional(),
  author: author.optional(),
  why: textIfKnown,
  atRate: momentIfKnown,
});

/** [SH10] What became of the sheet that an entry is of, where it is a step of none that is open. */
export const aside = sameAs<Aside>()(z.strictObject({ sheet: endedSheet.optional() }));

export const stepStation = z
  .strictObject({ id: z.string(), number: z.number(), name: z.string(), drawing: z.string() })
  .optional();

const head = {
  id: z.string(),
  name: z.string(),
  isDone: z.boolean(),
  station: stepStation,
};

const other = z.strictObject({
  ...head,
  kind: z.enum(['part', 'check', 'approval']),
  part: textIfKnown,
  done: done.optional(),
});

export const ranAt = z.strictObject({ value: z.number(), how: readHow, at: moment }).optional();

/** What an adjustment is, and where it stands. */
export const numberFacts = {
  unit: z.string(),
  decimals: z.number(),
  min: z.number(),
  max: z.number(),
  wheel: z.strictObject({ clockwise: z.enum(['up', 'down']), perTurn: z.number() }).optional(),
  approach: z.enum(['below', 'above']).optional(),
  clamp: z.boolean(),
  was: z.strictObject({ value: z.number(), how: readHow }).optional(),
  now: z
    .strictObject({
      value: z.number(),
      how: z.enum(['typed', 'readBack', 'confirmed', 'sensor', 'uncertain']),
      at: moment,
    })
    .optional(),
  sensor: z.enum(['reads', 'uncertain', 'silent', 'unheard', 'none']),
};

const number = z.strictObject({
  ...head,
  kind: z.literal('number'),
  ...numberFacts,
  book: numberIfKnown,
  ranAt,
  done: done.optional(),
  sensed: z.boolean(),
  readBack: z.strictObject({ asked: z.boolean(), done: done.optional(), differs: z.boolean() }).optional(),
  way: z
    .strictObject({
      from: z.number(),
      to: z.number(),
      by: z.number(),
      turn: z.strictObject({ clockwise: z.boolean(), turns: z.number() }).optional(),
    })
    .optional(),
  scale: z.strictObject({
    from: z.number(),
    to: z.number(),
    ticks: list(z.strictObject({ at: z.number(), labelled: z.boolean() })),
  }),
});

const step = sameAs<SheetStep>()(z.union([number, other]));

/** What is fitted that people name. */
export const fittedView = sameAs<FittedView>()(
  z.strictObject({
    what: z.enum(FITTED),
    step: textIfKnown,
    name: textIfKnown,
    station: textIfKnown,
    now: z.strictObject({ name: z.string(), at: moment, author: author.optional() }).optional(),
    last: list(z.string()),
  }),
);

/** The setter's sheet that is open, and what one can be begun for. */
export const sheetsView = sameAs<SheetsView>()(
  z.strictObject({
    sizes: list(named),
    next: textIfKnown,
    offered: z
      .strictObject({
        kind: changeoverKind,
        size: named,
        why: z.enum(['nextSize', 'nextBlend', 'blend', 'stood', 'shift', 'first']),
        since: moment,
      })
      .optional(),
    open: z
      .strictObject({
        id: z.string(),
        kind: changeoverKind,
        size: named,
        from: textIfKnown,
        begun: moment,
        alsoBegun: list(z.string()),
        author: author.optional(),
        atRate: momentIfKnown,
        otherSize: textIfKnown,
        handed: list(z.strictObject({ at: moment, author, words: textIfKnown })),
        steps: list(step),
        left: z.number(),
      })
      .optional(),
    ended: endedSheet.optional(),
    before: list(endedSheet),
  }),
);
