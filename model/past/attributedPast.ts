import { PARTS } from '../attribution/parts.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import type { RecordBodies } from '../records/records.ts';

/** What was laid to one station, or to nobody where it has no id. Cartons in thousandths, exact. */
export interface AttributedShare {
  /** Undefined for what is nobody's. */
  readonly station: string | undefined;
  readonly cartons: number;
}

export interface AttributedReason {
  readonly reason: string;
  readonly rejects: number;
  /** As cartons pass the stations, nobody last; they add up to the rejects. */
  readonly shares: readonly AttributedShare[];
}

export interface AttributedStation {
  readonly station: string;
  /** What was laid to it for all reasons together. */
  readonly cartons: number;
  /** What the account charges it with: each reject to the one station of its reason. */
  readonly charged: number;
}

/** [AT1] Who may have spoiled the rejects of a period: an estimate beside the account, which it does not change. */
export interface AttributedPast {
  readonly rejects: number;
  readonly unattributed: number;
  readonly reasons: readonly AttributedReason[];
  /** Every station that a reject may come from, as cartons pass them. */
  readonly stations: readonly AttributedStation[];
}

type Minute = Pick<RecordBodies['minute'], 'attributed'>;

/** What lies between two records of minutes; `before` undefined is the beginning of all that is recorded. */
export function attributedPast(index: LineIndex, before: Minute | undefined, after: Minute): AttributedPast {
  const parts = after.attributed.map((part, place) => part - (before?.attributed[place] ?? 0));
  const { line, attribution } = index;
  const reasons = attribution.suspects.map(({ reason, stations, first, prior }) => {
    const own = parts.slice(first, first + prior.length);
    return {
      reason,
      rejects: cartons(sum(own)),
      shares: own.map((part, n) => ({
        station: line.stations[stations[n] ?? -1]?.id,
        cartons: cartons(part),
      })),
    };
  });
  return {
    rejects: cartons(sum(parts)),
    unattributed: cartons(
      sum(attribution.suspects.map(({ first, prior }) => parts[first + prior.length - 1]!)),
    ),
    reasons,
    stations: line.stations.flatMap(({ id }, place) => stationOf(index, parts, { id, place })),
  };
}

function stationOf(
  { line, attribution }: LineIndex,
  parts: readonly number[],
  { id, place }: { readonly id: string; readonly place: number },
): readonly AttributedStation[] {
  const own = attribution.suspects.filter(({ stations }) => stations.includes(place));
  if (own.length === 0) return [];
  const laid = own.map(({ stations, first }) => parts[first + stations.indexOf(place)]!);
  const charged = own
    .filter(({ reason }) => line.rejects.find((one) => one.id === reason)?.station === id)
    .map(({ first, prior }) => sum(parts.slice(first, first + prior.length)));
  return [{ station: id, cartons: cartons(sum(laid)), charged: cartons(sum(charged)) }];
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

/** Whole parts as cartons: one division, so that it is the nearest number to what is meant. */
const cartons = (parts: number) => parts / PARTS;
