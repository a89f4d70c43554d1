import { z } from 'zod';
import { opc30050, opc30060, type PackmlState } from '../../model/packml/packml.ts';
import type { wordsIn } from '../../model/words/words.ts';
import { durationMs } from './durations.ts';
import { type BoundRole, roleFacts } from './roles.ts';

/** Kinds of value that the catalogue can explain; a schema's message is the name of its kind. */
export type Kind = keyof ReturnType<typeof wordsIn>['gateway']['binding']['kinds'];

const kind = (name: Kind) => ({ error: name });

/** An object with exactly these keys. The message of an unknown key is the list of the known ones. */
function section<Shape extends z.core.$ZodShape>(shape: Shape) {
  const known = Object.keys(shape).join(' ');
  return z.strictObject(shape, {
    error: (issue) => (issue.code === 'unrecognized_keys' ? known : ('section' satisfies Kind)),
  });
}

const list = <Item extends z.core.$ZodType>(item: Item) => z.array(item, kind('list'));
const oneOf = <const Names extends readonly string[]>(...names: Names) => z.enum(names, kind('choice'));
const text = z.string(kind('text')).min(1, kind('text')).max(200, kind('text'));
const id = z.string(kind('id')).regex(/^[A-Za-z0-9][A-Za-z0-9_-]{0,59}$/, kind('id'));
const number = z.number(kind('number'));
const share = z.number(kind('share')).gt(0, kind('share')).max(1, kind('share'));
const positive = z.number(kind('positive')).gt(0, kind('positive')).max(1e6, kind('positive'));
const whole = z.int(kind('whole')).min(0, kind('whole')).max(0xffffffff, kind('whole'));
const wholePositive = z
  .int(kind('wholePositive'))
  .min(1, kind('wholePositive'))
  .max(1e9, kind('wholePositive'));
const people = z.int(kind('people')).min(1, kind('people')).max(99, kind('people'));
const wallTime = z.string(kind('wallTime')).regex(/^([01]\d|2[0-3]):[0-5]\d$/, kind('wallTime'));
const side = oneOf('front', 'back');
const range = z.tuple([number, number], kind('range'));
const wholeKey = z.string().regex(/^-?\d{1,9}$/, kind('wholeKey'));
const peopleKey = z.string().regex(/^[1-9]\d?$/, kind('people'));

/** `10 min`, as milliseconds. */
const duration = z
  .string(kind('duration'))
  .refine((written) => durationMs(written) !== undefined, kind('duration'))
  .transform((written) => durationMs(written) ?? 0);

const numberings: Readonly<Record<string, ReadonlyMap<number, PackmlState>>> = { opc30050, opc30060 };
const stateNames = z.enum([...opc30050.values()] as [PackmlState, ...PackmlState[]], kind('choice'));
/** State numbers: one of the published numberings by name, or a map of one's own. */
const states = z.preprocess(
  (written) => {
    const published = typeof written === 'string' ? numberings[written] : undefined;
    return published ? Object.fromEntries(published) : written;
  },
  z.record(wholeKey, stateNames, kind('states')),
);
const modes = z.record(wholeKey, oneOf('produce', 'setup', 'manual', 'maintenance'), kind('modes'));

const targetTenths = positive.refine(
  (target) => Math.abs(target * 10 - Math.round(target * 10)) < 1e-6,
  kind('tenths'),
);
const answer = section({ id, name: text, drawing: id });

const line = section({ id, name: text, product: text, zone: text, pace: id });
const server = section({
  id,
  endpoint: z
    .string(kind('endpoint'))
    .regex(/^opc\.tcp:\/\/(\[[\da-fA-F:.]+\]|[^\s/:[\]]+)(:\d{1,5})?(\/\S*)?$/, kind('endpoint')),
  security: oneOf('none', 'sign', 'signAndEncrypt'),
  clock: oneOf('utc', 'local', 'received'),
  namespace: text.optional(),
});
const machine = section({ id, name: text, states: states.optional(), modes: modes.optional() });
const station = section({
  id,
  name: text,
  pockets: whole,
  machine: id.optional(),
  drawing: id.optional(),
  answers: list(answer).optional(),
});
const size = section({
  id,
  name: text,
  code: whole,
  targets: z.record(peopleKey, targetTenths, kind('targets')),
  ideal: positive.optional(),
  perCase: wholePositive.optional(),
});
const loading = section({
  station: id,
  crew: people,
  crews: list(section({ people, note: text })),
  positions: list(section({ id, name: text, side })),
});
const reject = section({
  id,
  name: text,
  station: id,
  from: list(id).min(1, kind('some')).optional(),
  means: oneOf('reject', 'notLoaded').optional(),
});
const reason = section({
  number: wholePositive,
  kind: oneOf('machine', 'starved', 'blocked', 'changeover', 'operator', 'safety', 'pause'),
  name: text,
  station: id.optional(),
});
const device = section({
  id,
  name: text,
  kind: oneOf('button', 'circuit').optional(),
  side,
  station: id.optional(),
  position: id.optional(),
  candidates: list(text).optional(),
});
const guard = section({ id, name: text, side, from: id, to: id });
const adjustment = section({
  number: z.string(kind('quoted')).regex(/^[A-Za-z0-9][A-Za-z0-9._-]{0,19}$/, kind('quoted')),
  name: text,
  station: id,
  unit: text,
  decimals: z.int(kind('decimals')).min(0, kind('decimals')).max(6, kind('decimals')),
  range,
  book: z.record(z.string(), number, kind('book')),
  wheel: section({ clockwise: oneOf('up', 'down'), perTurn: positive }).optional(),
  approach: oneOf('below', 'above').optional(),
  clamp: z.boolean(kind('yesNo')).optional(),
  actsOn: list(id).min(1, kind('some')).optional(),
});
const step = section({
  id,
  kind: oneOf('part', 'check', 'approval'),
  name: text,
  station: id.optional(),
  in: list(oneOf('size', 'artwork', 'startUp'))
    .min(1, kind('some'))
    .optional(),
  parts: z.record(z.string(), text, kind('section')).optional(),
  lot: z.boolean(kind('yesNo')).optional(),
});
const condition = section({ id, name: text, unit: text, normal: range });
const day = z.int(kind('day')).min(1, kind('day')).max(7, kind('day'));
const shift = section({ id, name: text, from: wallTime, to: wallTime, days: list(day).optional() });
const pause = section({ id, name: text, shift: id, from: wallTime, to: wallTime, allowance: duration });
const settings = section({
  minorStop: duration.optional(),
  rejamCartons: whole.optional(),
  askAfter: duration.optional(),
  atRate: section({ minutes: positive, share }).optional(),
  trialCartons: whole.optional(),
  orderCertain: duration.optional(),
  planShare: share.optional(),
  stale: duration.optional(),
  lost: duration.optional(),
  heartbeat: duration.optional(),
  rateMax: positive.optional(),
  emergencyNumber: z.string(kind('quoted')).min(1, kind('quoted')).max(40, kind('quoted')).optional(),
});

const roles = Object.keys(roleFacts) as [BoundRole, ...BoundRole[]];
const signal = section({
  role: z.enum(roles, kind('choice')),
  of: z.string(kind('quoted')).min(1, kind('quoted')).optional(),
  machine: id.optional(),
  server: id.optional(),
  tag: text,
  width: z.literal([16, 31, 32], kind('width')).optional(),
  activeWhen: z.boolean(kind('yesNo')).optional(),
});

/** The whole line file. References between its parts are checked beside it, so that all mistakes are told at once. */
export const lineFile = section({
  line,
  servers: list(server).min(1, kind('some')),
  machines: list(machine).min(1, kind('some')),
  stations: list(station).min(1, kind('some')),
  answers: list(answer).optional(),
  sizes: list(size).min(1, kind('some')),
  loading,
  rejects: list(reject).optional(),
  reasons: list(reason).optional(),
  devices: list(device).optional(),
  guards: list(guard).optional(),
  adjustments: list(adjustment).optional(),
  changeover: section({ steps: list(step).min(1, kind('some')) }).optional(),
  conditions: list(condition).optional(),
  calendar: section({ shifts: list(shift).min(1, kind('some')), pauses: list(pause).optional() }),
  orders: section({ file: text }).optional(),
  settings: settings.optional(),
  signals: list(signal).min(1, kind('some')),
});

/** A line file whose every value has the right kind. */
export type LineFile = z.output<typeof lineFile>;
