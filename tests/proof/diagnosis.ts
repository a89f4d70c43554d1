import { causeKey, diagnose, type Diagnosis } from '../../model/diagnosis/diagnosis.ts';
import type { Troubled } from '../../model/diagnosis/troubled.ts';
import { MACHINES, type MachineName } from './diagnosis/machine.ts';
import { type Trouble, type TroubleKind, troubleOf } from './diagnosis/trouble.ts';

/** One simulated trouble, and what was said of it: at first sight, and after the scales were read that were asked for. */
export interface DiagnosisRow {
  readonly proof: 'diagnosis';
  readonly machine: MachineName;
  readonly seed: number;
  readonly kind: TroubleKind;
  readonly station: string;
  readonly cause: string;
  readonly hasSensor: boolean;
  /** Adjustments that act on the station. */
  readonly acting: number;
  readonly said: boolean;
  readonly looks: readonly [Look, Look, Look];
  /** Scales that were read, in their order. */
  readonly read: readonly string[];
  /** The rows together are asked by `diagnosis.test.ts`; a row alone says only whether its chances add up. */
  readonly equal: boolean;
}

/** What was said at one look. */
export interface Look {
  /** The place of the truth among the causes and "don't know", from 1; 0 where it is not among them. */
  readonly place: number;
  /** The chance that was said of the truth. */
  readonly truth: number;
  /** What was said first, its chance, and that of "don't know", in thousandths. */
  readonly first: string;
  readonly chance: number;
  readonly dontKnow: number;
}

export const JUDGED_SEEDS = 2000;
/** Seeds of the judged begin here; those that weights were set on lie elsewhere. */
const JUDGED_FROM = 500_000;
export const TUNED_FROM = 100_000;
/** People go and read while nobody is this sure. */
const SURE = 0.9;

export function* diagnosisProof(): Generator<DiagnosisRow> {
  for (const machine of MACHINES)
    for (let seed = 1; seed <= JUDGED_SEEDS; seed += 1) yield diagnosisRow(machine, JUDGED_FROM + seed);
}

export function diagnosisRow(machine: MachineName, seed: number): DiagnosisRow {
  const trouble = troubleOf(machine, seed);
  const { knowledge } = trouble.world.machine;
  const looks: Look[] = [];
  const read: string[] = [];
  let troubled: Troubled = trouble.troubled;
  let adds = true;
  for (let look = 0; look < 3; look += 1) {
    const diagnosis = diagnose(troubled, knowledge)!;
    looks.push(lookOf(diagnosis, trouble));
    const sum = diagnosis.causes.reduce((total, { chance }) => total + chance, diagnosis.dontKnow.chance);
    adds &&= Math.abs(sum - 1) < 1e-9;
    const scale = diagnosis.readFirst[0];
    if (look === 2 || !scale || Math.max(diagnosis.causes[0]?.chance ?? 0, diagnosis.dontKnow.chance) >= SURE)
      continue;
    read.push(scale.number);
    const found = trouble.read(scale.number);
    troubled = {
      ...troubled,
      adjustments: troubled.adjustments.map((one) => (one.number === scale.number ? found : one)),
    };
  }
  return {
    ...{ proof: 'diagnosis', machine, seed, kind: trouble.kind, station: trouble.troubled.station },
    ...{ cause: trouble.cause, hasSensor: trouble.hasSensor, acting: troubled.adjustments.length },
    ...{
      said: troubled.symptoms.size > 0,
      looks: looks as unknown as DiagnosisRow['looks'],
      read,
      equal: adds,
    },
  };
}

/** "Don't know" stands among the causes by its chance; it is the truth of nothing, and of what nobody wrote down. */
function lookOf({ causes, dontKnow }: Diagnosis, { cause, kind }: Trouble): Look {
  const ranked = [
    { key: 'dontKnow', chance: dontKnow.chance },
    ...causes.map((one) => ({ key: causeKey(one.cause), chance: one.chance })),
  ].sort((a, b) => b.chance - a.chance);
  const truth = kind === 'nothing' || kind === 'unwritten' ? 'dontKnow' : cause;
  const place = ranked.findIndex(({ key }) => key === truth);
  const thousandths = (chance: number) => Math.round(1000 * chance) / 1000;
  return {
    place: place + 1,
    truth: thousandths(ranked[place]?.chance ?? 0),
    first: ranked[0]!.key,
    chance: thousandths(ranked[0]!.chance),
    dontKnow: thousandths(dontKnow.chance),
  };
}
