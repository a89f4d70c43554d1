/**
 * [DG7] How good diagnoses were on simulated troubles (`npm run -s proof -- diagnosis`), in whole percent. A test holds these figures
 * equal to the proof's rows.
 */
export interface DiagnosisMeasured {
  readonly troubles: number;
  /** The truth was said first, or stood among the first three: at first sight, and after the scales were read that were asked for. */
  readonly first: number;
  readonly within3: number;
  readonly firstRead: number;
  readonly within3Read: number;
  /** Scales that were read, on average; two at most. */
  readonly read: number;
  readonly dontKnow: DontKnowMeasured;
  readonly dontKnowRead: DontKnowMeasured;
}

export interface DontKnowMeasured {
  /** How often it was said, how often it was right to, and how often it was due. */
  readonly said: number;
  readonly right: number;
  readonly due: number;
}

/** A tenth of all chances: how often one in it was said, its mean, and how often it came true, in percent. */
export interface SaidBin {
  readonly times: number;
  readonly said: number | undefined;
  readonly true: number | undefined;
}

export const DIAGNOSIS_MEASURED: Readonly<Record<string, DiagnosisMeasured>> = {};
