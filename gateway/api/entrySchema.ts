import { z } from 'zod';
import { ENTRY_MOST, type Entry, TAKEN_WHYS } from '../../model/entries/entries.ts';
import { KEPT_MOST_MS } from '../../model/entries/sheetEntries.ts';
import { DONE, FOUND } from '../../model/notices/answers.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import type { EpochMs } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import { settingsSchema } from '../notices/settingsSchema.ts';
import { moment } from './viewParts.ts';
import { readAs } from './reading.ts';
import { asBookBody, fittedBody, keptFor, mayBeKept, readingBody, sheetBodies } from './sheetSchema.ts';
import { causeBody, changedBody, correctionBody, targetBody } from './saidSchema.ts';

const words = wordsIn('en').gateway;
const id = z.string().regex(/^[\w.:-]{1,64}$/);
const said = z.string().trim().min(1).max(ENTRY_MOST.words);
const cartons = z.number().int().min(0).max(ENTRY_MOST.cartons);
const people = z.number().int().min(0).max(ENTRY_MOST.people);
const orderNumber = z.string().trim().min(1).max(ENTRY_MOST.orderNumber);
/** A number that stands for a person, and no name: it has a digit in it, and no spaces. */
const person = z
  .string()
  .trim()
  .min(1)
  .max(ENTRY_MOST.person)
  .regex(/^[\w./-]*\d[\w./-]*$/);
/** Ids that the model makes, and names that the line's file gives: what there is none of is refused by the line. */
const name = z.string().trim().min(1).max(200);

const author = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('position'), position: id }),
  z.strictObject({ kind: z.literal('screen'), screen: id }),
  /** Only that of who is logged in is taken. */
  z.strictObject({ kind: z.literal('person'), number: person }),
]);

/** What people say, and can correct. */
const correctable = [
  z.object({ kind: z.literal('reason'), stop: id, reason: id, words: said.optional() }),
  z.object({ kind: z.literal('crew'), people }),
  z.object({ kind: z.literal('handedOver'), order: orderNumber, cartons }),
  z.object({
    kind: z.literal('takenOut'),
    cartons: z.number().int().min(1).max(ENTRY_MOST.takenOut),
    why: z.enum(TAKEN_WHYS),
  }),
  z
    .object({
      kind: z.literal('note'),
      words: z.string().trim().max(ENTRY_MOST.words),
      stop: id.optional(),
      about: moment.optional(),
    })
    // [RP21] one that marks a moment may say nothing of it
    .check(({ value, issues }) => {
      if (value.words !== '' || value.about !== undefined) return;
      issues.push({ code: 'too_small', origin: 'string', minimum: 1, path: ['words'], input: value.words });
    }),
  z.object({
    kind: z.literal('tested'),
    device: name,
    method: z.string().trim().min(1).max(ENTRY_MOST.method),
    person,
  }),
  causeBody,
  changedBody,
  targetBody,
  readingBody,
  asBookBody,
  fittedBody,
  z.object({
    kind: z.literal('noticeClosed'),
    notice: name,
    found: z.enum(FOUND),
    done: z.enum(DONE),
    words: said.optional(),
  }),
] as const;

/** Any of them, as it is said in another's place. */
export const correctableBody = z.discriminatedUnion('kind', correctable);

const body = z.discriminatedUnion('kind', [
  ...correctable,
  correctionBody(correctableBody),
  ...sheetBodies,
  z.object({ kind: z.literal('notNow'), stop: id }),
  z.object({
    kind: z.literal('order'),
    number: orderNumber,
    size: id,
    blend: z.string().trim().max(ENTRY_MOST.blend),
    quantity: cartons.min(1),
    starts: z.enum(['now', 'whenEnded']),
    crew: people.optional(),
  }),
  z.object({ kind: z.literal('device'), press: name, candidate: name }),
  z.object({ kind: z.literal('closed'), finding: name, words: said.optional() }),
  z.object({ kind: z.literal('going'), stop: id }),
  z.object({ kind: z.literal('noticeTaken'), notice: name, over: z.number().int().optional() }),
  z.object({ kind: z.literal('noticeHanded'), notice: name, to: person }),
  z.object({ kind: z.literal('noticeShelved'), notice: name, until: z.number().int(), words: said }),
  z.object({ kind: z.literal('noticeUnshelved'), notice: name }),
  z.object({ kind: z.literal('noticeSettings'), settings: settingsSchema, why: said }),
]);

/** An entry as a screen or a program sends it. */
export const newEntrySchema = z.intersection(z.object({ id, author, keptFor }), body);
const messageSchema = z.object({ line: z.string().max(64), entry: newEntrySchema });

/** An entry that does not fit: nothing was recorded. */
export class EntryRefused extends LineError {}

/** Reads an entry message; what does not fit is told with the place where it does not. */
export function readEntry(message: unknown, now: number): { line: string; entry: Entry } {
  const read = readAs(messageSchema, message);
  if (!read.ok) throw new EntryRefused(words.badEntry, { why: read.why, mend: words.badEntryMend });
  const {
    line,
    entry: { keptFor: kept = 0, ...entry },
  } = read.data;
  // only what is about the past anyhow stands where it was made; of the rest it says nothing
  const before = mayBeKept(entry.kind) ? kept : 0;
  if (before > KEPT_MOST_MS) throw new EntryRefused(words.noSuch.keptTooLong.what, words.noSuch.keptTooLong);
  return { line, entry: { ...entry, at: Math.round(now - before) as EpochMs } as Entry };
}
