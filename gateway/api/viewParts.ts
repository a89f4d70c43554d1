import { z } from 'zod';

/** Milliseconds since 1970, and a length of time in milliseconds. */
export const moment = z.number().describe('milliseconds since 1970');
export const millis = z.number().describe('milliseconds');
/** What nobody knows is left out of an answer: it is never 0. */
export const momentIfKnown = moment.optional();
export const textIfKnown = z.string().optional();
export const numberIfKnown = z.number().optional();

/** A list that nobody changes. */
export function list<Shape extends z.ZodType>(shape: Shape) {
  return z.array(shape).readonly();
}

export const side = z.enum(['front', 'back']);
export const named = z.strictObject({ id: z.string(), name: z.string() });
export const answer = z.strictObject({ id: z.string(), name: z.string(), drawing: z.string() });

export const lossCause = z.enum([
  'stopped',
  'slow',
  'notLoaded',
  'missedPick',
  'reject',
  'crushed',
  'changeover',
  'pauseOver',
  'unknown',
]);
export const lossPart = z.strictObject({ cause: lossCause, cartons: z.number() });

export const press = z.strictObject({
  id: z.string(),
  device: z.string(),
  name: z.string(),
  candidates: list(named),
  pressed: moment,
  released: momentIfKnown,
  reset: momentIfKnown,
  restarted: momentIfKnown,
  firstGood: momentIfKnown,
  role: z.enum(['caused', 'during', 'uncertain']),
  known: z.enum(['edge', 'count', 'found']),
});

export const order = z.strictObject({
  number: z.string(),
  size: z.string(),
  sizeId: z.string(),
  blend: z.string(),
  quantity: z.number(),
  due: momentIfKnown,
  state: z.enum(['running', 'next', 'open', 'ended']),
  good: z.number(),
  perCase: numberIfKnown,
  cases: numberIfKnown,
  change: z.enum(['none', 'artwork', 'size']),
  usual: millis.optional(),
  ended: momentIfKnown,
  crew: numberIfKnown,
  handedOver: numberIfKnown,
  apart: numberIfKnown,
});
