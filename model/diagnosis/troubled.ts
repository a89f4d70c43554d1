import type { Instant } from '../units/units.ts';
import type { Symptom } from './symptoms.ts';

/** A station that misbehaves, and all that is known about it, since the run began. */
export interface Troubled {
  readonly station: string;
  /** Every reason that the station's trouble can show in, its neighbours' too; the order is that of `counts`. */
  readonly reasons: readonly ReasonUsual[];
  /** The run from its first carton on, in order: ten to sixty stretches are enough. */
  readonly cells: readonly Cell[];
  /** What began the run; undefined where that is not known. */
  readonly began: 'size' | 'artwork' | 'startUp' | undefined;
  /** How unlike the station's runs are: the shape of the gamma distribution of their levels. Undefined where too few were seen. */
  readonly alike: number | undefined;
  /** What people said the spoiled cartons look like, each as often as it was said. */
  readonly symptoms: ReadonlyMap<Symptom, number>;
  /** The adjustments that act on the station. */
  readonly adjustments: readonly AdjustmentKnown[];
  readonly happenings: readonly Happening[];
}

export interface ReasonUsual {
  readonly kind: 'reject' | 'stop';
  /** The reject reason's id, or the stop reason's number. */
  readonly id: string | number;
  readonly station: string | undefined;
  /** So many in a carton are usual at this size. */
  readonly usual: number;
}

export interface Cell {
  readonly from: Instant;
  readonly to: Instant;
  readonly cartons: number;
  readonly counts: readonly number[];
}

/** One adjustment, in its own unit throughout. What is not known is undefined. */
export interface AdjustmentKnown {
  readonly number: string;
  readonly hasSensor: boolean;
  readonly reading: Reading | undefined;
  /** The best number for this size and lot, and how far it may be from it (standard deviation). */
  readonly best: { readonly value: number; readonly sd: number } | undefined;
  /** How many rejects and stops more come in 1,000 cartons for each squared unit off. */
  readonly cost: { readonly perSquare: number; readonly sd: number } | undefined;
  /** Since the run began, and the one that began it. */
  readonly moves: readonly Move[];
}

export interface Reading {
  readonly value: number;
  /** sensor: reads so now. typed: said by somebody who read it. confirmed: one tap, "as book". */
  readonly known: 'sensor' | 'typed' | 'confirmed';
  /** Since when it reads so, or when it was said. */
  readonly since: Instant;
  /** [SP10] Where it was put then by whoever read it: the same number where it was left. Undefined where nobody said. */
  readonly put?: number | undefined;
}

export interface Move {
  readonly at: Instant;
  readonly from: number | undefined;
  readonly to: number;
  /** drift: a sensor's reading crept, and nobody moved it. */
  readonly by: 'changeover' | 'hand' | 'drift';
}

/** What may have begun it. A lot or part that came with the run's beginning has its moment, or an earlier one. */
export interface Happening {
  readonly kind: 'lot' | 'part' | 'jam';
  readonly at: Instant;
  /** For people: the lot's or the part's name. */
  readonly name: string | undefined;
}
