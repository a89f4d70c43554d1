import { z } from 'zod';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import { CAUSE_CLASSES, CORRECTABLE, MEASURES } from '../../model/entries/saidEntries.ts';

/** Entries about what people know beside the PLC, as a screen or a program sends them. */
const id = z.string().regex(/^[\w.:-]{1,64}$/);
const said = z.string().trim().min(1).max(ENTRY_MOST.words);
const name = z.string().trim().min(1).max(200);
const setting = z.string().trim().min(1).max(ENTRY_MOST.setting);
const DAY_MS = 86_400_000;

const part = z.object({
  after: z.number().int().min(0).max(DAY_MS),
  station: id.nullable(),
  class: z.enum(CAUSE_CLASSES),
});
const inOrder = (parts: readonly { readonly after: number }[]) =>
  parts.every(({ after }, place) => (place === 0 ? after === 0 : after > parts[place - 1]!.after));

export const causeBody = z.object({
  kind: z.literal('cause'),
  stop: id,
  parts: z.array(part).min(1).max(ENTRY_MOST.causeParts).refine(inOrder),
  words: said,
});

export const changedThing = z.discriminatedUnion('of', [
  z.object({
    of: z.literal('adjustment'),
    adjustment: name,
    from: setting.optional(),
    to: setting.optional(),
  }),
  z.object({ of: z.literal('part'), name }),
  z.object({ of: z.literal('lot'), name: setting }),
  z.object({ of: z.literal('other') }),
]);

export const changedBody = z.object({
  kind: z.literal('changed'),
  station: id,
  changed: changedThing,
  words: said,
  expects: z.object({ measure: z.enum(MEASURES), direction: z.literal('fewer') }).optional(),
  notice: name.optional(),
});

export const targetBody = z.object({
  kind: z.literal('target'),
  size: id,
  crew: z.number().int().min(1).max(ENTRY_MOST.people),
  perMinute: z.number().positive().max(ENTRY_MOST.perMinute).multipleOf(0.1).nullable(),
});

/** `body` is read again as an entry of the kind that it takes the place of. */
export const correctionBody = <Body extends z.ZodType>(body: Body) =>
  z.object({
    kind: z.literal('correction'),
    of: id,
    was: z.enum(CORRECTABLE),
    body: body.optional(),
    why: said.optional(),
  });
