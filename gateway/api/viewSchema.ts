import { z } from 'zod';
import type { LineView } from '../../model/view/view.ts';
import { head } from './headSchema.ts';
import { matter, question } from './matterSchema.ts';
import { noticesView } from './noticeViewSchema.ts';
import { fittedView, sheetsView } from './sheetViewSchema.ts';
import {
  list,
  lossCause,
  lossPart,
  millis,
  moment,
  momentIfKnown,
  numberIfKnown,
  order,
  press,
  side,
  textIfKnown,
} from './viewParts.ts';

const label = z.strictObject({
  id: z.string(),
  name: z.string(),
  product: z.string(),
  zone: z.string(),
  size: textIfKnown,
  lossPatterns: list(lossCause),
  emergencyNumber: textIfKnown,
});

const sight = z.strictObject({
  kind: z.enum(['live', 'stale', 'lost', 'never']),
  age: millis.optional(),
  lastAt: momentIfKnown,
  servers: list(
    z.strictObject({
      id: z.string(),
      up: z.boolean(),
      since: momentIfKnown,
      clockOffset: millis.optional(),
    }),
  ),
  unrecordedSince: momentIfKnown,
  coverage: numberIfKnown,
  unknown: millis,
});

const rate = z.strictObject({
  perMinute: numberIfKnown,
  uncertain: z.boolean(),
  running: numberIfKnown,
  before: numberIfKnown,
  target: numberIfKnown,
  crew: z.number(),
  pockets: list(z.enum(['good', 'reject', 'notLoaded', 'missed', 'none', 'unknown'])),
});

const plan = z.strictObject({
  shift: z.strictObject({ name: z.string(), from: moment, to: moment }).optional(),
  order: order.optional(),
  good: z.number(),
  planned: z.number(),
  plannedSoFar: z.number(),
  possible: z.number(),
  behind: z.number(),
  finish: z.strictObject({ short: z.number(), shortLow: z.number(), shortHigh: z.number() }).optional(),
  needed: numberIfKnown,
  nextPause: z.strictObject({ name: z.string(), at: moment, allowance: millis }).optional(),
});

const changeover = z.strictObject({
  current: z.boolean(),
  kind: z.enum(['size', 'artwork', 'startUp']),
  from: textIfKnown,
  to: textIfKnown,
  began: momentIfKnown,
  firstGood: momentIfKnown,
  atRate: momentIfKnown,
  lasted: millis.optional(),
  trialCartons: z.number(),
});

const station = z.strictObject({
  id: z.string(),
  number: z.number(),
  name: z.string(),
  drawing: z.string(),
  lost: z.number(),
  causes: list(lossPart),
  mark: z.enum(['none', 'firstFault', 'abnormal']),
  rejects: z.strictObject({ inLast: z.number(), of: z.number(), normal: z.number() }).optional(),
  stops: z.number(),
});

const path = z.strictObject({
  total: z.number(),
  possible: z.number(),
  good: z.number(),
  stations: list(station),
  none: z.strictObject({ lost: z.number(), causes: list(lossPart) }),
  causes: list(lossPart),
});

const span = z.strictObject({
  kind: z.enum(['stopped', 'starved', 'blocked', 'safety', 'changeover', 'pause', 'isolated', 'unknown']),
  from: moment,
  to: momentIfKnown,
  stop: textIfKnown,
  station: numberIfKnown,
  reason: textIfKnown,
  minor: z.boolean(),
  asks: z.boolean(),
});

const trend = z.strictObject({
  from: moment,
  to: moment,
  now: moment,
  target: numberIfKnown,
  maxRate: z.number(),
  bucketMs: millis,
  buckets: list(z.strictObject({ at: moment, rate: numberIfKnown, uncertain: z.literal(true).optional() })),
  spans: list(span),
  pauses: list(z.strictObject({ name: z.string(), from: moment, to: moment })),
  presses: list(press),
});

const device = z.strictObject({
  id: z.string(),
  name: z.string(),
  side,
  station: textIfKnown,
  position: textIfKnown,
  reads: z.enum(['released', 'pressed', 'unknown']),
  uncertain: z.boolean(),
  hasTwin: z.boolean(),
  candidates: list(z.string()),
});

const guard = z.strictObject({
  id: z.string(),
  name: z.string(),
  side,
  from: z.string(),
  to: z.string(),
  reads: z.enum(['closed', 'open', 'unknown']),
  uncertain: z.boolean(),
});

const position = z.strictObject({
  id: z.string(),
  name: z.string(),
  side,
  notLoadedThisShift: z.number(),
  last: list(z.boolean()),
});

/** What the Line screen and the line-side panel show. */
export const lineView = z.strictObject({
  line: label,
  at: moment,
  sight,
  head,
  rate,
  plan,
  changeover,
  path,
  trend,
  devices: z.strictObject({ devices: list(device), guards: list(guard) }),
  loading: list(position),
  matters: list(matter),
  question: question.optional(),
  orders: list(order),
  crews: list(
    z.strictObject({
      people: z.number(),
      note: z.string(),
      targets: z.record(z.string(), z.number()),
      now: z.boolean(),
    }),
  ),
  notices: noticesView,
  sheets: sheetsView,
  fitted: list(fittedView),
});

/** Compiles only while everything that the model may show fits the schema; that nothing is left out is tested. */
export function asDescribed(view: LineView): z.infer<typeof lineView> {
  return view;
}
