import { z } from 'zod';
import { CAUSE_CLASSES } from '../../model/entries/saidEntries.ts';
import type { CauseSaid } from '../../model/past/causeNow.ts';
import type { SeenTime, StationRef } from '../../model/past/past.ts';
import { sameAs } from './sameAs.ts';
import { list, millis, moment, momentIfKnown } from './viewParts.ts';

/** What several answers of the past hold. */
export const stationRef = sameAs<StationRef>()(
  z.strictObject({ id: z.string(), number: z.number(), name: z.string(), drawing: z.string() }),
);

export const seenTime = sameAs<SeenTime>()(
  z.strictObject({
    from: moment,
    to: moment,
    since: momentIfKnown,
    unknown: millis,
    isolated: millis,
  }),
);

export const stopKind = z.enum([
  'machine',
  'starved',
  'blocked',
  'changeover',
  'operator',
  'safety',
  'pause',
  'unknown',
]);

/** [EN2] What people say of a stop's cause. */
export const causeSaid = sameAs<CauseSaid>()(
  z.strictObject({
    parts: list(
      z.strictObject({ after: millis, station: stationRef.optional(), class: z.enum(CAUSE_CLASSES) }),
    ),
    words: z.string(),
  }),
);
