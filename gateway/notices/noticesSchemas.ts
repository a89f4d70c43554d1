import { z } from 'zod';
import type { Reach } from '../../model/notices/reach.ts';
import { NOTICE_LEVELS, type NoticeLevel } from '../../model/notices/recipients.ts';
import { WITHDRAWN_WHYS } from '../../model/notices/unwanted.ts';
import { wordsIn } from '../../model/words/words.ts';
import { sameAs } from '../api/sameAs.ts';
import { list, moment } from '../api/viewParts.ts';
import { type Letter, LETTER_STATES } from './outboxStore.ts';
import { WAY_TROUBLES, whyInWords } from './ways/way.ts';
import type { Ways, WaysFault } from './waysFile.ts';

const words = wordsIn('en').ways;

/** What is asked of the outbox: letters of one state, or of all; so many of the newest. */
export const outboxQuery = z.strictObject({
  state: z.enum(LETTER_STATES).optional(),
  most: z.coerce.number().int().min(1).max(500).default(100),
});

/** Nothing can be said with it; but only a program or a page of ours sends JSON. */
export const againBody = z.strictObject({});
export const againAnswer = z.strictObject({ ok: z.literal(true) });

/** One notice on its way to one person. Moments in milliseconds since 1970. */
const letterRow = z.strictObject({
  id: z.string(),
  notice: z.string(),
  line: z.string(),
  station: z.string().optional(),
  level: z.enum(NOTICE_LEVELS as [NoticeLevel, ...NoticeLevel[]]),
  what: z.string(),
  raisedAt: z.number(),
  /** The number of a person; names stand elsewhere. */
  person: z.string(),
  way: z.string(),
  state: z.enum(LETTER_STATES),
  since: z.number(),
  tries: z.number(),
  triesMost: z.number(),
  /** When it is tried next, once its turn comes; null unless it waits. */
  nextAt: z.number().nullable(),
  /** Why the newest try failed; null where none did. */
  why: z
    .strictObject({ trouble: z.enum(WAY_TROUBLES), code: z.string().optional(), words: z.string() })
    .nullable(),
  /** What became of the notice before this went out; null unless it was withdrawn. `perhaps`: a try before may have arrived. */
  withdrawn: z
    .strictObject({
      why: z.enum(WITHDRAWN_WHYS),
      at: moment.nullable(),
      perhaps: z.boolean(),
      words: z.string(),
    })
    .nullable(),
});

export const outboxAnswer = z.strictObject({
  /** Whether there is a file of ways: without one no notice goes out. */
  running: z.boolean(),
  counts: z.strictObject({
    waiting: z.number(),
    sending: z.number(),
    told: z.number(),
    dead: z.number(),
    withdrawn: z.number(),
  }),
  letters: z.array(letterRow),
});

export const waysAnswer = z.strictObject({
  running: z.boolean(),
  mail: z
    .strictObject({
      host: z.string(),
      port: z.number(),
      security: z.enum(['tls', 'startTls', 'none']),
      from: z.string(),
      logsIn: z.boolean(),
    })
    .nullable(),
  /** `origin`: the address without its path, which may hold what nobody else is to know. */
  webhooks: z.array(z.strictObject({ id: z.string(), origin: z.string() })),
  /** Null where it is not set up; the host names that push services may have, none for any on the internet. */
  push: z.strictObject({ services: z.array(z.string()) }).nullable(),
  ownCertificates: z.boolean(),
  /** What is wrong in the file of ways, at which place, and which ways are left out by it. */
  faults: z.array(
    z.strictObject({
      line: z.number(),
      column: z.number(),
      ways: z.array(z.string()),
      what: z.string(),
      why: z.string(),
      mend: z.string(),
    }),
  ),
  reach: sameAs<Reach>()(
    z.strictObject({
      shutOff: list(z.string()),
      pages: list(z.string()),
      mail: list(z.string()),
      push: list(z.string()),
      webhooks: list(z.string()),
    }),
  ),
});

export function letterRowOf(letter: Letter): z.infer<typeof letterRow> {
  const { id, person, way, state, since, tries, triesMost, waitMs, why, withdrawn, perhaps } = letter;
  const { notice, line, station, level, what, at, zone } = letter.message;
  return {
    ...{ id, notice, line, level, what, person, way, state, since, tries, triesMost },
    ...(station === undefined ? {} : { station }),
    raisedAt: at,
    nextAt: state === 'waiting' ? since + waitMs : null,
    why: why === undefined ? null : { ...why, words: whyInWords(why) },
    withdrawn: withdrawn
      ? {
          ...{ why: withdrawn.why, at: withdrawn.at, perhaps },
          words: words.withdrawn({ ...withdrawn, perhaps }, zone),
        }
      : null,
  };
}

/** What may be shown of the ways: no password, no key, no place of one, and no address of a person. */
export function waysAnswerOf(
  ways: Ways | undefined,
  reach: Reach,
  faults: readonly WaysFault[],
): z.infer<typeof waysAnswer> {
  const { mail, webhooks = [], push, trusted } = ways ?? {};
  return {
    running: ways !== undefined,
    mail:
      mail === undefined
        ? null
        : {
            ...{ host: mail.host, port: mail.port, security: mail.security, from: mail.from },
            logsIn: mail.logIn !== undefined,
          },
    webhooks: webhooks.map(({ id, address }) => ({ id, origin: new URL(address).origin })),
    push: push === undefined ? null : { services: [...push.services] },
    ownCertificates: trusted !== undefined,
    faults: faults.map(({ at, ways: leftOut, what, why, mend }) => ({
      ...at,
      ways: [...leftOut],
      ...{ what, why, mend },
    })),
    reach,
  };
}
