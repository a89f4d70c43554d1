import type { Instant } from '../units/units.ts';
import { type Account, causes, copyAccount, lostByKey, postPause, settle } from './account.ts';
import { forgetOpenGap } from './gaps.ts';
import type { LineIndex } from './lineIndex.ts';
import type { FoldState } from './state.ts';
import { payerOf } from './stops.ts';

/** [LO9] What the account of a shift came to by a moment, in parts: possible less good is what was lost, without a rest. */
export interface AccountTold {
  /** From when on it is kept: the beginning of its shift, or when the first of it was heard. */
  readonly since: Instant;
  readonly possible: number;
  /** Whole cartons. */
  readonly good: number;
  /** By cause, in the order of `causes`, over all stations. */
  readonly lost: readonly number[];
}

interface Folded {
  readonly index: LineIndex;
  readonly state: Readonly<FoldState>;
}

/** The account as it stands at a moment, apart from the fold that goes on: who pays for an open pause is who would pay now. */
export function accountAt({ index, state }: Folded, until: Instant): Account {
  const account = copyAccount(state.shift.account);
  const to = Math.min(until, state.shift.until) as Instant;
  settle(account, to);
  const stepping = { index, state: state as FoldState, emit: () => {} };
  if (state.gap) forgetOpenGap(stepping, state.gap, { ...state.shift, account });
  const stop = state.stops.findLast((candidate) => candidate.id === account.open?.stop);
  if (account.open)
    postPause(account, stop ? payerOf(stepping, stop) : { key: index.stoppedNoneKey, pause: false });
  return account;
}

export function accountTold(folded: Folded, at: Instant): AccountTold {
  const account = accountAt(folded, at);
  return {
    since: folded.state.shift.from,
    possible: account.possible,
    good: account.good,
    lost: lostByCause(account),
  };
}

/** In parts, by cause over all stations, in the order of `causes`. */
export function lostByCause(account: Account): readonly number[] {
  const sums = causes.map(() => 0);
  for (const [key, parts] of lostByKey(account).entries()) sums[key % causes.length]! += parts;
  return sums;
}
