import { z } from 'zod';
import { NOTICE_LEVELS, type NoticeLevel } from '../../model/notices/recipients.ts';
import { SETTINGS_BOUNDS } from '../../model/notices/settings.ts';
import { wordsIn } from '../../model/words/words.ts';

const words = wordsIn('en').ways.file;

const clockText = /^([01]\d|2[0-3]):[0-5]\d$/;
const clock = z.string().refine((text) => clockText.test(text), words.sameTurn);
const date = z.string().refine(isDate, words.sameTurn);
const reading = z.string().refine((text) => {
  const [day = '', time = '', ...rest] = text.split('T');
  return rest.length === 0 && isDate(day) && clockText.test(time);
}, words.sameTurn);

const id = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9_-]{0,79}$/);
/** As it stands on a badge: with a digit, and so never a name. */
export const person = z
  .string()
  .max(32)
  .regex(/^[\w./-]*\d[\w./-]*$/);
/** `page`, `mail`, `push`, or the name of a webhook. */
export const way = id;
const weekdays = z.array(z.int().min(1).max(7)).min(1).max(7);

const quietHours = z.strictObject({ from: clock, to: clock, days: weekdays.exactOptional() });
const hours = z.strictObject({
  shifts: z.array(id).min(1).max(20).exactOptional(),
  quiet: z.array(quietHours).max(14).default([]),
});
const recipient = z.strictObject({
  person,
  ways: z.array(way).min(1).max(10),
  when: hours.default({ quiet: [] }),
  falseOnceInShifts: z
    .number()
    .min(SETTINGS_BOUNDS.falseOnceInShifts.least)
    .max(SETTINGS_BOUNDS.falseOnceInShifts.most)
    .exactOptional(),
  stations: z.array(id).min(1).max(100).exactOptional(),
});

const substitute = z.strictObject({ of: person, by: person, from: reading, to: reading });
const rota = z.strictObject({
  id,
  first: date,
  clock,
  days: z.int().min(1).max(28).default(7),
  turns: z.array(person).min(1).max(100),
  substitutes: z.array(substitute).max(200).default([]),
});

const target = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('person'), person }),
  z.strictObject({ kind: z.literal('rota'), rota: id }),
]);
const step = z.strictObject({ afterMinutes: z.int().min(0).max(1440), tell: z.array(target).min(1).max(50) });
const plan = z.strictObject({
  lines: z.array(id).min(1).max(50).exactOptional(),
  stations: z.array(id).min(1).max(100).exactOptional(),
  levels: z
    .array(z.enum(NOTICE_LEVELS as [NoticeLevel, ...NoticeLevel[]]))
    .min(1)
    .exactOptional(),
  steps: z.array(step).min(1).max(10),
});

/** Who is told of notices, as a person sends it; read into the model's `RecipientSettings`. */
export const recipientsSchema = z
  .strictObject({
    recipients: z.array(recipient).max(200).default([]),
    rotas: z.array(rota).max(20).default([]),
    plans: z.array(plan).max(50).default([]),
  })
  .refine(({ recipients, rotas }) => {
    const people = new Set(recipients.map((one) => one.person));
    return people.size === recipients.length && new Set(rotas.map((one) => one.id)).size === rotas.length;
  }, words.twice)
  .refine(namesWhatIsThere, words.nobody);

function namesWhatIsThere({ recipients, rotas, plans }: Named): boolean {
  const people = new Set(recipients.map((one) => one.person));
  const known = new Set(rotas.map((one) => one.id));
  const turns = rotas.flatMap((one) => [...one.turns, ...one.substitutes.flatMap(({ of, by }) => [of, by])]);
  const targets = plans.flatMap(({ steps }) => steps.flatMap(({ tell }) => tell));
  return (
    turns.every((one) => people.has(one)) &&
    targets.every((one) => (one.kind === 'person' ? people.has(one.person) : known.has(one.rota)))
  );
}

interface Named {
  readonly recipients: readonly z.infer<typeof recipient>[];
  readonly rotas: readonly z.infer<typeof rota>[];
  readonly plans: readonly z.infer<typeof plan>[];
}

/** Whether a date such as 2026-02-29 is in the calendar at all. */
function isDate(text: string): boolean {
  if (!/^20\d\d-\d\d-\d\d$/.test(text)) return false;
  const ms = Date.parse(`${text}T00:00:00Z`);
  return Number.isFinite(ms) && new Date(ms).toISOString().startsWith(text);
}
