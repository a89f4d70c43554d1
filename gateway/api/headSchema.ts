import { z } from 'zod';
import { list, millis, moment, momentIfKnown, press, textIfKnown } from './viewParts.ts';

const going = z.strictObject({ at: moment, who: z.string() }).optional();
const stopKind = z.enum(['machine', 'starved', 'blocked', 'changeover', 'operator', 'safety', 'pause']);

const running = z.strictObject({
  kind: z.literal('running'),
  pace: z.enum(['atRate', 'slow', 'fast']),
  since: moment,
  stopsThisShift: z.number(),
  shortStopsThisShift: z.number(),
});

const stopped = z.strictObject({
  kind: z.literal('stopped'),
  since: moment,
  stop: z.string(),
  reason: z.strictObject({ name: z.string(), station: textIfKnown, stopKind }).optional(),
  from: z.enum(['state', 'cycles']),
  nth: z.number(),
  within: millis,
  attempt: z.number(),
  going,
  press: press.optional(),
});

const waiting = z.strictObject({
  kind: z.enum(['starved', 'blocked']),
  since: moment,
  name: z.string(),
  station: textIfKnown,
  stop: z.string(),
});

const changeover = z.strictObject({
  kind: z.literal('changeover'),
  phase: z.enum(['setting', 'trial', 'runUp']),
  trialSince: momentIfKnown,
  since: moment,
  from: textIfKnown,
  to: textIfKnown,
});

const pause = z.strictObject({
  kind: z.literal('pause'),
  name: z.string(),
  since: moment,
  allowanceEnds: moment,
  over: z.boolean(),
});

const happening = z.strictObject({
  at: moment,
  offset: millis,
  kind: z.enum(['firstFault', 'setOff', 'reject', 'press', 'release', 'guardOpened', 'guardClosed']),
  name: z.string(),
  station: textIfKnown,
});

const pressed = z.strictObject({
  kind: z.literal('pressed'),
  press,
  stop: textIfKnown,
  standsSince: momentIfKnown,
  firstFault: z
    .strictObject({ name: z.string(), station: textIfKnown, at: moment, untilPress: millis })
    .optional(),
  going,
  before: list(happening),
});

const unknown = z.strictObject({ kind: z.literal('unknown'), since: moment, isolatedLikely: z.boolean() });
const offShift = z.strictObject({
  kind: z.literal('offShift'),
  next: z.strictObject({ name: z.string(), at: moment }).optional(),
});

/** What the line does. */
export const head = z.discriminatedUnion('kind', [
  running,
  stopped,
  waiting,
  changeover,
  pause,
  pressed,
  unknown,
  offShift,
]);
