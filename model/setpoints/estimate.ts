import { readChain } from './estimateAnswer.ts';
import { drawChain } from './estimateChain.ts';
import { evidenceOf } from './estimateEvidence.ts';

/**
 * A stretch of a run in which no adjustment that acts on the station is known to have moved. Trial cartons are left out by the
 * caller; stretches stand in the order of time.
 */
export interface SettledStretch {
  /** The unit: stretches of one run share what made that run unlike others. */
  readonly run: string;
  readonly lot: string | null;
  readonly parts: string | null;
  readonly speed?: number;
  /** In the order of the adjustments that are asked about; undefined where nobody knows. */
  readonly settings: readonly (KnownSetting | undefined)[];
  readonly cartons: number;
  /** Rejects charged to the station, also by shares. */
  readonly spoiled: number;
  /** Own stops, tries again counted once. */
  readonly stops: number;
}

/** `confirmed` is one tap for a whole station: it may not be so. */
export interface KnownSetting {
  readonly value: number;
  readonly known: 'sensor' | 'typed' | 'confirmed';
}

export interface ActingAdjustment {
  readonly number: string;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  readonly book: number | undefined;
  /** Of this station; else of another one, and may act here. */
  readonly own: boolean;
}

export interface EstimateAsked {
  readonly adjustments: readonly ActingAdjustment[];
  readonly stretches: readonly SettledStretch[];
  readonly cartonsPerRun: number;
  readonly lostPerReject: number;
  readonly lostPerStop: number;
  /** By how much the best numbers of other sizes lay beside their books, and the standard deviation of each. */
  readonly otherSizes?: Readonly<Record<string, readonly OtherSize[]>>;
}

export interface OtherSize {
  readonly offset: number;
  readonly spread: number;
}

export interface AdjustmentEstimate {
  readonly number: string;
  /** On the scale's step and within its range; undefined where nobody can say. */
  readonly recommended: number | undefined;
  /** Holds the best number in nine of ten cases. */
  readonly range90: Span | undefined;
  /** Settings that were tried, beside one another, at which the station ran no worse than it usually does. */
  readonly ranWell: Span | undefined;
  readonly sure: Sureness;
  readonly runs: number;
  readonly settings: number;
  readonly lots: number;
  readonly marks: readonly SettingMark[];
  readonly cost: readonly CostAt[];
  /** Those that always moved with it: what is said of one may be true of another. */
  readonly togetherWith: readonly string[];
  readonly teaches: Teaches | undefined;
  /** Mean and standard deviation of the best number beside the book, for other sizes to lean on; undefined without a book or evidence. */
  readonly besideBook: OtherSize | undefined;
}

export interface Span {
  readonly from: number;
  readonly to: number;
}

/** How sure the recommended number is: by runs, settings and sides, never by cartons. */
export const SURENESS = ['sure', 'fairlySure', 'thin', 'cannotSay', 'neverVaried'] as const;
export type Sureness = (typeof SURENESS)[number];

/** A setting that was tried, in so many runs. */
export interface SettingMark {
  readonly at: number;
  readonly runs: number;
  readonly rejectsPerThousand: number;
}

/** What a number costs, all others at what is recommended; low and high hold nine of ten. */
export interface CostAt {
  readonly at: number;
  readonly rejectsPerThousand: number;
  readonly low: number;
  readonly high: number;
  readonly stopsPerThousand: number;
  /** Cartons that a usual run of the size loses there, in all: not against what is recommended. */
  readonly lostPerRun: number;
}

export interface Teaches {
  readonly to: number;
  /** What it would show: the side that was never tried, which of two that moved together it is, or on which side it is best. */
  readonly why: 'neverVaried' | 'otherSide' | 'apart' | 'wide';
}

/**
 * [SB1] Which number is best for each adjustment that acts on a station with a size, how sure that is, and what being off costs. A
 * station's risk in a run is its level, times what made the run and its lot unlike others, times one and what each adjustment adds
 * that is off; drawn from by a chain that is the same each time.
 */
export function estimate(asked: EstimateAsked): readonly AdjustmentEstimate[] {
  const evidence = evidenceOf(asked);
  return readChain(asked, evidence, drawChain(evidence));
}
