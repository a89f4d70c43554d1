/**
 * What people of the trade know of a machine: which adjustment, too high or too low, brings which spoiled cartons, rejects and
 * stops, and what else brings them. Common practice, no source; a file beside the line's own, which people change.
 */
export interface SymptomKnowledge {
  readonly adjustments: readonly AdjustmentSigns[];
  readonly causes: readonly OtherCause[];
}

/** How spoiled cartons look. */
export const SYMPTOMS = ['off-score', 'tuck-out', 'out-of-square', 'flap-in-way', 'crushed'] as const;
export type Symptom = (typeof SYMPTOMS)[number];

/** How much of a trouble shows so. */
export const STRENGTHS = ['often', 'sometimes', 'seldom'] as const;
export type Strength = (typeof STRENGTHS)[number];

/** What shows, by symptom, by reject reason and by the number of the stop reason. What is not named is not expected. */
export interface Signs {
  readonly symptoms: ReadonlyMap<Symptom, Strength>;
  readonly rejects: ReadonlyMap<string, Strength>;
  readonly stops: ReadonlyMap<number, Strength>;
}

export const SIDES = ['high', 'low'] as const;
export type Side = (typeof SIDES)[number];

export interface AdjustmentSigns {
  readonly number: string;
  /** Whose rejects and stops it acts on, its own station among them. */
  readonly stations: readonly string[];
  readonly loose: Loose;
  /** Off by so much, in its own unit, it spoils about as many cartons more as are usual. */
  readonly shows: number;
  readonly high: Signs;
  readonly low: Signs;
}

/** How easily it works loose. */
export const LOOSE = ['easily', 'sometimes', 'seldom'] as const;
export type Loose = (typeof LOOSE)[number];

/** A cause that is no adjustment. */
export interface OtherCause {
  readonly id: string;
  readonly name: string;
  readonly stations: readonly string[];
  readonly begins: readonly Begins[];
  readonly signs: Signs;
}

/** How it comes: with a new lot of board, with a part put in, creeping up as it wears, or at once. */
export const BEGINS = ['lot', 'part', 'creeping', 'atOnce'] as const;
export type Begins = (typeof BEGINS)[number];
