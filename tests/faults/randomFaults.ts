import { HOUR, SECOND, type Span } from '../../model/units/units.ts';
import type { Fault, FaultBody } from '../../simulator/faults/faults.ts';
import { type Draw, stream, uniform, whole } from '../../simulator/machine/random.ts';
import { boundLine } from '../simulator/simulatedLine.ts';

const counters = ['Discharge.Good', 'Cartoner.Cycles', 'Pick.Missed', 'Loading.Front.NotLoaded'];
const values = [
  'Discharge.Good',
  'Cartoner.State',
  'Cartoner.Mode',
  'Cartoner.FirstOut',
  'Cartoner.Size',
  'Cartoner.Order',
  'Stop.MainPanel',
  'Guard.Door2Open',
  'Discharge.RejectTopOpen',
  'Loading.Front.NotLoaded',
];
/** What is set at the panel. */
const chosen = ['Cartoner.Size', 'Cartoner.Order', 'Cartoner.SpeedSet'];
const buttons = ['Stop.MainPanel', 'Stop.LoadingFront', 'Stop.LoadingBack'];
/** What modules with clocks of their own may tell. */
const modules = [
  'Cartoner.State',
  'Cartoner.FirstOut',
  'Cartoner.Size',
  'Discharge.Good',
  'Stop.MainPanel',
  'Guard.Door2Open',
];

/** In the order in which they are asked for. A server that left out the good cartons would leave nothing to be known. */
const watched = [...boundLine().tags.values()].map(({ tag }) => tag);
const upToGood = watched.indexOf('Discharge.Good') + 1;

const some = <Item>(draw: Draw, items: readonly Item[]): Item => items[whole(draw, 0, items.length - 1)]!;
const seconds = (draw: Draw, low: number, high: number): Span =>
  Math.round(uniform(draw, low, high) * SECOND) as Span;
const milliseconds = (draw: Draw, low: number, high: number): Span =>
  (whole(draw, low, high) * (SECOND / 1000)) as Span;
/** Longer than any shift. */
const always = (24 * HOUR) as Span;

/**
 * One of every kind that data can show, each with a length of its own. A counter
 * is near its end from the start on, so that nobody sees it put there, and rolls over whenever its time has come.
 */
const kinds: readonly ((draw: Draw) => FaultBody & { readonly at?: Span })[] = [
  (draw) => ({ kind: 'cut', lasts: seconds(draw, 1, 240) }),
  (draw) => ({ kind: 'dark', lasts: seconds(draw, 1, 120) }),
  (draw) => ({ kind: 'unheard', lasts: seconds(draw, 1, 60) }),
  (draw) => ({ kind: 'killed', lasts: seconds(draw, 1, 60) }),
  (draw) => ({ kind: 'reissued', lasts: seconds(draw, 1, 60) }),
  (draw) => ({ kind: 'refused', lasts: seconds(draw, 1, 60) }),
  (draw) => ({ kind: 'download', lasts: seconds(draw, 5, 120) }),
  (draw) => ({ kind: 'reset', on: some(draw, counters) }),
  // by hand a few, or many
  (draw) => ({
    kind: 'corrected',
    on: some(draw, counters),
    by: -(draw() < 0.5 ? whole(draw, 1, 4) : whole(draw, 21, 2000)),
  }),
  (draw) => ({ kind: 'set', on: some(draw, counters), to: Math.round(10 ** uniform(draw, 0, 5)) }),
  (draw) => ({ kind: 'bad', on: some(draw, values), lasts: seconds(draw, 3, 120), withValue: draw() < 0.5 }),
  (draw) => ({ kind: 'still', lasts: seconds(draw, 3, 120) }),
  (draw) => ({ kind: 'frozen', lasts: seconds(draw, 3, 120) }),
  (draw) => ({ kind: 'pulse', on: some(draw, buttons), lasts: (0.03 * SECOND) as Span }),
  (draw) => ({ kind: 'stampless', lasts: seconds(draw, 3, 120) }),
  (draw) => ({ kind: 'queue', size: whole(draw, 2, 40), silent: false, lasts: seconds(draw, 60, 900) }),
  (draw) => ({ kind: 'twice', lasts: seconds(draw, 3, 120) }),
  (draw) => ({ kind: 'mixed', lasts: seconds(draw, 3, 120) }),
  (draw) => ({
    at: 0 as Span,
    kind: 'rollover',
    on: some(draw, counters),
    left: Math.round(10 ** uniform(draw, 0, 4)),
  }),
  (draw) => ({ kind: 'late', on: some(draw, chosen), lag: seconds(draw, 1, 60) }),
  (draw) => ({ kind: 'skewed', on: some(draw, modules), by: milliseconds(draw, -1900, 1900) }),
  // whole seconds: a server's clock is read to a millisecond
  (draw) => ({ kind: 'stepped', by: (whole(draw, 5, 3600) * SECOND * (draw() < 0.5 ? -1 : 1)) as Span }),
  // less than what is told from a reading that took its time
  (draw) => ({ kind: 'stepped', by: Math.round(uniform(draw, -1.9, 1.9) * SECOND) as Span }),
];

/** What a server is from the start on, and says of itself as it is subscribed to: half of them are as one would wish. */
const servers: readonly ((draw: Draw) => readonly FaultBody[])[] = [
  () => [],
  () => [],
  () => [],
  () => [],
  () => [{ kind: 'local' }],
  (draw) => [{ kind: 'queue', size: whole(draw, 1, 10), silent: draw() < 0.5, lasts: always }],
  (draw) => [
    { kind: 'sampled', every: ((draw() < 0.5 ? 0.5 : 1) * SECOND) as Span, lasts: always },
    { kind: 'queue', size: 1, silent: true, lasts: always },
  ],
  (draw) => [
    { kind: 'sampled', every: (0.5 * SECOND) as Span, lasts: always },
    { kind: 'queue', size: 1, silent: true, lasts: always },
    { kind: 'limited', items: whole(draw, upToGood, watched.length - 1), lasts: always },
  ],
];

/** What comes with a fault: a switch that boots again ends two at about the same time; a server may keep nothing through a cut. */
function beside(draw: Draw, { at, ...fault }: Fault): readonly Fault[] {
  if (draw() < 0.5) return [];
  const lasts = seconds(draw, 2, 30);
  switch (fault.kind) {
    case 'bad':
    case 'frozen': {
      const begins = Math.max(0, fault.lasts - seconds(draw, 1, 20));
      return [{ at: (at + begins) as Span, kind: some(draw, ['cut', 'dark', 'killed'] as const), lasts }];
    }
    case 'cut':
    case 'dark':
    case 'unheard':
      return [{ at, kind: 'empty', lasts: (fault.lasts + lasts) as Span }];
    default:
      return [];
  }
}

/**
 * So many faults within so many hours, some with another beside them, of random kinds at random moments, on a server of a
 * random kind; the same seed gives the same.
 */
export function randomFaults(seed: number, count: number, hours: number): readonly Fault[] {
  const draw = stream(seed, 'faults');
  const server = some(draw, servers)(draw).map((fault): Fault => ({ at: 0 as Span, ...fault }));
  const happening = Array.from({ length: count }, () => {
    const at = Math.round(uniform(draw, 0.05, 0.95) * hours * HOUR) as Span;
    const fault: Fault = { at, ...some(draw, kinds)(draw) };
    return [fault, ...beside(draw, fault)];
  });
  return [...server, ...happening.flat()].sort((a, b) => a.at - b.at);
}
