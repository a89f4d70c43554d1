import { clockText } from '../export/clockText.ts';
import type { ColumnName, ExportTable } from '../export/columns.ts';
import { count } from './format.ts';

const whole = (n: number) => count(n, 'en-GB');

const tables: Readonly<Record<ExportTable, { readonly name: string; readonly about: string }>> = {
  changes: {
    name: 'Signal changes',
    about:
      'Every change of every signal as it stands on the tape, in order of arrival; entries of people are among them.',
  },
  stops: { name: 'Stops', about: 'Each time the line left production.' },
  presses: { name: 'Stop devices', about: 'Each press of a stop device, and what followed.' },
  changeovers: { name: 'Changeovers', about: 'Each change of size, artwork or blend, and each start-up.' },
  runs: { name: 'Runs', about: 'Each run of one carton size, with what was counted in it.' },
  minutes: {
    name: 'Minutes',
    about: 'What each counter gained in production in each minute in which something was told.',
  },
  gaps: { name: 'Gaps', about: 'Each time in which nobody was looking, or the PLC was not heard.' },
  notices: { name: 'Notices', about: 'Each notice, with what it stands on and how it ended.' },
  entries: {
    name: 'Entries',
    about: 'What people and programs entered, as it counts now and as it was said first.',
  },
  setPoints: {
    name: 'Set points',
    about: 'What sensors and people told of where adjustments stand, re-zeroing, and approved book numbers.',
  },
};

type Definitions = { readonly [Table in ExportTable]: Readonly<Record<ColumnName<Table>, string>> };

/** `2026-03-16T0600`, by the line's clock. */
function stamp(ms: number, zone: string): string {
  return clockText(ms, zone).slice(0, 16).replace(':', '');
}

const size = 'Carton size that ran then.';
const by = 'Number of the person, or id of the loading position, screen or file; never a name.';

const columns: Definitions = {
  changes: {
    position: 'Place on the tape: the change after so many others; below 0 in a history brought in before.',
    signal: 'Id of the signal.',
    role: 'What the signal means to Scoreline; empty for a signal that the line’s file has no more.',
    meaning: 'Station, device, guard, reason, adjustment or condition that it is of.',
    unit: 'Unit of its numbers; empty where they have none.',
    line_time: 'When it happened: the PLC’s time where that is trusted, else when it was received.',
    line_time_ticks: 'The same, exactly.',
    received: 'When the gateway received it.',
    received_ticks: 'The same, exactly.',
    status_code: 'OPC UA status code (OPC 10000-4).',
    quality:
      'good, uncertain or bad, by the status code; the value of a bad one says only that it is unknown.',
    value_number: 'The value, where it is a number.',
    value_text: 'The value, where it is text; of an entry, its JSON.',
    value_truth: 'The value, where it is true or false.',
    value_means: 'What the number means, where the line’s file says so: a state, a reason, a size.',
  },
  stops: {
    stop: 'Id of the stop.',
    began: 'When the pace-setting machine left production.',
    ended: 'When it returned to it; empty while it goes on.',
    end_seen: 'Whether the end was seen; false: it ended then or later, while nobody was looking.',
    lasted_s: 'From its beginning to its end.',
    class: 'What its time counts as: stopped, starved, blocked, safety, changeover or pause.',
    kind: 'Kind of its first fault, as the line’s file says; empty while none is known.',
    reason_number: 'Number of its first fault as the PLC gave it; empty while none is known.',
    first_fault: 'What the line’s file calls that number.',
    station: 'Station of the first fault; empty where it belongs to none.',
    station_id: 'The same, as its id.',
    known_from: 'Whether the state tag told it, or it was derived from cycles.',
    said_reason: 'Id of the answer that a person gave.',
    said_words: 'What the person wrote with it.',
    said_cause: 'Cause as people say beside the PLC, as JSON: parts by time with station and class.',
    said_by: by,
    episode: 'Id of the first stop of an episode of tries.',
    try_number: 'Which try of its episode it is, from 1.',
    cartons_since_restart: 'Cartons at discharge between the restart before and this stop.',
    last_good_before: 'Last good carton before it.',
    first_good_after: 'First good carton after it, which ends the output pause.',
    lost_cartons: 'Cartons lost to it by its output pause, not rounded; empty while that is open.',
    size,
    order: 'Number of the order that ran then.',
  },
  presses: {
    press: 'Id of the press.',
    device: 'The stop device.',
    device_id: 'The same, as its id.',
    device_kind: 'button, or circuit: several in series behind one bit.',
    pressed: 'When it was pressed; where it was found pressed, when that was seen first.',
    released: 'When it was unlatched.',
    reset: 'When it was reset.',
    restarted: 'When the line produced again.',
    first_good_after: 'First good carton after it.',
    role: 'caused the stop, used during one, or uncertain.',
    known_by: 'edge: seen; count: its counted twin alone moved; found: it read pressed at the first look.',
    stop: 'Id of the stop it belongs to.',
    said_button: 'Which button of a circuit it was, as a person said.',
  },
  changeovers: {
    kind: 'size, artwork (or blend: line clearance) or startUp.',
    began: 'When it began.',
    from_size: 'Size before it.',
    to_size: 'Size after it.',
    trial_began: 'When trial cartons began.',
    production_back: 'When the line was back in production.',
    first_good: 'First good carton after it.',
    at_rate: 'When good cartons came at rate again.',
    ended: 'When it was over; empty while it goes on.',
    lasted_s: 'From its beginning to its end.',
    trial_cartons: 'Trial cartons made in it: neither good nor rejects.',
  },
  runs: {
    size: 'Carton size.',
    size_id: 'The same, as its id.',
    lot: 'Lot of board when it began, where the PLC told it.',
    began: 'When cartons of this size began.',
    ended: 'When those of the next one did; empty while it goes on.',
    counted_until: 'Up to when its counts are: its end, or of one that goes on the newest minute.',
    good_cartons: 'Good cartons.',
    rejected_cartons: 'Cartons rejected at discharge, without those that were not loaded.',
    crushed_cartons: 'Cartons crushed in jams.',
    missed_picks: 'Cycles in which no blank came.',
    not_loaded_pockets: 'Pockets left without product, as counted at the loading positions.',
  },
  minutes: {
    began: 'When the minute began.',
    ended: 'When it ended.',
    counted_since:
      'Since when the gains are: the minute’s beginning, or earlier where nothing was told between, as in a gap.',
  },
  gaps: {
    began: 'Since when nobody knows what the line did.',
    ended: 'Until when; empty while it lasts.',
    lasted_s: 'From its beginning to its end.',
    kind: 'unknown, or isolated: it stood, inferred from counters.',
  },
  notices: {
    notice: 'Id of the notice.',
    kind: 'What it is about.',
    level: 'How urgent it is.',
    about: 'Exactly what it is about: there is one open notice for each.',
    raised: 'When it was raised.',
    since: 'Since when what it says has been so.',
    station: 'The station.',
    station_id: 'The same, as its id.',
    size,
    stop: 'Id of the stop that was open, or the newest one.',
    taken: 'When somebody took it.',
    taken_by: by,
    back_to_normal: 'When what it says was over.',
    ended: 'When it ended; empty while it has not.',
    ended_how: 'How it ended, or where it stands: raised, taken, returned, shelved.',
    found: 'What was found, as answered.',
    done: 'What was done, as answered.',
    said_words: 'What was written with it.',
    said_by: by,
    facts: 'The numbers behind it, as JSON; times in milliseconds.',
  },
  entries: {
    entry: 'Id of the entry.',
    line_time: 'Where it stands in line time.',
    kind: 'What kind of entry it is.',
    by_kind: 'Who: person, position, screen, file, or itself for Scoreline.',
    by,
    said: 'What counts now, as JSON; the page of a signed report is left out.',
    corrections: 'How often it was corrected.',
    withdrawn: 'Whether it was withdrawn.',
    said_first: 'What was said first, where it was corrected.',
  },
  setPoints: {
    line_time: 'When it was said, or a sensor’s move was over.',
    adjustment: 'Number of the adjustment on the machine.',
    adjustment_name: 'Its name.',
    station: 'Its station.',
    unit: 'Unit of its scale.',
    event:
      'sensor, typed, readBack or confirmed (as the book’s): where it stands; reZeroed or replaced: a new datum; offset between datums; book: approved for a size.',
    value: 'The number; empty where a new datum begins, or a book number was taken back.',
    before: 'What its sensor or scale read before.',
    moving_since: 'When a sensor saw the move begin.',
    datum: 'Datum of a sensor’s number, or the one that an offset is from.',
    size: 'Size that a book number is for.',
    by,
    words: 'What was written with it.',
  },
};

/** What is told of exported tables, and the troubles of it. */
export const exportWords = {
  tables,
  columns,
  gained: (signal: string, unit: string) => `What ${signal} gained in production, in ${unit}.`,
  about: {
    period: 'Rows are those whose beginning lies in [from, to) of line time: periods side by side add up.',
    unread: 'Positions under “unread” are damaged on the disk: their changes are not among the rows.',
    missing: 'What is not known, or does not exist, is empty (null); it is never 0.',
    csv: 'UTF-8, comma, CR LF, quotes as in RFC 4180. Moments are ISO 8601 by the line’s clock with their offset, to the millisecond. Text that a spreadsheet would take for a formula has an apostrophe before it.',
    parquet:
      'Moments are microseconds since 1970 in UTC (TIMESTAMP, isAdjustedToUTC). This text stands in the key-value metadata of each file.',
    people: 'People stand by their numbers alone.',
  },
  folding: 'Working the past out of the tape',
  made: (folder: string) =>
    `The files stand in ${folder}, with definitions.json beside them, which says what each column is:`,
  madeTable: (file: string, rows: number) => `  ${file}  ${whole(rows)} rows`,

  jobs: {
    tooMany: (most: number) => ({
      what: 'Too many exports at once.',
      why: `${most} are being made already, and the line comes first.`,
      mend: 'Wait until one of them is done, or end it.',
    }),
    unknown: {
      what: 'There is no such export.',
      why: 'It was never asked for here, or it is gone: files are kept for a day, and not beyond a restart.',
      mend: 'Start it anew.',
    },
    notDone: {
      what: 'The export is not done.',
      why: 'Its file is there only when all of it is.',
      mend: 'Wait for it, or look at how far it is.',
    },
    noPast: {
      what: 'There is nothing derived yet.',
      why: 'Stops, runs and the like are worked out of the tape in the background, for the first time.',
      mend: 'Wait until the screens show the past, or export signal changes alone.',
    },
    tableTwice: 'A table is named twice.',
    fileName: (line: string, from: number, to: number, zone: string) =>
      `${line}_${stamp(from, zone)}_${stamp(to, zone)}.zip`,
    describe: {
      list: 'Exports of the line that run or can be fetched, the newest first.',
      start: 'Starts an export of a period, half open, by line time; it goes on beside the line.',
      one: 'How far an export is.',
      cancel: 'Ends an export that runs, or drops its file.',
      file: 'The files of an export that is done, and what their columns mean, as one ZIP file.',
    },
  },

  /** The form on a screen. */
  form: {
    title: 'Export',
    lead: 'Tables of a period as files, with each column’s unit and definition.',
    from: 'From',
    to: 'To, no more part of it',
    tables: 'Tables',
    format: 'Format',
    formats: { csv: 'CSV', parquet: 'Parquet' },
    csvFor: 'for spreadsheets; large for signal changes',
    parquetFor: 'for analysis programs; a fifth of the size',
    zone: (zone: string) => `Times are by the line’s clock, ${zone}.`,
    people: 'People stand by their numbers; what they typed stands as they typed it.',
    start: 'Start the export',
    starting: 'Starting …',
    noTables: 'Choose at least one table.',
    noPeriod: 'The end has to lie after the beginning.',
    running: (table: string | undefined, rows: number, percent: number) =>
      `${percent} % · ${table === undefined ? 'beginning' : table} · ${whole(rows)} rows`,
    done: (rows: number, bytes: number) =>
      `Done: ${whole(rows)} rows, ${bytes < 1e6 ? `${Math.ceil(bytes / 1e3)} kB` : `${(bytes / 1e6).toFixed(1)} MB`}`,
    cancelled: 'Ended by somebody; nothing of it is kept.',
    failed: (what: string, why: string, mend: string) => `${what} ${why} ${mend}`,
    failedUnsaid: 'It failed; the log of the gateway says why.',
    fetch: 'Fetch the files',
    cancel: 'End it',
    drop: 'Drop the file',
    period: (from: string, to: string) => `${from} – ${to}`,
    kept: 'Files are kept for a day, and not beyond a restart.',
    noAnswer: 'The gateway does not answer. Try again.',
  },

  usage: [
    'npm start -- export FOLDER [options]',
    '',
    'Writes a period as files into FOLDER: one for each table, and definitions.json, which says what each column is, its unit,',
    'the model’s version, the period, its zone and the tape’s positions. While Scoreline runs or not; it only reads.',
    '',
    '  --from MOMENT    its beginning: 2026-03-16, 2026-03-16T06:00 by the line’s clock, or with a zone, 2026-03-16T05:00Z;',
    '                   the beginning of the tape unless said',
    '  --to MOMENT      its end, which is no more part of it; the end of the tape unless said',
    '  --tables A,B     which of: TABLES; all but changes unless said',
    '  --format FORMAT  csv (unless said) or parquet',
    '  --line FILE      the line’s file; without it the demo line',
    '  --data DIR       the data folder; ./data, for the demo ./data/demo, unless said',
    '  --help           this text',
    '',
    'Ctrl-C ends it and leaves nothing. Exit code: 0 done, 1 trouble, 130 ended by somebody.',
  ].join('\n'),
  oneFolder: 'exactly one folder for the files is needed',
  badTable: (name: string, tables: readonly string[]) =>
    `“${name}” is none of the tables ${tables.join(', ')}`,
  badFormat: (name: string) => `--format is csv or parquet, not “${name}”`,
  badMoment: (option: string, text: string) =>
    `${option} takes a date or a moment, such as 2026-03-16 or 2026-03-16T06:00, not “${text}”`,
  emptyPeriod: 'the period has no length: --to is not after --from',
  notOnTape: (line: string) => `The tape knows no line “${line}”.`,
  notOnTapeWhy: 'Nothing of it was ever recorded in this data folder.',
  notOnTapeMend: 'Give its line file with --line FILE and its folder with --data DIR.',

  tooLarge: 'The files would be too large for one export from a screen.',
  tooLargeWhy: (bytes: number) => `It may have ${whole(Math.floor(bytes / 1e6))} MB.`,
  tooLargeMend: 'Take a shorter period or fewer tables, or use the command: npm start -- export.',
} as const;
