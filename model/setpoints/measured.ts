/** Cartons lost in a run beyond what the hidden best numbers lose, if a rule's numbers are followed: over worlds. */
export interface ErrorMeasured {
  readonly mean: number;
  readonly median: number;
}

/** What the proof `setpoints` measured after so many runs of a size. Shares are in hundred. */
export interface AfterMeasured {
  readonly runs: number;
  /** What the hidden best numbers lose, on the mean. */
  readonly least: number;
  readonly estimated: ErrorMeasured;
  /** Of the mean of past settings, of the settings of the best past run, and of the book. */
  readonly mean: ErrorMeasured;
  readonly bestRun: ErrorMeasured;
  readonly book: ErrorMeasured;
  /** Worlds in which it lost less than the mean of past settings. */
  readonly better: number;
  /** Of the ranges that were told, how many held the hidden best number; and how many were told, of how many adjustments. */
  readonly holds: number;
  readonly ranges: number;
  readonly adjustments: number;
}

/** Numbers that were said to be so sure. */
export interface SurenessMeasured {
  readonly count: number;
  /** By which the stations lose no more than a tenth beyond the least, and how much on the mean; undefined where there were none. */
  readonly right: number | undefined;
  readonly beyond: number | undefined;
  readonly holds: number | undefined;
}

export interface SetpointsMeasured {
  readonly worlds: number;
  readonly after: readonly AfterMeasured[];
  readonly sureness: Readonly<
    Record<'sure' | 'fairlySure' | 'thin' | 'cannotSay' | 'neverVaried', SurenessMeasured>
  >;
  /** Adjustments that were rightly named to move with another, not named though they did, and named wrongly. */
  readonly together: {
    readonly named: number;
    readonly missed: number;
    readonly wrongly: number;
    readonly of: number;
  };
}
