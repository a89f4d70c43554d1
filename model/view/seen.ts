import type { Account } from '../fold/account.ts';
import { accountAt } from '../fold/accountTold.ts';
import type { LineFold } from '../fold/fold.ts';
import { isBlind } from '../fold/gaps.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import type { FoldState, StopRecord } from '../fold/state.ts';
import type { ShutOff } from '../notices/shutOff.ts';
import { type EpochMs, epochMs, type Instant, type Millis, seconds, type Span } from '../units/units.ts';
import type { Sight } from './view.ts';

/** What is known from outside the tape: how each server is doing by the gateway's own clock. */
export interface Outside {
  readonly servers: readonly {
    readonly id: string;
    readonly up: boolean;
    readonly since?: EpochMs;
    /** How far line time is ahead of the gateway's clock. */
    readonly clockOffset?: Millis;
    /** By how much somebody set the server's clock; 0 or left out where nobody did. */
    readonly clockSet?: Millis;
  }[];
  /** Numbers of people whose access has ended; left out where there are none. */
  readonly shutOff?: ShutOff;
  /** What is wrong in the file of ways, so that some notices do not go out; left out where nothing is. */
  readonly waysWrong?: WaysWrong | undefined;
  /** Present while nothing can be recorded, and therefore nothing new is shown. */
  readonly unrecorded?: Unrecorded;
}

/** The first mistake of the file, at its line, how to mend it, and how many more there are. */
export interface WaysWrong {
  readonly line: number;
  readonly what: string;
  readonly mend: string;
  readonly more: number;
}

/** Since when nothing can be recorded, by the gateway's own clock, and what a person can do about it. */
export interface Unrecorded {
  readonly since: EpochMs;
  readonly what: string;
  readonly mend: string;
}

/** A line at a moment: its state, and its account settled up to then, apart from the fold that goes on. */
export interface Seen {
  readonly index: LineIndex;
  readonly state: Readonly<FoldState>;
  readonly account: Account;
  /** The moment looked at. */
  readonly now: Instant;
  /** The moment up to which time is accounted: `now`, or when the line was last heard if that is too long ago. */
  readonly until: Instant;
  readonly sight: Sight['kind'];
  readonly age: Span;
  readonly openStop: StopRecord | undefined;
}

export function seenAt(fold: Pick<LineFold, 'index' | 'state'>, now: Instant): Seen {
  const { index, state } = fold;
  const { staleSeconds, lostSeconds } = index.line.settings;
  const age = Math.max(0, now - state.heardAt) as Span;
  const sight =
    state.heardAt < 0
      ? 'never'
      : age > seconds(lostSeconds)
        ? 'lost'
        : age > seconds(staleSeconds)
          ? 'stale'
          : 'live';
  const until = sight === 'lost' && !state.gap ? state.heardAt : now;
  const last = state.stops.at(-1);
  const openStop = last && last.end === null ? last : undefined;
  return { index, state, account: accountAt(fold, until), now, until, sight, age, openStop };
}

/** True while nobody can tell what the line does. */
export function isUnseen(seen: Seen): boolean {
  const { index, state, sight } = seen;
  return isBlind(index, state) || sight === 'lost' || sight === 'never' || !state.judged;
}

/** True while nobody can tell what it makes, though it may be known whether it runs. */
export function isUncounted(seen: Seen): boolean {
  return seen.state.gap !== null || isUnseen(seen);
}

export function ms(at: Instant): EpochMs;
export function ms(at: Instant | null | undefined): EpochMs | undefined;
export function ms(at: Instant | null | undefined): EpochMs | undefined {
  return at === null || at === undefined || at < 0 ? undefined : epochMs(at);
}
