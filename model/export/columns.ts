/** What a cell holds. A moment is in ticks (`Instant`), and written as the file's format has moments. */
export type ColumnKind = 'moment' | 'whole' | 'number' | 'text' | 'truth';
/** Null: not known, or there is none. Never 0 in its place. */
export type Cell = number | string | boolean | null;

export interface Column {
  readonly name: string;
  readonly kind: ColumnKind;
  /** In words of the trade; undefined for what has none. */
  readonly unit?: string;
  /** A whole sentence. */
  readonly definition: string;
}

/** What can be exported: every change as it stands on the tape, and what is derived from them. */
export const EXPORT_TABLES = [
  'changes',
  'stops',
  'presses',
  'changeovers',
  'runs',
  'minutes',
  'gaps',
  'notices',
  'entries',
  'setPoints',
] as const;
export type ExportTable = (typeof EXPORT_TABLES)[number];

const moment = { kind: 'moment' } as const;
const text = { kind: 'text' } as const;
const truth = { kind: 'truth' } as const;
const number = { kind: 'number' } as const;
const whole = { kind: 'whole' } as const;
const seconds = { kind: 'number', unit: 's' } as const;
const cartons = { kind: 'whole', unit: 'cartons' } as const;
const pockets = { kind: 'whole', unit: 'pockets' } as const;
const cycles = { kind: 'whole', unit: 'machine cycles' } as const;
const ticks = { kind: 'whole', unit: '100 ns since 2020-01-01T00:00:00Z' } as const;

type Shape = Readonly<Record<string, Omit<Column, 'name' | 'definition'>>>;

/** The columns of each table, in order; those of `minutes` go on with one for each counter of the line. */
export const COLUMNS = {
  changes: {
    position: whole,
    signal: text,
    role: text,
    meaning: text,
    unit: text,
    line_time: moment,
    line_time_ticks: ticks,
    received: moment,
    received_ticks: ticks,
    status_code: whole,
    quality: text,
    value_number: number,
    value_text: text,
    value_truth: truth,
    value_means: text,
  },
  stops: {
    stop: text,
    began: moment,
    ended: moment,
    end_seen: truth,
    lasted_s: seconds,
    class: text,
    kind: text,
    reason_number: whole,
    first_fault: text,
    station: text,
    station_id: text,
    known_from: text,
    said_reason: text,
    said_words: text,
    said_cause: text,
    said_by: text,
    episode: text,
    try_number: whole,
    cartons_since_restart: cartons,
    last_good_before: moment,
    first_good_after: moment,
    lost_cartons: { kind: 'number', unit: 'cartons' },
    size: text,
    order: text,
  },
  presses: {
    press: text,
    device: text,
    device_id: text,
    device_kind: text,
    pressed: moment,
    released: moment,
    reset: moment,
    restarted: moment,
    first_good_after: moment,
    role: text,
    known_by: text,
    stop: text,
    said_button: text,
  },
  changeovers: {
    kind: text,
    began: moment,
    from_size: text,
    to_size: text,
    trial_began: moment,
    production_back: moment,
    first_good: moment,
    at_rate: moment,
    ended: moment,
    lasted_s: seconds,
    trial_cartons: cartons,
  },
  runs: {
    size: text,
    size_id: text,
    lot: text,
    began: moment,
    ended: moment,
    counted_until: moment,
    good_cartons: cartons,
    rejected_cartons: cartons,
    crushed_cartons: cartons,
    missed_picks: cycles,
    not_loaded_pockets: pockets,
  },
  minutes: { began: moment, ended: moment, counted_since: moment },
  gaps: { began: moment, ended: moment, lasted_s: seconds, kind: text },
  notices: {
    notice: text,
    kind: text,
    level: text,
    about: text,
    raised: moment,
    since: moment,
    station: text,
    station_id: text,
    size: text,
    stop: text,
    taken: moment,
    taken_by: text,
    back_to_normal: moment,
    ended: moment,
    ended_how: text,
    found: text,
    done: text,
    said_words: text,
    said_by: text,
    facts: text,
  },
  entries: {
    entry: text,
    line_time: moment,
    kind: text,
    by_kind: text,
    by: text,
    said: text,
    corrections: whole,
    withdrawn: truth,
    said_first: text,
  },
  setPoints: {
    line_time: moment,
    adjustment: text,
    adjustment_name: text,
    station: text,
    unit: text,
    event: text,
    value: number,
    before: number,
    moving_since: moment,
    datum: whole,
    size: text,
    by: text,
    words: text,
  },
} as const satisfies Readonly<Record<ExportTable, Shape>>;

export type ColumnName<Table extends ExportTable> = keyof (typeof COLUMNS)[Table] & string;
export type Row<Table extends ExportTable> = Readonly<Record<ColumnName<Table>, Cell>>;
