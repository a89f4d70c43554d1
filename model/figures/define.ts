/** What a figure is, beside its words: in what unit it is, how good it is, what it is made of and where that is looked up. */
export interface FigureDefinition {
  readonly unit: FigureUnit;
  readonly kind: FigureKind;
  /** Other figures that it is worked out of. */
  readonly from: readonly string[];
  /** What of the record it stands on, where a person can look it up. */
  readonly records: readonly FigureRecord[];
  /** The rule of SPEC.md; undefined for what is read and shown as it is. */
  readonly rule?: string;
}

export type FigureUnit =
  | 'cartons'
  | 'minutes'
  | 'duration'
  | 'share'
  | 'perMinute'
  | 'perThousand'
  | 'times'
  | 'moment'
  | 'reading';

/**
 * counted: by the PLC's counters, exactly. timed: between moments that the PLC or the calendar gives. derived: arithmetic
 * of such, as exact as they are. estimate: it could have come out otherwise, so it has a range or says how sure it is.
 * set: somebody chose it. read: shown as a tag has it.
 */
export type FigureKind = 'counted' | 'timed' | 'derived' | 'estimate' | 'set' | 'read';

/** Where what a figure stands on is looked up. */
export type FigureRecord =
  | 'counters'
  | 'stops'
  | 'presses'
  | 'guards'
  | 'changeovers'
  | 'gaps'
  | 'calendar'
  | 'lineFile'
  | 'entries'
  | 'orders'
  | 'signals';

export const counted = (rule: string, from: readonly string[] = []) =>
  ({ unit: 'cartons', kind: 'counted', from, records: ['counters'], rule }) as const;
export const time = (rule: string, records: readonly FigureRecord[], from: readonly string[] = []) =>
  ({ unit: 'minutes', kind: 'timed', from, records, rule }) as const;
export const derived = (
  unit: FigureUnit,
  from: readonly string[],
  rule?: string,
  records: readonly FigureRecord[] = [],
) => ({ unit, kind: 'derived', from, records, ...(rule === undefined ? {} : { rule }) }) as const;
export const lasted = (records: readonly FigureRecord[], rule: string, from: readonly string[] = []) =>
  ({ unit: 'duration', kind: 'timed', from, records, rule }) as const;
export const moment = (records: readonly FigureRecord[], rule: string) =>
  ({ unit: 'moment', kind: 'timed', from: [], records, rule }) as const;
export const times = (records: readonly FigureRecord[], rule: string, from: readonly string[] = []) =>
  ({ unit: 'times', kind: 'counted', from, records, rule }) as const;
/** What runs of a size teach of a numbered adjustment. */
export const learned = (unit: FigureUnit, from: readonly string[]) =>
  ({ unit, kind: 'estimate', from, records: ['counters', 'stops', 'entries'], rule: 'SP8' }) as const;
