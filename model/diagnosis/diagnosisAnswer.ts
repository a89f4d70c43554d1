import type { Line } from '../line/line.ts';
import { type EpochMs, epochMs, type Instant } from '../units/units.ts';
import type { Diagnosis, RankedCause } from './diagnosis.ts';
import type { Evidence, ReasonSeen } from './evidence.ts';
import { causeKey } from './explanations.ts';
import type { Move } from './troubled.ts';

/** A diagnosis as screens show it: with names, and moments as people's programs write them. */
export interface DiagnosisAnswer {
  readonly station: { readonly id: string; readonly number: number; readonly name: string };
  readonly says: Diagnosis['says'];
  readonly causes: readonly CauseAnswer[];
  /** Of all causes that are too unlikely to be named, together. */
  readonly unlikely: number;
  readonly dontKnow: Diagnosis['dontKnow'];
  readonly readFirst: readonly { readonly number: string; readonly name: string; readonly bits: number }[];
  /** What one more person would tell who says how spoiled cartons look, in bits: below a tenth it is not worth asking. */
  readonly looksTell: number;
  readonly trouble: Omit<Diagnosis['trouble'], 'since'> & { readonly since: EpochMs };
}

export interface CauseAnswer {
  readonly key: string;
  /** Of an adjustment; undefined for another cause. */
  readonly adjustment:
    | { readonly number: string; readonly unit: string; readonly decimals: number }
    | undefined;
  readonly name: string;
  readonly chance: number;
  readonly side: RankedCause['side'];
  readonly how: Omit<RankedCause['how'], 'at'> & { readonly at: EpochMs | undefined };
  readonly evidence: readonly EvidenceAnswer[];
  readonly moves: readonly MoveAnswer[];
}

export type EvidenceAnswer =
  | Exclude<Evidence<EpochMs>, { kind: 'reasons' }>
  | (Omit<Extract<Evidence<EpochMs>, { kind: 'reasons' }>, 'reasons'> & {
      readonly reasons: readonly (ReasonSeen & { readonly name: string })[];
    });

export type MoveAnswer = Omit<Move, 'at'> & { readonly at: EpochMs };

/** Causes below this chance are not named one by one. */
const NAMED_LEAST = 0.02;

export function diagnosisAnswer(line: Line, diagnosis: Diagnosis): DiagnosisAnswer | undefined {
  const station = line.stations.find(({ id }) => id === diagnosis.station);
  if (!station) return undefined;
  const named = diagnosis.causes.filter(({ chance }) => chance >= NAMED_LEAST);
  const nameOf = (number: string) => line.adjustments.find((one) => one.number === number)?.name ?? number;
  const { trouble, says, dontKnow, looksTell } = diagnosis;
  return {
    station: { id: station.id, number: station.number, name: station.name },
    ...{ says, dontKnow, looksTell },
    causes: named.map((cause) => causeAnswer(line, cause)),
    unlikely: diagnosis.causes.reduce((sum, { chance }) => (chance < NAMED_LEAST ? sum + chance : sum), 0),
    readFirst: diagnosis.readFirst.map(({ number, bits }) => ({ number, name: nameOf(number), bits })),
    trouble: { ...trouble, since: epochMs(trouble.since) },
  };
}

function causeAnswer(line: Line, { cause, chance, side, how, evidence, moves }: RankedCause): CauseAnswer {
  const known = line.adjustments.find(({ number }) => cause.kind === 'adjustment' && number === cause.number);
  return {
    key: causeKey(cause),
    adjustment: known && { number: known.number, unit: known.unit, decimals: known.decimals },
    name: cause.kind === 'other' ? cause.name : (known?.name ?? cause.number),
    ...{ chance, side },
    how: { ...how, at: momentOf(how.at) },
    evidence: evidence.map((one) => evidenceAnswer(line, one)),
    moves: moves.map((move) => ({ ...move, at: epochMs(move.at) })),
  };
}

function momentOf(at: Instant | undefined): EpochMs | undefined {
  return at === undefined ? undefined : epochMs(at);
}

function evidenceAnswer(line: Line, evidence: Evidence): EvidenceAnswer {
  switch (evidence.kind) {
    case 'deviation':
      return { ...evidence, reading: { ...evidence.reading, since: epochMs(evidence.reading.since) } };
    case 'began':
      return { ...evidence, at: momentOf(evidence.at) };
    case 'reasons':
      return {
        ...evidence,
        reasons: evidence.reasons.map((reason) => ({ ...reason, name: reasonName(line, reason) })),
      };
    case 'symptoms':
    case 'worksLoose':
      return evidence;
  }
}

function reasonName({ rejects, reasons }: Line, { kind, id }: ReasonSeen): string {
  const known =
    kind === 'reject' ? rejects.find((one) => one.id === id) : reasons.find(({ number }) => number === id);
  return known?.name ?? String(id);
}
