import { z } from 'zod';
import type { SheetsAhead } from '../../model/view/sheetsAhead.ts';
import { sameAs } from './sameAs.ts';
import { changeoverKind, numberFacts, ranAt, stepStation } from './sheetViewSchema.ts';
import { list, moment, named, numberIfKnown } from './viewParts.ts';

const head = {
  id: z.string(),
  name: z.string(),
  station: stepStation,
  in: list(changeoverKind),
  takes: list(z.string()).optional(),
};

const number = z.strictObject({ ...head, kind: z.literal('number'), ...numberFacts });

const other = z.strictObject({
  ...head,
  kind: z.enum(['part', 'check', 'approval']),
  parts: list(z.strictObject({ size: z.string(), part: z.string() })),
});

/** What a screen keeps of sheets that nobody has begun yet. */
export const sheetsAhead = sameAs<SheetsAhead>()(
  z.strictObject({
    line: z.string(),
    at: moment,
    from: named.optional(),
    sizes: list(
      z.strictObject({
        id: z.string(),
        name: z.string(),
        numbers: list(z.strictObject({ adjustment: z.string(), book: numberIfKnown, ranAt })),
      }),
    ),
    walk: list(z.union([number, other])),
  }),
);
