import type { AttributionRecord } from '../attribution/attribution.ts';
import type { Shift } from '../calendar/calendar.ts';
import type { Author } from '../entries/entries.ts';
import type { CausePart, Corrected, CorrectableEntry } from '../entries/saidEntries.ts';
import type { Order, StopKind } from '../line/line.ts';
import type { NoticeRecord } from '../notices/notice.ts';
import type { NoticeSettings } from '../notices/settings.ts';
import type { Value } from '../signals/signals.ts';
import type { EpochMs, Instant, Span } from '../units/units.ts';
import type { Pocket } from '../view/view.ts';
import type { Account } from './account.ts';
import type { CreepRecord } from './creep.ts';
import type { FlowRecord } from './flow.ts';
import type {
  BookRecord,
  DatumRecord,
  MoveRecord,
  RanAtRecord,
  SettingRecord,
  FittedRecord,
  SheetBefore,
  SheetRecord,
} from './settingRecords.ts';

/**
 * What the fold knows of a line: plain data that JSON keeps whole. It is changed in place, only by the files of this
 * folder, only while a change is stepped; every list in it is bounded.
 */
export interface FoldState {
  /** Line time and signal of the newest change stepped; −1 before the first. */
  at: Instant;
  signal: number;
  /** Newest line time at which the PLC was heard. */
  heardAt: Instant;
  /** How far line time was ahead of the gateway's clock, by server, when it last said that it hears it. Milliseconds. */
  leads: Record<string, number>;
  /** Last value of each signal, also while it is unknown; null before the first. */
  values: Value[];
  /** Per signal: 0 unknown or bad, 1 good, 2 uncertain. */
  known: number[];
  ats: Instant[];

  /** Whether it is known yet if the line produces. */
  judged: boolean;
  producing: boolean;
  /** Since when it produces, or does not. */
  since: Instant;
  /** When it last began to produce. */
  ranSince: Instant;
  /** Without a state tag: moment of the last cycle. */
  lastCycle: Instant;
  /** When the pace-setting machine's server last told a value; its heartbeat is one. */
  spokeAt: Instant;
  lastGood: Instant;
  /** Cartons that reached discharge since the last return to production. */
  cartonsSinceRestart: number;

  size: string | null;
  /** [SP1] From when on what people say of adjustments is of the size that runs: it began, or its sheet before it. */
  setSince: Instant;
  crew: number;
  /** [EN1] The entry that says so, and how many it was before; null where a tag or an order says it. */
  crewSaid: { entry: string; before: number } | null;
  /** [EN4] Targets that people entered: by size and crew, the newest alone; null as the line's file says. */
  targets: TargetRecord[];
  /** [SP4] Lots of board and change parts, as people said and the PLC told: the newest of each, oldest first. */
  fitted: FittedRecord[];
  order: string | null;
  orderNext: string | null;
  orders: OrderRecord[];

  shift: ShiftRecord;
  /** Newest last; the open stop is the last one. Those of this shift, and some before it. */
  stops: StopRecord[];
  /** Newest last, as with stops. */
  presses: PressRecord[];
  /** Per device: presses seen since its counted twin last moved. */
  edgesSinceTwin: number[];
  changeover: ChangeoverRecord | null;
  lastChangeover: ChangeoverRecord | null;
  changeovers: { kind: ChangeoverKind; from: string | null; to: string | null; lasted: Span }[];
  gap: GapRecord | null;
  /** The newest gap that is over: a counter that is told only later may still bring what it counted in it. */
  lastGap: EndedGap | null;
  /** Good cartons of production since the changeover's production returned, newest last; only while it lasts. */
  goodsInRunUp: Instant[];

  /** What each counter counted in production since the line was first heard: by place in the index's list of them. */
  tally: number[];
  /** [BA1] Null where the line has no counter of blanks, cycles or good cartons. */
  flow: FlowRecord | null;
  /** [AT1] Which stations may have spoiled the rejected cartons, as is estimated. */
  attribution: AttributionRecord;
  /** When the minute of the newest change ends. */
  minuteUntil: Instant;

  /** What came at each pocket lately, oldest first. */
  outcomes: { at: Instant; pocket: Pocket }[];
  /** Per loading position: ordinals (cycles at loading) of pockets not loaded there lately. */
  notLoaded: { total: number; at: number[] }[];
  loadingPockets: number;
  /** Cartons at discharge since the run began, good or not. */
  runCartons: number;
  /** All cartons ever at discharge, by size. */
  cartonsBySize: Record<string, number>;
  stations: StationRecord[];
  happenings: HappeningRecord[];
  answers: { day: number; station: string; answer: string; times: number }[];
  /** [PS5] What reads open or pressed now, and how long the line ran on meanwhile. */
  watched: WatchRecord[];
  /** Findings that nobody has closed, oldest first. */
  open: OpenMatter[];
  /** Findings that the list above had no room for, until a person closes them. */
  openDropped: number;
  counterMarks: { signal: number; at: Instant; mark: 'reset' | 'set' | 'correction' | 'implausible' }[];
  going: { stop: string; at: Instant; author: Author } | null;
  /** [NL1] Notices, oldest first: all that are open, and the newest that have ended. */
  notices: NoticeRecord[];
  /** What holds now, by key, and which notice speaks for it: also one that a person closed meanwhile. */
  noticeKeys: Record<string, string>;
  /** How notices are raised and whom they reach; null as long as nobody has set it. */
  noticeSettings: { settings: NoticeSettings; at: Instant; by: Author; why: string } | null;
  notes: {
    id: string;
    at: Instant;
    author: Author;
    words: string;
    stop: string | null;
    /** [RP21] The moment that it is about, where it has one of its own. */
    about?: EpochMs;
  }[];
  /** [EN1] What people said lately and can correct, oldest first, each with its corrections. */
  said: SaidRecord[];
  entryIds: string[];
  /** [SP1] Of each adjustment the newest that people said; [SP5] of each sensor the newest move. */
  settings: SettingRecord[];
  moves: MoveRecord[];
  /** [WL1] Of each sensor that has gone from where hands left it while the line ran. */
  creeps: CreepRecord[];
  /** [SP3] Oldest first for each adjustment; an adjustment that is not in it has its first datum. */
  datums: DatumRecord[];
  /** [BK1] One for each size and adjustment at most. */
  book: BookRecord[];
  /** [SP6] One for each size and adjustment at most. */
  ranAt: RanAtRecord[];
  /** [CH5] Since when the line's tag says that trial cartons are run; null while it does not, or nobody knows. */
  trialSince: Instant | null;
  /** [SH1] The newest sheet, open or ended. */
  sheet: SheetRecord | null;
  /** [SH10] The ones before it, newest last. */
  sheetsBefore: SheetBefore[];
}

export interface TargetRecord {
  size: string;
  crew: number;
  tenths: number | null;
  entry: string;
  /** What held before it. */
  before: number | null;
}

/** [EN1] An entry as it was first made, where it stands in line time, and what was said in its place. */
export interface SaidRecord {
  at: Instant;
  first: CorrectableEntry;
  corrections: Corrected[];
}

/** [EN2] What people say of a stop's cause, beside what the PLC said. */
export interface StopCause {
  parts: readonly CausePart[];
  words: string;
  author: Author;
}

export type ChangeoverKind = 'size' | 'artwork' | 'startUp';

export interface ShiftRecord {
  shift: Shift | null;
  /** Observed from here: later than the shift's beginning when Scoreline was started in it. */
  from: Instant;
  /** When the next boundary comes. */
  until: Instant;
  account: Account;
  /** Good cartons by whole minutes since the shift's beginning. */
  minutes: number[];
  gaps: GapSpan[];
  notLoadedByPosition: number[];
  pausesUsed: { rule: string; used: Span }[];
  rejects: number;
}

/** [CO5] A gap that is over, with what each counter gained in it in production, and when the last of that was told. */
export interface EndedGap {
  from: Instant;
  to: Instant;
  kind: 'unknown' | 'isolated';
  gained: number[];
  counted: Instant;
}

export interface GapSpan {
  from: Instant;
  to: Instant;
  kind: 'unknown' | 'isolated';
}

export type StopClass = 'stopped' | 'starved' | 'blocked' | 'safety' | 'changeover' | 'pause';

/** One time the line left production. */
export interface StopRecord {
  id: string;
  begin: Instant;
  end: Instant | null;
  /** False where it ended while nobody was looking, at `end` or later. */
  endSeen: boolean;
  /** First-out number, or that of the earliest alarm; 0 while none is known. */
  reason: number;
  kind: StopKind | null;
  class: StopClass;
  station: string | null;
  from: 'state' | 'cycles';
  attempt: number;
  episode: string;
  pauseRule: string | null;
  allowance: Span;
  lastGoodBefore: Instant;
  firstGood: Instant | null;
  cartonsBefore: number;
  /** Size and order that ran when it began. */
  size: string | null;
  order: string | null;
  /** Numbers that the PLC showed in it, the first fault first; the first few of them. */
  chain: { at: Instant; number: number }[];
  /** Cartons lost to it so far, in parts; null until the first good carton after it, or another stop, closes the account. */
  lost: number | null;
  answer: { reason: string; words: string | null; author: Author } | null;
  notNowAt: Instant | null;
  /** [EN2] Missing where nobody said otherwise than the PLC. */
  cause?: StopCause;
}

export interface PressRecord {
  id: string;
  device: number;
  pressed: Instant;
  released: Instant | null;
  reset: Instant | null;
  restarted: Instant | null;
  firstGood: Instant | null;
  role: 'caused' | 'during' | 'uncertain';
  /** edge: seen pressed. count: only its counted twin moved. found: read pressed at the first look; `pressed` is that look. */
  known: 'edge' | 'count' | 'found';
  stop: string | null;
  candidate: string | null;
}

export interface ChangeoverRecord {
  kind: ChangeoverKind;
  begin: Instant;
  from: string | null;
  to: string | null;
  fromBlend: string | null;
  trialBegan: Instant | null;
  productionBack: Instant | null;
  firstGood: Instant | null;
  atRate: Instant | null;
  end: Instant | null;
  trialCartons: number;
}

export interface GapRecord {
  from: Instant;
  /** What is missing, each by a name: a server's link, a value, the heartbeat. It is over when none is. */
  missing: string[];
  /** Something that was missing did not come back whole: what happened meanwhile is not all known. */
  lossy: boolean;
  /** Servers of which a counter was reset in it, and falls of counters that may be that or a rollover. */
  reset: string[];
  falls: { signal: number; rolled: number; asReset: number }[];
  /** What each counter had counted in production when it began. */
  tally: number[];
  /** Accounts as they were when it began: of this shift, and of one that ended in it. */
  before: Account;
  ended: { record: ShiftRecord; before: Account }[];
  stop: string | null;
  cycles: Value;
  /** [PR1] It was in produce mode then. */
  producedMode: boolean;
  /** Cartons since the last restart, as they were then. */
  cartons: number;
  /** Parts lost by then to the stop whose output pause was open. */
  lost: number | null;
}

/** Rejects of a station are counted over this many cartons. */
export const STATION_WINDOW = 1000;

export interface StationRecord {
  /** Of the run's cartons at discharge: ordinals of those charged to this station as rejects, newest last. */
  rejectedAt: number[];
  /** All rejects ever charged to it, by size. */
  rejectsBySize: Record<string, number>;
  /** [RJ1] Since when it is outside its own normal; null while it is not. */
  outSince: Instant | null;
}

export interface HappeningRecord {
  at: Instant;
  kind: 'firstFault' | 'setOff' | 'reject' | 'press' | 'release' | 'guardOpened' | 'guardClosed';
  name: string;
  station: string | null;
}

export interface OpenMatter {
  id: string;
  kind: 'guardOpenRunning' | 'devicePressedRunning';
  of: string;
  at: Instant;
  /** When it was last so; null while it still is. */
  to: Instant | null;
  /** How long in between, in sum, the line ran and no signal explained it. */
  spent: Span;
}

/** A guard that reads open, or a stop device pressed, since `from` while the line ran; null while it has not run. */
export interface WatchRecord {
  signal: number;
  from: Instant | null;
  to: Instant;
  spent: Span;
  /** Time is added up until here. */
  until: Instant;
}

export interface OrderRecord extends Order {
  good: number;
  /** When another one took its place; null while it waits or runs. */
  endedAt: Instant | null;
  /** Crew that counts from its beginning on; null where nobody said. */
  crew: number | null;
  handedOver: number | null;
}
