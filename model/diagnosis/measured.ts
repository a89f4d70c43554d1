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
    ...{ troubles: 1000, first: 74, within3: 95, firstRead: 78, within3Read: 95, read: 0.7 },
    dontKnow: { said: 104, right: 42, due: 93 },
    dontKnowRead: { said: 117, right: 52, due: 93 },
  },
  large: {
    ...{ troubles: 1000, first: 60, within3: 86, firstRead: 69, within3Read: 90, read: 1.3 },
    dontKnow: { said: 91, right: 27, due: 93 },
    dontKnowRead: { said: 111, right: 35, due: 93 },
  },
  line3Strange: {
    ...{ troubles: 500, first: 71, within3: 94, firstRead: 73, within3Read: 95, read: 0.7 },
    dontKnow: { said: 46, right: 17, due: 41 },
    dontKnowRead: { said: 57, right: 18, due: 41 },
  },
  largeStrange: {
    ...{ troubles: 500, first: 55, within3: 82, firstRead: 62, within3Read: 87, read: 1.32 },
    dontKnow: { said: 48, right: 13, due: 41 },
    dontKnowRead: { said: 57, right: 16, due: 41 },
  },
};
