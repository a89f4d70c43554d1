import { z } from 'zod';
import { ACTS, PLACES, ROLES } from '../../model/access/access.ts';
import { SECRET } from '../../model/access/secrets.ts';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import { settingsSchema } from './settings.ts';

/** As an entry has it: it has a digit in it, and no spaces. */
const number = z
  .string()
  .trim()
  .min(1)
  .max(ENTRY_MOST.person)
  .regex(/^[\w./-]*\d[\w./-]*$/);
/** What is typed to get in: how it was chosen is not asked here. */
const secret = z.string().min(1).max(SECRET.most);
const name = z.string().trim().min(1).max(100);
const roles = z.array(z.enum(ROLES)).max(ROLES.length);
const place = z.enum(PLACES).default('screen');

export const logInBody = z.strictObject({ number, secret, place });
export const adminBody = z.strictObject({ code: z.string().min(1).max(64), number, secret, place });
export const secretBody = z.strictObject({ secret, next: secret });
export const addBody = z.strictObject({ number, roles, name: name.optional() });
export const changeBody = z.strictObject({
  roles: roles.optional(),
  name: name.optional(),
  disabled: z.boolean().optional(),
});
export const settingsBody = settingsSchema;

const moment = z.number();
const kinds = z.enum(['password', 'code']);

export const sessionAnswer = z.strictObject({
  /** Null where nobody is logged in. */
  person: z
    .strictObject({
      number: z.string(),
      /** One's own; null where there is none. */
      name: z.string().nullable(),
      /** Those that this log-in carries. */
      roles: z.array(z.enum(ROLES)),
      /** All that the number has: with a password some more than with a code. */
      allRoles: z.array(z.enum(ROLES)),
      by: kinds,
      /** A code or password of one's own has to be chosen first. */
      mustChoose: z.boolean(),
      until: moment,
    })
    .nullable(),
  /** Whether anybody has a number here. */
  people: z.boolean(),
  may: z.array(z.enum(ACTS)),
});
export type SessionAnswer = z.infer<typeof sessionAnswer>;

export const personRow = z.strictObject({
  number: z.string(),
  name: z.string().nullable(),
  roles: z.array(z.enum(ROLES)),
  created: moment,
  disabled: moment.nullable(),
  secrets: z.array(kinds),
  provisional: z.boolean(),
  sessions: z.number(),
  heldUntil: moment.nullable(),
});
export const peopleAnswer = z.array(personRow);
export const codeAnswer = z.strictObject({ ok: z.literal(true), code: z.string() });
export const doneAnswer = z.strictObject({ ok: z.literal(true) });
