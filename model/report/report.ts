import type { PastChangeover } from '../past/changeover.ts';
import type { SeenTime, StationRef } from '../past/past.ts';
import type { PastUse } from '../past/safetyPast.ts';
import type { PastStop } from '../past/stopsPast.ts';
import type { EpochMs, Millis } from '../units/units.ts';
import type { LossPart } from '../view/view.ts';
import type { FigureValue } from '../figures/figureValues.ts';
import type { ReportKind } from './reportPeriod.ts';
import type { ReportStation } from './reportStations.ts';
import type { ReportStrip } from './reportStrip.ts';

/**
 * One page that a person hands over with: what a shift, week, month, order or size made, lost and waited for. It is made of
 * records by the functions that the screens use, so it says the same; once signed it stays as it was.
 */
export interface Report {
  /** Of this form; a later form of pages is another number. */
  readonly format: 1;
  readonly line: { readonly id: string; readonly name: string; readonly product: string };
  readonly zone: string;
  readonly kind: ReportKind;
  /** Name of the shift; of the size that the report is of; number of the order. */
  readonly shift: string | undefined;
  readonly size: string | undefined;
  readonly order: string | undefined;
  readonly from: EpochMs;
  readonly to: EpochMs;
  /** It ends now, and goes on. */
  readonly goesOn: boolean;
  /** Names of the sizes that ran, in the order of the line's file. */
  readonly sizes: readonly string[];
  readonly seen: SeenTime;
  readonly figures: readonly FigureValue[];
  /** Only of whole shifts, by which it is kept. */
  readonly lost: ReportLost | undefined;
  readonly strip: ReportStrip;
  readonly stations: readonly (ReportStation & {
    readonly station: StationRef;
    /** Rejects that are likely its own, whatever station they are charged to: an estimate; undefined of a part of what ran. */
    readonly laid: number | undefined;
    readonly lost: number | undefined;
    readonly stops: number;
    readonly stood: Millis;
  })[];
  readonly stops: ReportStops;
  readonly safety: {
    readonly list: readonly PastUse[];
    readonly uses: number;
    readonly caused: number;
    /** Readings of a guard open or a device pressed while the line ran, and of those how many nobody explained. */
    readonly ranOn: number;
    readonly notExplained: number;
  };
  readonly changeovers: readonly PastChangeover[];
  readonly moreChangeovers: number;
  /** What nobody saw, the longest of it, in order. */
  readonly unseen: readonly { readonly from: EpochMs; readonly to: EpochMs }[];
  readonly moreUnseen: number;
  readonly notes: readonly ReportNote[];
  readonly moreNotes: number;
  readonly handedOver: readonly {
    readonly order: string;
    readonly counted: number | undefined;
    readonly handedOver: number;
  }[];
  /** Version of the model that made it, position of the tape up to which all is in it, and when. */
  readonly model: string;
  readonly position: number;
  readonly made: EpochMs;
}

export interface ReportLost {
  readonly possible: number;
  readonly total: number;
  /** Largest first; with `possible` and good they add up without a rest. */
  readonly causes: readonly LossPart[];
  readonly none: number;
}

export interface ReportStops {
  /** In the order in which they began: of more than so many, the longest. Of longer periods than a shift there is none. */
  readonly list: readonly PastStop[];
  readonly more: { readonly stops: number; readonly stood: Millis };
  /** Those that went on from before it: they are none of its stops. */
  readonly carried: { readonly stops: number; readonly stood: Millis };
  /** By first fault, those that stood longest first. */
  readonly rows: readonly {
    readonly id: string;
    readonly name: string | undefined;
    readonly station: StationRef | undefined;
    readonly kind: PastStop['kind'];
    readonly stops: number;
    readonly stood: Millis;
  }[];
  readonly moreRows: { readonly rows: number; readonly stops: number; readonly stood: Millis };
}

export interface ReportNote {
  readonly at: EpochMs;
  readonly words: string;
  /** Name of a position, a screen, or a person's number. */
  readonly by: string;
  /** The moment that it is about, where it has one of its own. */
  readonly about?: EpochMs;
}

/** A signature: who, when, as what, and what they added. */
export interface Signature {
  readonly id: string;
  readonly at: EpochMs;
  readonly person: string;
  readonly as: SignedAs;
  readonly words: string | undefined;
}

export const SIGNED_AS = ['handsOver', 'takesOver', 'seen'] as const;
export type SignedAs = (typeof SIGNED_AS)[number];

/** A report as it is now known and, where somebody signed it, as it was then. */
export interface ReportAnswer {
  readonly now: Report;
  /** Of what the page says: who signs says by it which page was read. */
  readonly mark: string;
  readonly signed: SignedReport | undefined;
  /** What is known otherwise since it was signed, and why. */
  readonly since: ReportDifferences;
}

export interface SignedReport {
  /** Undefined where this version cannot read the page any more; then `page` is all of it, as it is on the tape. */
  readonly report: Report | undefined;
  readonly page: string | undefined;
  readonly mark: string;
  readonly signatures: readonly Signature[];
}

export interface ReportDifferences {
  readonly figures: readonly ReportDifference[];
  readonly parts: readonly ReportPart[];
  /** Why; undefined where nothing differs. newModel: it is worked out by another version. otherLine: the line's file changed. laterData: something came on the tape after it. */
  readonly why: 'newModel' | 'otherLine' | 'laterData' | undefined;
}

export const REPORT_PARTS = [
  'stops',
  'stations',
  'safety',
  'changeovers',
  'unseen',
  'notes',
  'lost',
] as const;
/** A part of the page other than its figures. */
export type ReportPart = (typeof REPORT_PARTS)[number];

export interface ReportDifference {
  readonly figure: FigureValue['id'];
  readonly was: number | undefined;
  readonly is: number | undefined;
}
