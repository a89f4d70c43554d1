import { z } from 'zod';
import type { Entry } from '../../model/entries/entries.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import type { EpochMs } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';

const words = wordsIn('en').gateway;
const id = z.string().regex(/^[\w.:-]{1,64}$/);
const said = z.string().trim().min(1).max(500);
const count = z.number().int().min(0).max(10_000_000);

const author = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('position'), position: id }),
  z.strictObject({ kind: z.literal('screen'), screen: id }),
]);

const body = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('reason'), stop: id, reason: id, words: said.optional() }),
  z.object({ kind: z.literal('notNow'), stop: id }),
  z.object({
    kind: z.literal('order'),
    number: z.string().trim().min(1).max(40),
    size: id,
    blend: z.string().trim().max(80),
    quantity: count.min(1),
    starts: z.enum(['now', 'whenEnded']),
    crew: z.number().int().min(0).max(50).optional(),
  }),
  z.object({ kind: z.literal('crew'), people: z.number().int().min(0).max(50) }),
  z.object({ kind: z.literal('handedOver'), order: z.string().trim().min(1).max(40), cartons: count }),
  z.object({ kind: z.literal('note'), words: said, stop: id.optional() }),
  z.object({ kind: z.literal('device'), press: id, candidate: z.string().trim().min(1).max(80) }),
  z.object({ kind: z.literal('going'), stop: id }),
]);

/** An entry as a screen or a program sends it. */
export const newEntrySchema = z.intersection(z.object({ id, author }), body);
const messageSchema = z.object({ line: z.string().max(64), entry: newEntrySchema });

/** An entry that does not fit: nothing was recorded. */
export class EntryRefused extends LineError {}

/** Reads an entry message; what does not fit is told with the place where it does not. */
export function readEntry(message: unknown, now: number): { line: string; entry: Entry } {
  const read = messageSchema.safeParse(message);
  if (!read.success) {
    const [issue] = read.error.issues;
    throw new EntryRefused(words.badEntry, {
      why: words.badEntryWhy(issue?.path.join('.') ?? '', issue?.message ?? ''),
      mend: words.badEntryMend,
    });
  }
  const { line, entry } = read.data;
  return { line, entry: { ...entry, at: Math.round(now) as EpochMs } as Entry };
}
