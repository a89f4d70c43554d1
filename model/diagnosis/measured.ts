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

/** The bundled line and a larger invented machine; and both where people, numbers and file are wrong two to three times as often. */
export const DIAGNOSIS_MEASURED: Readonly<
  Record<'line3' | 'large' | 'line3Strange' | 'largeStrange', DiagnosisMeasured>
> = {
  line3: {
    troubles: 1000,
    first: 76,
    within3: 96,
    firstRead: 80,
    within3Read: 97,
    read: 0.68,
    dontKnow: { said: 64, right: 24, due: 93 },
    dontKnowRead: { said: 81, right: 33, due: 93 },
  },
  large: {
    troubles: 1000,
    first: 62,
    within3: 87,
    firstRead: 72,
    within3Read: 91,
    read: 1.21,
    dontKnow: { said: 51, right: 18, due: 93 },
    dontKnowRead: { said: 78, right: 26, due: 93 },
  },
  line3Strange: {
    troubles: 500,
    first: 73,
    within3: 96,
    firstRead: 76,
    within3Read: 96,
    read: 0.67,
    dontKnow: { said: 33, right: 11, due: 41 },
    dontKnowRead: { said: 43, right: 15, due: 41 },
  },
  largeStrange: {
    troubles: 500,
    first: 57,
    within3: 83,
    firstRead: 65,
    within3Read: 87,
    read: 1.26,
    dontKnow: { said: 28, right: 8, due: 41 },
    dontKnowRead: { said: 43, right: 10, due: 41 },
  },
};
