import type { AccountTold } from '../../fold/accountTold.ts';
import { lostByCause } from '../../fold/accountTold.ts';
import { CARTON, causes } from '../../fold/account.ts';
import type { ShiftRecord } from '../../fold/state.ts';
import type { Instant } from '../../units/units.ts';
import { wholeCartons } from '../../view/pathView.ts';
import type { LossCause } from '../../view/view.ts';
import type { Stretch } from '../stretches.ts';

/** What a stretch came to, in parts. */
export type Account = Omit<AccountTold, 'since'>;

export interface LostAsked {
  /** What was told by the last minute up to a moment, or is known now of one that is not past. */
  readonly toldAt: (at: Instant) => AccountTold | undefined;
  /** Shifts, and the time between them, that ended in the stretches or shortly before. */
  readonly ended: readonly Pick<ShiftRecord, 'until' | 'account'>[];
}

const NOTHING: Account = { possible: 0, good: 0, lost: causes.map(() => 0) };

/** [LO9] What stretches came to together. Undefined where a shift has ended of which it is not known yet what it came to. */
export function lostIn(stretches: readonly Stretch[], asked: LostAsked): Account | undefined {
  let sum: Account = NOTHING;
  for (const stretch of stretches) {
    const one = lostInOne(stretch, asked);
    if (!one) return undefined;
    sum = add(sum, one, 1);
  }
  return sum;
}

/** In whole cartons, without a rest. */
export function wholeOf({ possible, good, lost }: Account): {
  readonly possible: number;
  readonly lost: Readonly<Record<LossCause, number>>;
  readonly total: number;
} {
  const whole = Math.floor(possible / CARTON);
  const cartons = wholeCartons(lost, whole - good);
  return {
    possible: whole,
    total: whole - good,
    lost: Object.fromEntries(causes.map((cause, place) => [cause, cartons[place]!])) as Record<
      LossCause,
      number
    >,
  };
}

function lostInOne({ from, to }: Stretch, { toldAt, ended }: LostAsked): Account | undefined {
  const latest = (at: Instant) => Math.max(-1, ...ended.map(({ until }) => until).filter((end) => end <= at));
  const standing = (at: Instant) => {
    const told = toldAt(at);
    // that of a shift which was over by then is in that shift's own record
    return told && told.since >= latest(at) ? told : undefined;
  };
  const [begin, end] = [standing(from), standing(to)];
  const between = ended.filter(({ until }) => until > from && until <= to);
  if (between.length === 0 && begin && end && begin.since !== end.since) return undefined;
  const accounts = between.map(
    ({ account }): Account => ({
      possible: account.possible,
      good: account.good,
      lost: lostByCause(account),
    }),
  );
  const sum = accounts.reduce((all, one) => add(all, one, 1), end ?? NOTHING);
  return add(sum, begin ?? NOTHING, -1);
}

function add(a: Account, b: Account, times: 1 | -1): Account {
  return {
    possible: a.possible + times * b.possible,
    good: a.good + times * b.good,
    lost: a.lost.map((parts, place) => parts + times * b.lost[place]!),
  };
}
