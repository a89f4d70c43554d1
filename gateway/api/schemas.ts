import { z } from 'zod';
import { wordsIn } from '../../model/words/words.ts';
import { aside } from './sheetViewSchema.ts';
import { role, value } from './signalSchemas.ts';

const words = wordsIn('en');
/** Changes that one answer holds at most. */
const CHANGES_MOST = 10_000;

/** Positions on the tape, from (inclusive) and to (exclusive); at most 10,000 changes an answer. */
export const changesQuery = z
  .object({
    from: z.coerce.number().int().min(0).max(Number.MAX_SAFE_INTEGER).default(0),
    to: z.coerce.number().int().min(0).max(Number.MAX_SAFE_INTEGER).optional(),
  })
  .refine(({ from, to }) => to === undefined || (to >= from && to - from <= CHANGES_MOST), {
    message: words.gateway.api.badStretch(words.count(CHANGES_MOST)),
    path: ['to'],
  });

export const lineRow = z.object({ id: z.string(), name: z.string(), product: z.string() });

/** One signal: what it is bound to, what it reads, and how well it is known. */
export const signalRow = z.object({
  id: z.string(),
  role,
  of: z.string().nullable(),
  server: z.string(),
  tag: z.string().nullable(),
  value,
  /** `notHeard`: its server is not heard, and the value is the last one that was. */
  quality: z.enum(['good', 'uncertain', 'unknown', 'notHeard']),
  /** Milliseconds since its value changed, by line time; null before the first. */
  ageMs: z.number().nullable(),
  /** As revised by the server: sampling interval in milliseconds, 0 is on change; queue length. */
  samplingMs: z.number().nullable(),
  queue: z.number().nullable(),
  /** For stop devices: whether a counted twin is bound. */
  twin: z.boolean().nullable(),
  /** For stop devices: which presses may come without their moment, or not at all, in words; null where none may. */
  missable: z.string().nullable(),
  trouble: z.string().nullable(),
});
export type SignalRow = z.infer<typeof signalRow>;

/** One OPC UA server: whether it is heard, what it is, and what keeps it from being heard. Times in milliseconds. */
export const serverRow = z.object({
  id: z.string(),
  endpoint: z.string(),
  security: z.string(),
  up: z.boolean(),
  since: z.number().nullable(),
  lastDataAt: z.number().nullable(),
  /** How far its clock is ahead of the gateway's. */
  clockOffsetMs: z.number().nullable(),
  /** By how much somebody set it while it was heard; line time goes on as it was. */
  clockSetMs: z.number(),
  /** SHA-256 of its certificate, to be compared with what the PLC shows before it is trusted. */
  fingerprint: z.string().nullable(),
  trouble: z.object({ what: z.string(), why: z.string(), mend: z.string() }).nullable(),
});
export type ServerRow = z.infer<typeof serverRow>;

/** A stretch of the tape that cannot be read: positions [from, to), and when it was, in milliseconds since 1970, if known. */
export const unreadRow = z.object({
  from: z.number(),
  to: z.number(),
  at: z.object({ from: z.number(), to: z.number() }).nullable(),
  trouble: z.object({ what: z.string(), why: z.string(), mend: z.string() }),
});
export type UnreadRow = z.infer<typeof unreadRow>;

export const healthAnswer = z.object({
  /** `notRecorded`: what is heard of a line cannot be put on its tape. */
  status: z.enum(['ok', 'notHeard', 'notRecorded']),
  lines: z.array(
    z.object({
      id: z.string(),
      dataAgeMs: z.number().nullable(),
      goodCartons: z.number(),
      /** Left out while all is recorded. Since when, in milliseconds, why, and how to mend it. */
      notRecorded: z.object({ since: z.number(), what: z.string(), mend: z.string() }).optional(),
      /** How many stretches of its tape cannot be read; left out where there is none. */
      unread: z.number().optional(),
    }),
  ),
});

export const changesAnswer = z.object({
  from: z.number(),
  to: z.number(),
  /** Position after the newest change on the tape. */
  end: z.number(),
  changes: z.array(
    z.object({
      signal: z.string(),
      /** Line time, milliseconds since 1970. */
      at: z.number(),
      /** Line time, ticks of 100 ns since 2020. */
      ticks: z.number(),
      received: z.number(),
      status: z.number(),
      value,
    }),
  ),
});

export const entryAnswer = z.object({ ok: z.literal(true), position: z.number(), aside: aside.optional() });
export const troubleAnswer = z.object({
  ok: z.literal(false),
  trouble: z.string(),
  why: z.string(),
  mend: z.string(),
});
