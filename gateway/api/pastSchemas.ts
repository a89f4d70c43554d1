import { z } from 'zod';
import type { PastOverview } from '../../model/past/overview.ts';
import type { PastStop, StopsPast } from '../../model/past/stopsPast.ts';
import { causeSaid, seenTime, stationRef, stopKind } from './pastParts.ts';
import { sameAs } from './sameAs.ts';
import {
  answer,
  list,
  millis,
  moment,
  momentIfKnown,
  named,
  numberIfKnown,
  textIfKnown,
} from './viewParts.ts';

/** What there is of the past, and its stops, for whoever reads them by program. */
export const pastOverview = sameAs<PastOverview>()(
  z.strictObject({
    past: z.discriminatedUnion('kind', [
      z.strictObject({ kind: z.enum(['history', 'records']), done: z.number(), until: moment }),
      z.strictObject({ kind: z.enum(['whole', 'stopped', 'failed']) }),
    ]),
    begun: moment.nullable(),
    now: moment,
    zone: z.string(),
    shifts: list(z.strictObject({ rule: z.string(), name: z.string(), from: moment, to: moment })),
    sizes: list(named),
    stations: list(stationRef),
    orders: list(z.strictObject({ number: z.string(), from: moment, to: momentIfKnown })),
  }),
);

const sum = z.strictObject({ stops: z.number(), stood: millis });
const group = z.strictObject({
  stops: z.number(),
  stood: millis,
  long: sum,
  rows: list(
    z.strictObject({
      id: z.string(),
      name: textIfKnown,
      station: stationRef.optional(),
      kind: stopKind,
      moved: z.boolean(),
      minor: sum,
      long: sum,
      ordinary: millis.optional(),
    }),
  ),
});

export const pastStop = sameAs<PastStop>()(
  z.strictObject({
    id: z.string(),
    at: moment,
    until: momentIfKnown,
    lasted: millis,
    endSeen: z.boolean(),
    minor: z.boolean(),
    kind: stopKind,
    name: textIfKnown,
    station: stationRef.optional(),
    size: textIfKnown,
    order: textIfKnown,
    lost: numberIfKnown,
    attempt: z.number(),
    chain: list(
      z.strictObject({
        kind: z.enum(['firstFault', 'setOff', 'caused', 'during', 'uncertain', 'guardOpened']),
        name: z.string(),
        after: millis,
      }),
    ),
    said: textIfKnown,
    cause: causeSaid.optional(),
    answers: list(answer),
  }),
);

export const stopsAnswer = sameAs<StopsPast>()(
  z.strictObject({
    seen: seenTime,
    stops: z.number(),
    stood: millis,
    minorMinutes: z.number(),
    own: group,
    outside: group,
    unknown: group,
    saidBy: z.strictObject({ plc: z.number(), people: z.number(), nobody: z.number() }),
    moved: z.number(),
    list: list(pastStop),
  }),
);
