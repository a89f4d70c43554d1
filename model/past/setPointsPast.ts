import type { Author } from '../entries/entries.ts';
import type { DatumWhy } from '../entries/sheetEntries.ts';
import type { SaidHow } from '../fold/settingRecords.ts';
import type { CostAt, Sureness, Teaches } from '../setpoints/estimate.ts';
import type { EpochMs } from '../units/units.ts';
import type { AdjustmentScale } from './adjustmentsNow.ts';
import type { StationRef } from './past.ts';

/** [BK2] The set-point book of one size: for each adjustment its number, how it stands, and what runs taught of it. */
export interface SetPointsPast {
  readonly size: { readonly id: string; readonly name: string };
  readonly sizes: readonly { readonly id: string; readonly name: string }[];
  /** This size runs now: numbers are how it stands, else how it stood at the end of its newest run at rate. */
  readonly runs: 'now' | 'before' | 'never';
  /** What the book was learned from. */
  readonly from: {
    readonly runs: number;
    readonly since: EpochMs | undefined;
    readonly lots: readonly string[];
    readonly parts: readonly string[];
    readonly cartons: number;
  };
  readonly rows: readonly SetPointRow[];
  readonly sums: SetPointSums;
}

/** What the heading says. */
export interface SetPointSums {
  readonly adjustments: number;
  /** Known to stand off the book now, and of those the ones where nobody has tried before. */
  readonly off: number;
  readonly neverTried: number;
  readonly silent: number;
  /** Only confirmed as the book's, and not read since. */
  readonly confirmed: number;
  readonly unknown: number;
}

export interface SetPointRow {
  readonly number: string;
  readonly name: string;
  readonly unit: string;
  readonly decimals: number;
  readonly min: number;
  readonly max: number;
  readonly station: StationRef;
  readonly drawing: string;
  readonly book: number | undefined;
  /** Who approved it and when; undefined where the line's file says it. */
  readonly approved: Approval | undefined;
  readonly stands: Stands;
  readonly datum: { readonly number: number; readonly since: EpochMs; readonly why: DatumWhy } | undefined;
  readonly scale: AdjustmentScale;
  /** Undefined where no run of this size tells anything. */
  readonly learned: Learned | undefined;
}

export interface Approval {
  readonly value: number | undefined;
  readonly at: EpochMs;
  readonly author: Author;
  readonly why: string;
  readonly seen: string | undefined;
}

export interface Stands {
  readonly value: number | undefined;
  readonly known: 'sensor' | 'uncertain' | SaidHow | 'silent' | 'none';
  readonly at: EpochMs | undefined;
  /** Less the book, on the scale. */
  readonly off: number | undefined;
  /** Where it stands off its book: whether anybody ran it there, and how. */
  readonly tried: 'well' | 'badly' | 'never' | undefined;
}

/** [BK2] What the runs of a size taught of one adjustment. */
export interface Learned {
  readonly recommended: number | undefined;
  /** Holds the best number in nine cases of ten, as measured. */
  readonly likely: Range | undefined;
  readonly ranWell: Range | undefined;
  readonly sure: Sureness;
  readonly runs: number;
  readonly settings: number;
  readonly lots: number;
  /** One for each distinct setting, in order of the scale: runs that had it. */
  readonly marks: readonly { readonly at: number; readonly runs: number }[];
  /** Rejects and stops of the stations it acts on, with what lies between runs. */
  readonly rejects: Spread | undefined;
  /** What a deviation costs, where it was tried or little beyond. */
  readonly cost: readonly CostAt[];
  /** Adjustments that always moved with it: which of them it was cannot be told. */
  readonly together: readonly string[];
  /** The small change that would teach most. */
  readonly teaches: Teaches | undefined;
}

export interface Range {
  readonly from: number;
  readonly to: number;
}

/** In 1,000 cartons, with 95 % limits from the spread between runs; no limits for a single run. */
export interface Spread {
  readonly mean: number;
  readonly low: number | undefined;
  readonly high: number | undefined;
}

/** One adjustment of a size, opened: its whole history. */
export interface SetPointOpened {
  readonly row: SetPointRow;
  /** The newest first. */
  readonly approvals: readonly Approval[];
  readonly datums: readonly {
    readonly datum: number;
    readonly at: EpochMs;
    readonly why: DatumWhy;
    readonly words: string | undefined;
    readonly author: Author;
    readonly offset: number | undefined;
  }[];
  /** Run by run, the newest first: where it stood, and what the stations it acts on made of it. */
  readonly runs: readonly SetPointRun[];
}

export interface SetPointRun {
  readonly from: EpochMs;
  readonly to: EpochMs;
  readonly value: number | undefined;
  readonly known: 'sensor' | 'typed' | 'confirmed' | undefined;
  /** [SP10] What its scale read when somebody looked: the same where it was left so, another where it was moved from there. */
  readonly found: number | undefined;
  readonly datum: number;
  readonly lot: string | undefined;
  readonly parts: string | undefined;
  readonly cartons: number;
  readonly rejectsPerThousand: number | undefined;
  readonly stops: number;
}
