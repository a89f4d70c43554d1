import { SIDES, type Side, SYMPTOMS, type Symptom } from '../../../model/diagnosis/symptoms.ts';
import type { AdjustmentKnown, Cell, Happening, Troubled } from '../../../model/diagnosis/troubled.ts';
import { type Instant, MINUTE } from '../../../model/units/units.ts';
import {
  chance,
  type Draw,
  lognormal,
  normal,
  pick,
  stream,
  uniform,
  whole,
} from '../../../simulator/machine/random.ts';
import { knownOf, type Made } from './known.ts';
import { type MachineName, machineOf } from './machine.ts';
import { countRun, type Run } from './run.ts';
import { type Manner, type MannerName, type Shown, unknownShown, type World, worldOf } from './world.ts';

/** A trouble with its true cause, as the gateway would see it. */
export interface Trouble {
  readonly kind: TroubleKind;
  /** As `causeKey` has it. "Nothing" and what nobody wrote down are both for "don't know". */
  readonly cause: string;
  readonly side: Side | undefined;
  readonly hasSensor: boolean;
  readonly troubled: Troubled;
  /** What somebody says who reads a scale now. */
  readonly read: (number: string) => AdjustmentKnown;
  /** How somebody says that spoiled cartons look, who is asked. */
  readonly looks: () => Symptom;
  readonly world: World;
}

export const TROUBLE_KINDS = [
  'misSet',
  'moved',
  'loose',
  'knocked',
  'lot',
  'worn',
  'unwritten',
  'nothing',
] as const;
export type TroubleKind = (typeof TROUBLE_KINDS)[number];

/** How often each kind comes in the judged set. */
export const SHARES: Readonly<Record<TroubleKind, number>> = {
  misSet: 0.26,
  moved: 0.14,
  loose: 0.2,
  knocked: 0.08,
  lot: 0.12,
  worn: 0.1,
  unwritten: 0.05,
  nothing: 0.05,
};

const TRIES = 400;

/** The trouble of a seed. One that is too small to be noticed in its run is drawn anew. */
export function troubleOf(machine: MachineName, seed: number, manner: MannerName): Trouble {
  const world = worldOf(machineOf(machine), seed, manner);
  const kind = pick(stream(seed, 'kind'), TROUBLE_KINDS, (one) => SHARES[one]);
  for (let attempt = 0; attempt < TRIES; attempt += 1) {
    const trouble = drawTrouble(world, kind, stream(seed, `trouble ${attempt}`));
    if (trouble) return trouble;
  }
  throw new Error(`No trouble of the kind ${kind} was noticed with the seed ${seed}`);
}

/** What really happened, before anybody counted. */
interface Truth {
  readonly kind: TroubleKind;
  readonly station: string;
  readonly cause: string;
  readonly number: string | undefined;
  readonly side: Side | undefined;
  readonly shown: Shown;
  /** Minutes into the run at which it began. */
  readonly from: number;
  /** Times the usual, at a minute of the run. */
  readonly excess: (minute: number) => number;
  /** How far the adjustment is off, at a minute of the run. */
  readonly far: (minute: number) => number;
}

function drawTrouble(world: World, kind: TroubleKind, draw: Draw): Trouble | undefined {
  const truth = drawTruth(world, kind, draw);
  const run = truth && countRun(world, truth, draw);
  return truth && run && seen(world, truth, run, draw);
}

function drawTruth(world: World, kind: TroubleKind, draw: Draw): Truth | undefined {
  if (kind === 'lot' || kind === 'worn') return drawOther(world, kind, draw);
  if (kind === 'unwritten' || kind === 'nothing') return drawNobodys(world, kind, draw);
  return drawAdjusted(world, kind, draw);
}

function drawAdjusted(world: World, kind: TroubleKind, draw: Draw): Truth {
  const signs = pick(draw, world.machine.knowledge.adjustments, ({ number, loose }) => {
    if (kind === 'loose') return { easily: 3, sometimes: 1.2, seldom: 0.4 }[loose];
    // what a sensor shows to be set wrongly is often mended before it does harm
    return kind === 'misSet' && world.machine.sensed.includes(number) ? 0.6 : 1;
  });
  const side = pick(draw, SIDES, () => 1);
  const way = side === 'high' ? 1 : -1;
  const { excess } = world.adjustments.get(signs.number)!;
  const odd = kind === 'misSet' && chance(draw, 0.3);
  // a whole turn of a wheel, or the number of the size before
  const size = odd ? uniform(draw, 2, 6) * signs.shows : lognormal(draw, 2.2, 0.45, 0.8, 6) * signs.shows;
  const from = kind === 'misSet' ? 0 : uniform(draw, kind === 'loose' ? 0 : 15, 330);
  const lasts = uniform(draw, 50, 320);
  const bend = pick(draw, [0.6, 1, 1.7], () => 1);
  const far = (minute: number) => {
    if (minute < from) return 0;
    return way * size * (kind === 'loose' ? Math.min(1.3, (minute - from) / lasts) ** bend : 1);
  };
  return {
    ...{ kind, side, from, far },
    station: pick(draw, signs.stations, (one) => (one === signs.stations[0] ? 3 : 1)),
    cause: `adjustment ${signs.number}`,
    number: signs.number,
    shown: world.shows(`${signs.number} ${side}`),
    excess: (minute) => (minute < from ? 0 : excess(far(minute))),
  };
}

function drawOther(world: World, kind: 'lot' | 'worn', draw: Draw): Truth {
  const causes = world.machine.knowledge.causes.filter(
    ({ begins }) => begins.includes('lot') === (kind === 'lot'),
  );
  const cause = pick(draw, causes, () => 1);
  const begins = pick(draw, cause.begins, () => 1);
  const size = lognormal(draw, 3, 0.5, 0.8, 20);
  const atStart = chance(draw, begins === 'lot' || begins === 'part' ? 0.4 : 0.1);
  const from = atStart ? 0 : uniform(draw, 15, 330);
  const lasts = uniform(draw, 50, 320);
  const grows = (minute: number) =>
    begins === 'creeping' && !atStart ? Math.min(1.5, (minute - from) / lasts) ** 1.5 : 1;
  return {
    ...{ kind, from, number: undefined, side: undefined },
    station: pick(draw, cause.stations, () => 1),
    cause: `other ${cause.id}${begins === 'part' ? ' part' : ''}`,
    shown: world.shows(cause.id),
    excess: (minute) => (minute < from ? 0 : size * grows(minute)),
    far: () => 0,
  };
}

function drawNobodys(world: World, kind: 'unwritten' | 'nothing', draw: Draw): Truth {
  const { adjustments } = world.machine.knowledge;
  // the more there is at a station, the more goes wrong there; looked at are all alike
  const stations = adjustments.map((one) => one.stations[0]!);
  const station = pick(draw, kind === 'nothing' ? [...new Set(stations)] : stations, () => 1);
  const size = kind === 'nothing' ? 0 : lognormal(draw, 3, 0.5, 0.8, 20);
  const from = uniform(draw, 0, 330);
  const lasts = chance(draw, 0.5) ? uniform(draw, 50, 320) : 0;
  return {
    ...{ kind, station, from, number: undefined, side: undefined },
    cause: kind,
    shown: unknownShown(draw, world.machine, station),
    excess: (minute) => (minute < from ? 0 : size * (lasts > 0 ? Math.min(1.3, (minute - from) / lasts) : 1)),
    far: () => 0,
  };
}

const at = (minute: number) => Math.round(minute * MINUTE) as Instant;

function seen(world: World, truth: Truth, run: Run, draw: Draw): Trouble {
  const part = truth.cause.endsWith(' part');
  const made: Made = { world, truth, ended: run.minutes, draw, at };
  const known = world.machine.knowledge.adjustments
    .filter(({ stations }) => stations.includes(truth.station))
    .map((signs) => knownOf(made, signs));
  const readings = new Map(known.map(({ known: one, read }) => [one.number, read]));
  return {
    ...{ world, side: truth.side },
    kind: truth.kind,
    cause: part ? truth.cause.slice(0, -' part'.length) : truth.cause,
    hasSensor: truth.number !== undefined && world.machine.sensed.includes(truth.number),
    read: (number) => readings.get(number)!(),
    looks: () => symptomSaid(truth, world.manner, draw),
    troubled: {
      station: truth.station,
      reasons: world.machine.reasons.map((reason, nth) => ({ ...reason, usual: run.thoughtUsual[nth]! })),
      cells: cellsOf(run),
      began: 'size',
      // what other runs showed of it, which is not exact either
      alike: chance(draw, 0.2) ? undefined : (1 / world.runSpread ** 2) * Math.exp(0.4 * normal(draw)),
      symptoms: symptomsSaid(truth, world.manner, draw),
      adjustments: known.map((one) => one.known),
      happenings: happeningsOf(truth, run, part, draw),
    },
  };
}

/** At most forty stretches of equal length. */
function cellsOf(run: Run): readonly Cell[] {
  const together = Math.ceil(run.cells.length / 40);
  return Array.from({ length: Math.ceil(run.cells.length / together) }, (_, nth) => {
    const own = run.cells.slice(nth * together, (nth + 1) * together);
    return {
      from: at(own[0]!.from),
      to: at(own.at(-1)!.to),
      cartons: own.reduce((sum, { cartons }) => sum + cartons, 0),
      counts: own[0]!.counts.map((_, reason) => own.reduce((sum, { counts }) => sum + counts[reason]!, 0)),
    };
  });
}

/** In fewer than half of all somebody says how they look; some of what is said is a mistake. */
function symptomsSaid(truth: Truth, manner: Manner, draw: Draw): ReadonlyMap<Symptom, number> {
  const said = new Map<Symptom, number>();
  if (!chance(draw, 0.45)) return said;
  for (let nth = whole(draw, 1, 3); nth > 0; nth -= 1) {
    const symptom = symptomSaid(truth, manner, draw);
    said.set(symptom, (said.get(symptom) ?? 0) + 1);
  }
  return said;
}

function symptomSaid({ shown, kind }: Truth, { saidWrongly }: Manner, draw: Draw): Symptom {
  const wrong = kind === 'nothing' || chance(draw, saidWrongly);
  return pick(draw, SYMPTOMS, (one) => (wrong ? 1 : shown.symptoms[SYMPTOMS.indexOf(one)]!));
}

/** What may have begun it, and what only happened then too. */
function happeningsOf(truth: Truth, run: Run, part: boolean, draw: Draw): readonly Happening[] {
  const happened: { kind: Happening['kind']; minute: number }[] = [];
  // not every line is told of its lots
  if (truth.kind === 'lot' && truth.from > 0 && chance(draw, 0.85))
    happened.push({ kind: 'lot', minute: truth.from });
  if (part) happened.push({ kind: 'part', minute: truth.from });
  if (truth.kind === 'knocked') happened.push({ kind: 'jam', minute: truth.from });
  // another size has other board, and often other parts
  if (chance(draw, 0.9)) happened.push({ kind: 'lot', minute: 0 });
  if (chance(draw, 0.3) && !(part && truth.from === 0)) happened.push({ kind: 'part', minute: 0 });
  const sometime = () => uniform(draw, 0, run.minutes);
  if (chance(draw, 0.25)) happened.push({ kind: 'lot', minute: sometime() });
  if (chance(draw, 0.08)) happened.push({ kind: 'part', minute: sometime() });
  for (const minute of run.jams) happened.push({ kind: 'jam', minute });
  return happened
    .filter(({ minute }) => minute <= run.minutes)
    .sort((a, b) => a.minute - b.minute)
    .map(({ kind, minute }) => ({ kind, at: at(minute), name: undefined }));
}

export type { Truth };
