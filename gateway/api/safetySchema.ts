import { z } from 'zod';
import type { DevicePast } from '../../model/past/devicesPast.ts';
import type { RanOn } from '../../model/past/ranOn.ts';
import type { PastUse, SafetyPast } from '../../model/past/safetyPast.ts';
import { author } from './noticeViewSchema.ts';
import { seenTime, stationRef } from './pastParts.ts';
import { sameAs } from './sameAs.ts';
import { list, millis, moment, momentIfKnown, side, textIfKnown } from './viewParts.ts';

const useKind = z.enum(['pressed', 'opened']);
const uses = z.strictObject({
  uses: z.number(),
  caused: z.number(),
  during: z.number(),
  uncertain: z.number(),
  noStop: z.number(),
});
const share = z.strictObject({ from: z.number(), to: z.number() });

const ranOn = sameAs<RanOn>()(
  z.strictObject({
    id: z.string(),
    of: z.string(),
    name: z.string(),
    kind: useKind,
    reading: z.enum(['lasts', 'open', 'closed', 'older', 'explained']),
    at: moment,
    until: momentIfKnown,
    ran: millis,
    closed: z.strictObject({ at: moment, words: textIfKnown, author }).optional(),
    lanes: z.strictObject({
      from: moment,
      to: moment,
      ran: list(share),
      unseen: list(share),
      read: share,
    }),
  }),
);

const operated = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('seen'), at: moment, how: useKind }),
  z.strictObject({ kind: z.literal('notCertain'), at: moment }),
  z.strictObject({ kind: z.literal('notSeen'), since: moment }),
]);

const device = sameAs<DevicePast>()(
  z.strictObject({
    id: z.string(),
    name: z.string(),
    kind: z.enum(['button', 'circuit', 'guard']),
    candidates: list(z.string()),
    place: z.strictObject({ side, from: textIfKnown, to: textIfKnown }),
    sum: uses,
    cells: list(z.strictObject({ ...uses.shape, tests: z.number(), open: z.number() })),
    lastOperated: operated,
    lastRunning: operated,
    standstill: z.union([
      z.strictObject({ at: moment, last: millis, cycle: millis }),
      z.enum(['notSeen', 'notUsable']),
    ]),
    lastTest: z
      .strictObject({ device: z.string(), at: moment, person: z.string(), method: z.string() })
      .optional(),
  }),
);

/** So long after the use; or still to come; or nobody saw it. */
const step = z.union([millis, z.enum(['toCome', 'notSeen'])]);
const beforeKind = z.enum([
  'fault',
  'outside',
  'people',
  'safety',
  'noReason',
  'restarting',
  'guard',
  'press',
  'nothing',
  'uncertain',
  'unseen',
]);

export const safetyUse = sameAs<PastUse>()(
  z.strictObject({
    id: z.string(),
    of: z.string(),
    name: z.string(),
    kind: useKind,
    at: moment,
    owned: z.boolean(),
    role: z.enum(['caused', 'during', 'uncertain', 'noStop']),
    released: step,
    reset: step.optional(),
    restarted: step,
    firstGood: step,
    parts: list(
      z.strictObject({
        kind: z.enum(['held', 'released', 'reset', 'restarted', 'between']),
        from: millis,
        to: millis,
      }),
    ),
    before: z.strictObject({
      kind: beforeKind,
      name: textIfKnown,
      station: stationRef.optional(),
      ago: millis.optional(),
    }),
    candidates: list(z.string()),
    candidate: textIfKnown,
  }),
);

/** What stop devices and guards read in a stretch of time. */
export const safetyAnswer = sameAs<SafetyPast>()(
  z.strictObject({
    seen: seenTime,
    ranOn: list(ranOn),
    ranOnCount: z.strictObject({
      lasts: z.number(),
      open: z.number(),
      closed: z.number(),
      older: z.number(),
      explained: z.number(),
    }),
    olderFindings: z.number(),
    bound: z.strictObject({ enabling: z.boolean(), muting: z.boolean() }),
    presses: uses,
    openings: uses,
    toFirstGood: z.strictObject({ middle: millis.optional(), of: z.number() }),
    cells: list(z.strictObject({ from: moment, to: moment, unseen: z.boolean(), dated: z.boolean() })),
    devices: list(device),
    list: list(safetyUse),
    scale: millis,
    ticks: list(millis),
    listed: z.number(),
    leftOut: z.number(),
    before: list(z.strictObject({ kind: beforeKind, uses: z.number() })),
  }),
);
