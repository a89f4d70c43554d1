import { z } from 'zod';
import type { PastChangeover } from '../../model/past/changeover.ts';
import type { ChangeoverCurves } from '../../model/past/changeoverCurves.ts';
import type { ChangedNumber } from '../../model/past/changeoverNumbers.ts';
import type { LostParts, OpenedChangeover } from '../../model/past/changeoverOpened.ts';
import type { ChangeoversPast, ListedChangeover } from '../../model/past/changeoversPast.ts';
import type { ChangeoverStrip } from '../../model/past/changeoverStrip.ts';
import { seenTime, stationRef } from './pastParts.ts';
import { sameAs } from './sameAs.ts';
import { list, millis, moment, momentIfKnown, numberIfKnown, textIfKnown } from './viewParts.ts';

const kind = z.enum(['size', 'artwork', 'startUp']);
const millisIfKnown = millis.optional();

export const changeoverRow = sameAs<PastChangeover>()(
  z.strictObject({
    id: z.string(),
    kind,
    from: textIfKnown,
    to: textIfKnown,
    fromBlend: textIfKnown,
    at: moment,
    trialBegan: momentIfKnown,
    productionBack: momentIfKnown,
    firstGood: momentIfKnown,
    over: moment,
    ends: z.enum(['atRate', 'replaced', 'goesOn']),
    lasted: millis,
    stood: millis,
    untilTrial: millis,
    trial: millisIfKnown,
    runUp: millisIfKnown,
    untilFirstGood: millisIfKnown,
    idle: millis,
    unseen: millis,
    trialCartons: z.number(),
    stops: z.number(),
    target: z.number(),
    crew: z.number(),
    crewSaid: z.boolean(),
    lost: numberIfKnown,
  }),
);

/** Whole cartons. */
const parts = sameAs<LostParts>()(
  z.strictObject({
    all: z.number(),
    stood: z.number(),
    stops: z.number(),
    spoiled: z.number(),
    slow: z.number(),
  }),
);

const strip = sameAs<ChangeoverStrip>()(
  z.strictObject({
    from: moment,
    to: moment,
    board: list(z.strictObject({ from: moment, to: moment, rate: z.number() })),
    slots: list(
      z.strictObject({
        from: moment,
        to: moment,
        kind: z.enum(['changeover', 'stopped', 'pause', 'unseen']),
        station: numberIfKnown,
        name: textIfKnown,
      }),
    ),
    rateMax: z.number(),
  }),
);

const curves = sameAs<ChangeoverCurves>()(
  z.strictObject({
    until: millis,
    goodMax: z.number(),
    target: z.number(),
    curves: list(
      z.strictObject({
        id: z.string(),
        at: moment,
        lasted: millis,
        opened: z.boolean(),
        points: list(z.strictObject({ after: millis, good: numberIfKnown })),
        atRate: z.strictObject({ after: millis, good: z.number() }).optional(),
      }),
    ),
  }),
);

const changedNumber = sameAs<ChangedNumber>()(
  z.strictObject({
    number: z.string(),
    name: z.string(),
    unit: z.string(),
    decimals: z.number(),
    station: stationRef,
    was: numberIfKnown,
    stood: numberIfKnown,
    known: z.enum(['sensor', 'typed', 'confirmed']).optional(),
    book: numberIfKnown,
    off: numberIfKnown,
    moves: list(z.strictObject({ at: moment, to: z.number(), again: z.boolean() })),
  }),
);

const opened = sameAs<OpenedChangeover>()(
  z.strictObject({
    changeover: changeoverRow,
    earlier: z.number(),
    usual: z
      .strictObject({
        lasted: millis,
        untilTrial: millis,
        trial: millisIfKnown,
        runUp: millisIfKnown,
        shortest: millis,
        longest: millis,
        parts: parts.optional(),
      })
      .optional(),
    strip,
    curves,
    parts: parts.optional(),
    numbers: z.strictObject({
      told: list(changedNumber),
      toBook: list(changedNumber),
      same: list(changedNumber),
      unknown: list(changedNumber),
      movedAgain: z.number(),
    }),
  }),
);

const listedChangeover = sameAs<ListedChangeover>()(
  changeoverRow.extend({ offBook: z.strictObject({ off: z.number(), known: z.number() }).optional() }),
);

/** Changeovers of a stretch of time, and one of them opened. */
export const changeoversAnswer = sameAs<ChangeoversPast>()(
  z.strictObject({
    seen: seenTime,
    changeovers: z.number(),
    list: list(listedChangeover),
    kinds: list(kind),
    pairs: list(z.strictObject({ id: z.string(), from: z.string(), to: z.string() })),
    longest: millis,
    since: millisIfKnown,
    goesOn: z.boolean(),
    opened: opened.optional(),
  }),
);
