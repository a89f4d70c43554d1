import type { Entry } from '../entries/entries.ts';
import { entryNow } from '../entries/saidEntries.ts';
import type { AccountTold } from '../fold/accountTold.ts';
import type { LineEvent } from '../fold/events.ts';
import type { FlowTold } from '../fold/flow.ts';
import type {
  ChangeoverRecord,
  FoldState,
  OpenMatter,
  PressRecord,
  SaidRecord,
  ShiftRecord,
  StopRecord,
} from '../fold/state.ts';
import type { MoveRecord, SheetRecord } from '../fold/settingRecords.ts';
import type { NoticeRecord } from '../notices/notice.ts';
import { HOUR, type Instant } from '../units/units.ts';

/** What is kept of a line's past, beside the tape: a cache of the fold, made anew from the tape at any time. */
export interface RecordBodies {
  readonly stop: StopRecord;
  readonly press: PressRecord;
  readonly changeover: ChangeoverRecord;
  readonly finding: OpenMatter;
  readonly shift: ShiftRecord;
  /** `gained`: what each counter gained in it in production, the last of it told at `counted`; missing where nothing was. */
  readonly gap: {
    readonly from: Instant;
    readonly to: Instant;
    readonly kind: 'unknown' | 'isolated';
    readonly gained?: readonly number[];
    readonly counted?: Instant;
  };
  readonly guard: {
    readonly at: Instant;
    readonly guard: string;
    readonly open: boolean;
    /** The line may have run just then. */
    readonly ran: boolean;
  };
  /** From here on cartons were of this size, or belonged to this order: its crew is null where none was said with it. */
  readonly size: {
    readonly at: Instant;
    readonly size: string;
    readonly tally?: readonly number[];
    readonly lot?: string;
  };
  readonly order: {
    readonly at: Instant;
    readonly order: string;
    readonly crew: number | null;
    readonly tally?: readonly number[];
  };
  /**
   * [EN1] `entry` is what counts now: where it was corrected, what was said in its place, and where it was withdrawn, the
   * correction that did, which is none of what it was. `said`, of those that were corrected: what was said first, and since.
   */
  readonly entry: {
    readonly at: Instant;
    readonly entry: Entry;
    readonly said?: Pick<SaidRecord, 'first' | 'corrections'>;
  };
  readonly notice: NoticeRecord;
  /** [SP5] What a sensor of an adjustment told of its being moved. */
  readonly move: MoveRecord;
  readonly sheet: SheetRecord;
  /**
   * What each counter had counted in production by a minute's end, and [AT1] the parts of its rejects by reason and suspect;
   * blanks and cartons in any mode. [LO9] What was lost of the shift by then.
   */
  readonly minute: {
    readonly at: Instant;
    readonly tally: readonly number[];
    readonly attributed: readonly number[];
    readonly flow: FlowTold | null;
    readonly account: AccountTold;
  };
}

export type RecordKind = keyof RecordBodies;

/** One record: it begins `at`, and lasted `until`, null while it is not over. */
export type LineRecord = {
  readonly [Kind in RecordKind]: {
    readonly kind: Kind;
    readonly at: Instant;
    readonly until: Instant | null;
    readonly id: string;
    readonly body: RecordBodies[Kind];
  };
}[RecordKind];

/** What has to be done to the records: one takes the place of another of its kind, moment and id; or those of some kinds go. */
export type RecordStep =
  | { readonly kind: 'put'; readonly record: LineRecord }
  /** All that began from a moment on; of what is told when it ends, all that lasted until then. */
  | { readonly kind: 'cut'; readonly of: readonly RecordKind[]; readonly from: Instant }
  | { readonly kind: 'drop'; readonly of: RecordKind; readonly at: Instant; readonly id: string };

export const RECORD_KINDS = [
  'stop',
  'press',
  'changeover',
  'finding',
  'shift',
  'gap',
  'guard',
  'size',
  'order',
  'entry',
  'notice',
  'move',
  'sheet',
  'minute',
] as const satisfies readonly RecordKind[];

/** Kinds of which nothing is told before they end. */
export const TOLD_AT_END = ['gap', 'finding'] as const satisfies readonly RecordKind[];

/** Late data may take back what began so long before it, such as a stop derived from cycles that did not come. */
const TAKEN_BACK = HOUR;

/**
 * What events, in the order in which they were told, do to the records of a line; `state` is the fold's after them.
 * Records hold what the fold holds and goes on changing: they are to be written down before it is stepped again.
 */
export function recordSteps(events: readonly LineEvent[], state: Readonly<FoldState>): readonly RecordStep[] {
  return events.flatMap((event) => stepsOf(event, state));
}

function stepsOf(event: LineEvent, state: Readonly<FoldState>): readonly RecordStep[] {
  if (event.kind === 'Amended') return amended(event, state);
  // nothing was missed after all: what was told of it is taken back
  if (event.kind === 'GapEnded' && event.judged === 'whole')
    return [{ kind: 'drop', of: 'gap', at: event.from, id: '' }];
  if (event.kind === 'PressTakenBack')
    return [{ kind: 'drop', of: 'press', at: event.at, id: event.press.id }];
  const record = recordOf(event);
  return record ? [put(record)] : [];
}

function amended(
  { from, again }: Extract<LineEvent, { kind: 'Amended' }>,
  state: Readonly<FoldState>,
): readonly RecordStep[] {
  // of these the state keeps the newest, as they are now; what began before the oldest of them stays as it was told
  const since = Math.max(
    from - TAKEN_BACK,
    state.stops[0]?.begin ?? 0,
    state.presses[0]?.pressed ?? 0,
  ) as Instant;
  const kept = [
    ...state.stops.filter(({ begin }) => begin >= since).map(stopOf),
    ...state.presses.filter(({ pressed }) => pressed >= since).map(pressOf),
  ];
  return [
    { kind: 'cut', of: RECORD_KINDS, from },
    { kind: 'cut', of: ['stop', 'press'], from: since },
    ...kept.map(put),
    ...recordSteps(again, state),
  ];
}

function recordOf(event: LineEvent): LineRecord | undefined {
  switch (event.kind) {
    case 'StopBegan':
    case 'StopExplained':
    case 'StopEnded':
    case 'StopSettled':
      return stopOf(event.stop);
    case 'Pressed':
    case 'PressMoved':
      return pressOf(event.press);
    case 'ChangeoverBegan':
    case 'ChangeoverEnded': {
      const { changeover } = event;
      return { kind: 'changeover', at: changeover.begin, until: changeover.end, id: '', body: changeover };
    }
    case 'FindingKept': {
      const { finding } = event;
      return { kind: 'finding', at: finding.at, until: finding.to, id: finding.id, body: finding };
    }
    case 'ShiftEnded': {
      const { record } = event;
      return {
        kind: 'shift',
        at: record.shift?.from ?? record.from,
        until: record.until,
        id: '',
        body: record,
      };
    }
    case 'GapEnded': {
      const { from, at: to, judged, gained } = event;
      if (judged === 'whole' || to <= from) return undefined;
      return gapOf({ from, to, kind: judged, gained, counted: to });
    }
    case 'GapCounted':
      return event.gap.to > event.gap.from ? gapOf(event.gap) : undefined;
    case 'GuardMoved': {
      const { at, guard, open, ran } = event;
      return { kind: 'guard', at, until: at, id: guard, body: { at, guard, open, ran } };
    }
    case 'SizeBegan': {
      const { at, size, tally, lot } = event;
      const body = { at, size, tally, ...(lot === undefined ? {} : { lot }) };
      return { kind: 'size', at, until: null, id: '', body };
    }
    case 'OrderBegan': {
      const { at, order, crew, tally } = event;
      return { kind: 'order', at, until: null, id: '', body: { at, order, crew, tally } };
    }
    case 'Entered': {
      const { at, entry } = event;
      return { kind: 'entry', at, until: at, id: entry.id, body: { at, entry } };
    }
    case 'EntryCorrected':
      return saidRecord(event.said);
    case 'NoticeMoved': {
      const { notice } = event;
      return { kind: 'notice', at: notice.at, until: notice.ended?.at ?? null, id: notice.id, body: notice };
    }
    case 'SettingMoved': {
      const { move } = event;
      return { kind: 'move', at: move.begin, until: move.end, id: move.adjustment, body: move };
    }
    case 'SheetMoved': {
      const { sheet } = event;
      return { kind: 'sheet', at: sheet.begin, until: sheet.ended?.at ?? null, id: sheet.id, body: sheet };
    }
    case 'MinuteEnded': {
      const { at, tally, attributed, flow, account } = event;
      return { kind: 'minute', at, until: at, id: '', body: { at, tally, attributed, flow, account } };
    }
    case 'PressTakenBack':
    case 'GapBegan':
    case 'CounterMarked':
    case 'Amended':
    case 'BeyondReach':
      return undefined;
  }
}

function saidRecord({ at, first, corrections }: SaidRecord): LineRecord {
  const body = { at, entry: entryNow({ first, corrections }), said: { first, corrections } };
  return { kind: 'entry', at, until: at, id: first.id, body };
}

function gapOf({ from, to, kind, gained, counted }: Required<RecordBodies['gap']>): LineRecord {
  const some = gained.some((count) => count !== 0) ? { gained, counted } : {};
  return { kind: 'gap', at: from, until: to, id: '', body: { from, to, kind, ...some } };
}

function stopOf(stop: StopRecord): LineRecord {
  return { kind: 'stop', at: stop.begin, until: stop.end, id: stop.id, body: stop };
}

function pressOf(press: PressRecord): LineRecord {
  return {
    kind: 'press',
    at: press.pressed,
    until: press.firstGood ?? press.restarted,
    id: press.id,
    body: press,
  };
}

function put(record: LineRecord): RecordStep {
  return { kind: 'put', record };
}
