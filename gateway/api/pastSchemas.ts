import { z } from 'zod';

/*
 * What the past's answers hold, for whoever reads them by program. Moments and lengths of time in milliseconds, the former
 * since 1970.
 */
const ms = z.number();
const station = z.strictObject({ id: z.string(), number: z.number(), name: z.string(), drawing: z.string() });

export const seenTime = z.strictObject({
  from: ms,
  to: ms,
  /** From when on there are records, where that is later than `from`. */
  since: ms.optional(),
  unknown: ms,
  isolated: ms,
});

export const pastOverview = z.strictObject({
  past: z.union([
    z.strictObject({ kind: z.enum(['history', 'records']), done: z.number(), until: ms }),
    z.strictObject({ kind: z.enum(['whole', 'stopped', 'failed']) }),
  ]),
  begun: ms.nullable(),
  now: ms,
  zone: z.string(),
  shifts: z.array(z.strictObject({ rule: z.string(), name: z.string(), from: ms, to: ms })),
  sizes: z.array(z.strictObject({ id: z.string(), name: z.string() })),
  stations: z.array(station),
});

const sum = z.strictObject({ stops: z.number(), stood: ms });
const group = z.strictObject({
  stops: z.number(),
  stood: ms,
  long: sum,
  rows: z.array(
    z.strictObject({
      id: z.string(),
      name: z.string().optional(),
      station: station.optional(),
      kind: z.string(),
      minor: sum,
      long: sum,
      ordinary: ms.optional(),
    }),
  ),
});

export const stopsAnswer = z.strictObject({
  seen: seenTime,
  stops: z.number(),
  stood: ms,
  minorMinutes: z.number(),
  own: group,
  outside: group,
  unknown: group,
  saidBy: z.strictObject({ plc: z.number(), people: z.number(), nobody: z.number() }),
  list: z.array(
    z.strictObject({
      id: z.string(),
      at: ms,
      until: ms.optional(),
      lasted: ms,
      endSeen: z.boolean(),
      minor: z.boolean(),
      kind: z.string(),
      name: z.string().optional(),
      station: station.optional(),
      size: z.string().optional(),
      order: z.string().optional(),
      /** Cartons. */
      lost: z.number().optional(),
      attempt: z.number(),
      chain: z.array(z.strictObject({ kind: z.string(), name: z.string(), after: ms })),
      said: z.string().optional(),
      answers: z.array(z.looseObject({ id: z.string(), name: z.string() })),
    }),
  ),
});

/** Answers that are made for a screen, and may grow with it: what stands in all of them. */
export const screenAnswer = z.looseObject({ seen: seenTime });
