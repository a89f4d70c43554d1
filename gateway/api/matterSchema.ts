import { z } from 'zod';
import { COUNTED } from '../../model/counters/counters.ts';
import { answer, list, millis, moment, momentIfKnown, named, textIfKnown } from './viewParts.ts';

const lasted = millis.optional();

/** Something that wants a person, or that a person should know. */
export const matter = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('unexplainedStop'),
    stop: z.string(),
    at: moment,
    lasted,
    endSeen: z.boolean(),
    station: textIfKnown,
    answers: list(answer),
  }),
  z.strictObject({
    kind: z.literal('stationAbnormal'),
    station: z.string(),
    since: moment,
    inLast: z.number(),
    of: z.number(),
    normal: z.number(),
  }),
  z.strictObject({
    kind: z.literal('guardOpenRunning'),
    guard: z.string(),
    at: moment,
    lasted,
    id: z.string(),
  }),
  z.strictObject({
    kind: z.literal('devicePressedRunning'),
    device: z.string(),
    at: moment,
    lasted,
    id: z.string(),
  }),
  z.strictObject({
    kind: z.literal('whichButton'),
    press: z.string(),
    at: momentIfKnown,
    candidates: list(named),
  }),
  z.strictObject({ kind: z.literal('notRecorded'), since: moment, what: z.string(), mend: z.string() }),
  z.strictObject({
    kind: z.literal('waysWrong'),
    line: z.number(),
    what: z.string(),
    mend: z.string(),
    more: z.number(),
  }),
  z.strictObject({ kind: z.literal('stillTrial'), since: moment, lasted: millis }),
  z.strictObject({ kind: z.literal('clockOff'), server: z.string(), offset: millis }),
  z.strictObject({ kind: z.literal('clockSet'), server: z.string(), by: millis }),
  z.strictObject({
    kind: z.literal('counterReset'),
    mark: z.enum(['reset', 'set', 'implausible', 'correction']),
    counts: z.enum(COUNTED),
    of: textIfKnown,
    at: moment,
    times: z.number(),
  }),
  z.strictObject({ kind: z.literal('notSeen'), from: moment, to: momentIfKnown }),
  z.strictObject({ kind: z.literal('olderFindings'), count: z.number(), id: z.string() }),
  z.strictObject({ kind: z.literal('further'), count: z.number() }),
]);

/** The one question that the panels may ask now. */
export const question = z.strictObject({
  stop: z.string(),
  since: moment,
  until: momentIfKnown,
  station: textIfKnown,
  answers: list(z.strictObject({ ...answer.shape, times: z.number() })),
  days: z.number(),
});
