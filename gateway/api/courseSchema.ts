import { z } from 'zod';
import type { Course } from '../../model/past/course.ts';
import type { EntryRow } from '../../model/past/entriesPast.ts';
import { entryRow } from './pastEntries.ts';
import { seenTime, stationRef } from './pastParts.ts';
import { reportStrip } from './reportSchema.ts';
import { sameAs } from './sameAs.ts';
import { list, moment, momentIfKnown, textIfKnown } from './viewParts.ts';

/** A stretch as a strip, and what can be gone to in it. */
export const courseAnswer = sameAs<Course>()(
  z.strictObject({
    seen: seenTime,
    strip: reportStrip,
    sizes: list(z.strictObject({ at: moment, name: z.string(), target: z.number() })),
    stops: list(
      z.strictObject({
        id: z.string(),
        at: moment,
        until: momentIfKnown,
        class: z.enum(['stopped', 'starved', 'blocked', 'safety', 'changeover', 'pause']),
        station: stationRef.optional(),
        name: textIfKnown,
      }),
    ),
    presses: list(
      z.strictObject({
        id: z.string(),
        at: moment,
        until: momentIfKnown,
        role: z.enum(['caused', 'during', 'uncertain']),
        device: z.string(),
      }),
    ),
    changeovers: list(
      z.strictObject({
        at: moment,
        until: momentIfKnown,
        kind: z.enum(['size', 'artwork', 'startUp']),
        to: textIfKnown,
      }),
    ),
    notices: list(z.strictObject({ id: z.string(), at: moment, station: stationRef.optional() })),
    notes: list(
      z.strictObject({
        ...{ id: z.string(), at: moment, words: z.string(), later: z.boolean(), withdrawn: z.boolean() },
        // described as entries are, which is not held to the model key by key
        said: entryRow as z.ZodType<unknown> as z.ZodType<EntryRow>,
      }),
    ),
  }),
);
