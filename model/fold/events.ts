import type { Entry } from '../entries/entries.ts';
import type { AccountTold } from './accountTold.ts';
import type { FlowTold } from './flow.ts';
import type { NoticeRecord } from '../notices/notice.ts';
import type { Instant } from '../units/units.ts';
import type { MoveRecord, SheetRecord } from './settingRecords.ts';
import type {
  ChangeoverRecord,
  EndedGap,
  OpenMatter,
  PressRecord,
  SaidRecord,
  ShiftRecord,
  StopRecord,
} from './state.ts';

/** What the fold saw happen. Screens are told at once; lasting tables are made from these. */
export type LineEvent =
  | { readonly kind: 'StopBegan'; readonly at: Instant; readonly stop: StopRecord }
  /** More is known of what it was, or of what somebody says of it. */
  | { readonly kind: 'StopExplained'; readonly at: Instant; readonly stop: StopRecord }
  | { readonly kind: 'StopEnded'; readonly at: Instant; readonly stop: StopRecord }
  /** Its first good carton came, or what was lost to it is known, or known otherwise than before. */
  | { readonly kind: 'StopSettled'; readonly at: Instant; readonly stop: StopRecord }
  | { readonly kind: 'Pressed'; readonly at: Instant; readonly press: PressRecord }
  | { readonly kind: 'PressMoved'; readonly at: Instant; readonly press: PressRecord }
  /** It was counted by its twin a moment before the device was read pressed: one press, not two. */
  | { readonly kind: 'PressTakenBack'; readonly at: Instant; readonly press: PressRecord }
  /** `ran`: the line ran just then, as far as is known; or the moment itself is nobody's. */
  | {
      readonly kind: 'GuardMoved';
      readonly at: Instant;
      readonly guard: string;
      readonly open: boolean;
      readonly ran: boolean;
    }
  | { readonly kind: 'ChangeoverBegan'; readonly at: Instant; readonly changeover: ChangeoverRecord }
  | { readonly kind: 'ChangeoverEnded'; readonly at: Instant; readonly changeover: ChangeoverRecord }
  | { readonly kind: 'GapBegan'; readonly at: Instant }
  | {
      readonly kind: 'GapEnded';
      readonly at: Instant;
      readonly from: Instant;
      readonly judged: 'unknown' | 'isolated' | 'whole';
      /** What each counter gained in it, in production. */
      readonly gained: readonly number[];
    }
  /** Of the newest gap more was counted: a counter was told only now. */
  | { readonly kind: 'GapCounted'; readonly at: Instant; readonly gap: EndedGap }
  | { readonly kind: 'ShiftEnded'; readonly at: Instant; readonly record: ShiftRecord }
  | { readonly kind: 'Entered'; readonly at: Instant; readonly entry: Entry }
  /** [EN1] What was said before is said otherwise now, or not at all. */
  | { readonly kind: 'EntryCorrected'; readonly at: Instant; readonly said: SaidRecord }
  /** [SP5] A sensor reads another number; the same move goes on while it keeps changing. */
  | { readonly kind: 'SettingMoved'; readonly at: Instant; readonly move: MoveRecord }
  | { readonly kind: 'SheetMoved'; readonly at: Instant; readonly sheet: SheetRecord }
  | { readonly kind: 'NoticeMoved'; readonly at: Instant; readonly notice: NoticeRecord }
  /** `tally`: what each counter had counted in production until then. */
  | {
      readonly kind: 'SizeBegan';
      readonly at: Instant;
      readonly size: string;
      readonly tally: readonly number[];
      /** The lot of board then, where the PLC tells it. */
      readonly lot?: string;
    }
  /** `crew`: so many people load it, where that was said with the order. */
  | {
      readonly kind: 'OrderBegan';
      readonly at: Instant;
      readonly order: string;
      readonly crew: number | null;
      readonly tally: readonly number[];
    }
  | { readonly kind: 'FindingKept'; readonly at: Instant; readonly finding: OpenMatter }
  /**
   * A minute in which something was told is over: what each counter had counted in production by its end; blanks and cartons
   * in any mode; what the account of its shift came to.
   */
  | {
      readonly kind: 'MinuteEnded';
      readonly at: Instant;
      readonly tally: readonly number[];
      readonly attributed: readonly number[];
      readonly flow: FlowTold | null;
      readonly account: AccountTold;
    }
  | { readonly kind: 'CounterMarked'; readonly at: Instant; readonly signal: number; readonly mark: string }
  /** Late data changed what was told before: everything derived from `from` on has to be taken anew. */
  | {
      readonly kind: 'Amended';
      readonly at: Instant;
      readonly from: Instant;
      /** All that is now seen from there on, what had been told before among it. */
      readonly again: readonly LineEvent[];
    }
  /** Data older than the fold can still work in: fold again from an earlier checkpoint to have it. */
  | { readonly kind: 'BeyondReach'; readonly at: Instant };
