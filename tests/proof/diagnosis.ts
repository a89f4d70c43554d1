import { diagnose, type Diagnosis } from '../../model/diagnosis/diagnosis.ts';
import { causeKey } from '../../model/diagnosis/explanations.ts';
import { MACHINES, type MachineName } from './diagnosis/machine.ts';
import { type Trouble, type TroubleKind, troubleOf } from './diagnosis/trouble.ts';
import type { MannerName } from './diagnosis/world.ts';

/**
 * One simulated trouble, and what was said of it: at first sight, after one scale and two were read that were asked for, and after
 * somebody was asked how spoiled cartons look, if nobody had said.
 */
export interface DiagnosisRow {
  readonly proof: 'diagnosis';
  readonly machine: MachineName;
  readonly manner: MannerName;
  readonly seed: number;
  readonly kind: TroubleKind;
  readonly station: string;
  readonly cause: string;
  readonly hasSensor: boolean;
  /** Somebody said how spoiled cartons look. */
  readonly said: boolean;
  /** Null where nothing was read or asked, so that what was said stayed. */
  readonly looks: readonly (Look | null)[];
  /** Scales that were read, in their order. */
  readonly read: readonly string[];
  /** The rows together are asked by `diagnosis.test.ts`; a row alone says only whether its chances add up. */
  readonly equal: boolean;
}

/** What was said at one look. */
export interface Look {
  /** Chances of all causes and of "don't know", the likeliest first, in thousandths. */
  readonly chances: readonly number[];
  /** The place of the truth and of "don't know" among them, from 1. */
  readonly truth: number;
  readonly dontKnow: number;
}

export const JUDGED_SEEDS: Readonly<Record<MannerName, number>> = { usual: 1000, strange: 500 };
/** Seeds of the judged begin here; those that weights were set on lie elsewhere. */
const JUDGED_FROM = 500_000;
export const TUNED_FROM = 100_000;
/** People go and read while nobody is this sure. */
const SURE = 0.9;
const SCALES = 2;

export function* diagnosisProof(): Generator<DiagnosisRow> {
  for (const manner of Object.keys(JUDGED_SEEDS) as MannerName[])
    for (const machine of MACHINES)
      for (let seed = 1; seed <= JUDGED_SEEDS[manner]; seed += 1)
        yield diagnosisRow(machine, manner, JUDGED_FROM + seed);
}

export function diagnosisRow(machine: MachineName, manner: MannerName, seed: number): DiagnosisRow {
  const trouble = troubleOf(machine, seed, manner);
  const { troubled, kind, cause, hasSensor } = trouble;
  const { looks, read, adds } = lookedAt(trouble);
  return {
    ...{ proof: 'diagnosis', machine, manner, seed, kind, station: troubled.station, cause, hasSensor },
    ...{ said: troubled.symptoms.size > 0, looks, read, equal: adds },
  };
}

/** Said, read what is asked for, said again. Who is sure reads nothing, and what is said stays. */
function lookedAt(trouble: Trouble) {
  let { troubled } = trouble;
  const looks: (Look | null)[] = [];
  const read: string[] = [];
  let adds = true;
  const look = () => {
    const diagnosis = diagnose(troubled, trouble.world.machine.knowledge)!;
    const { causes, dontKnow, readFirst } = diagnosis;
    looks.push(lookOf(diagnosis, trouble));
    adds &&= Math.abs(causes.reduce((sum, one) => sum + one.chance, dontKnow.chance) - 1) < 1e-9;
    return Math.max(causes[0]?.chance ?? 0, dontKnow.chance) < SURE ? { scale: readFirst[0] } : undefined;
  };
  let open = look();
  for (let nth = 0; nth < SCALES; nth += 1) {
    const number = open?.scale?.number;
    if (number === undefined) {
      looks.push(null);
      continue;
    }
    read.push(number);
    const found = trouble.read(number);
    const adjustments = troubled.adjustments.map((one) => (one.number === number ? found : one));
    troubled = { ...troubled, adjustments };
    open = look();
  }
  if (open && troubled.symptoms.size === 0) {
    troubled = { ...troubled, symptoms: new Map([[trouble.looks(), 1]]) };
    look();
  } else looks.push(null);
  return { looks, read, adds };
}

/** What was said last by then. */
export function saidAt({ looks }: Pick<DiagnosisRow, 'looks'>, look: number): Look {
  return looks.slice(0, look + 1).findLast((one) => one !== null)!;
}

/** "Don't know" stands among the causes by its chance; it is the truth of nothing, and of what nobody wrote down. */
function lookOf({ causes, dontKnow }: Diagnosis, { cause, kind }: Trouble): Look {
  const ranked = [
    { key: 'dontKnow', chance: dontKnow.chance },
    ...causes.map((one) => ({ key: causeKey(one.cause), chance: one.chance })),
  ].sort((a, b) => b.chance - a.chance);
  const truth = kind === 'nothing' || kind === 'unwritten' ? 'dontKnow' : cause;
  const placeOf = (wanted: string) => ranked.findIndex(({ key }) => key === wanted) + 1;
  return {
    chances: ranked.map(({ chance }) => Math.round(1000 * chance)),
    truth: placeOf(truth),
    dontKnow: placeOf('dontKnow'),
  };
}
