import { z } from 'zod';
import { SYMPTOMS } from '../../model/diagnosis/symptoms.ts';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import { DATUM_WHYS, FITTED, KEPT_KINDS, READ_HOW } from '../../model/entries/sheetEntries.ts';

/** Entries about set points and the steps of a changeover, as a screen or a program sends them. */
const id = z.string().regex(/^[\w.:-]{1,64}$/);
const said = z.string().trim().min(1).max(ENTRY_MOST.words);
const name = z.string().trim().min(1).max(200);
const fittedName = z.string().trim().min(1).max(ENTRY_MOST.setting);
const value = z.number().min(-ENTRY_MOST.onScale).max(ENTRY_MOST.onScale);
const kinds = z.enum(['size', 'artwork', 'startUp']);

export const readingBody = z.object({
  kind: z.literal('reading'),
  station: id,
  adjustment: name,
  value,
  how: z.enum(READ_HOW),
  found: value.optional(),
  sheet: name.optional(),
});

export const asBookBody = z.object({
  kind: z.literal('asBook'),
  station: id,
  settings: z
    .array(z.object({ adjustment: name, value }))
    .min(1)
    .max(ENTRY_MOST.adjustments),
  sheet: name.optional(),
});

export const fittedBody = z.object({
  kind: z.literal('fitted'),
  what: z.enum(FITTED),
  name: fittedName,
  step: name.optional(),
  sheet: name.optional(),
});

const step = { sheet: name.optional(), step: name, well: z.boolean(), words: said.optional() };

/** What is said and done that cannot be corrected by another saying: the next one counts. */
export const sheetBodies = [
  z.object({
    kind: z.literal('datum'),
    station: id,
    adjustment: name,
    why: z.enum(DATUM_WHYS),
    words: said.optional(),
  }),
  z.object({
    kind: z.literal('datumOffset'),
    adjustment: name,
    datum: z.number().int().min(2),
    offset: value,
    why: said,
  }),
  z.object({
    kind: z.literal('book'),
    size: id,
    adjustment: name,
    value: value.nullable(),
    why: said,
    seen: said.optional(),
  }),
  z.object({ kind: z.literal('looked'), station: id, symptom: z.enum(SYMPTOMS) }),
  z.object({ kind: z.literal('sheetBegun'), size: id, in: kinds }),
  z.object({ kind: z.literal('stepDone'), ...step }),
  z.object({ kind: z.literal('stepApproved'), ...step }),
  z.object({ kind: z.literal('sheetHanded'), sheet: name, words: said.optional() }),
  z.object({ kind: z.literal('sheetEnded'), sheet: name, why: said }),
] as const;

/** So long a screen had it before it could send it. Milliseconds. */
export const keptFor = z
  .number()
  .int()
  .min(0)
  .max(366 * 86_400_000)
  .optional();

export function mayBeKept(kind: string): boolean {
  return (KEPT_KINDS as readonly string[]).includes(kind);
}
