import { type LimitLook, type LimitsAsked, limitsBegun } from './runningLimits.ts';

/** What limits start from, and those after each look so far. */
export interface LimitsSoFar {
  readonly asked: LimitsAsked;
  readonly limits: readonly number[];
}

interface Kept {
  readonly basis: string;
  readonly asked: LimitsAsked;
  readonly next: (look: LimitLook) => number;
  readonly looks: LimitLook[];
  readonly limits: number[];
}

/**
 * Limits of one station's rules as a run goes on: a look more costs one step and not the whole run again. They are the same as
 * those worked out anew, since what they stand on is told in `basis`: another one, or looks that changed, begin anew.
 */
export class KeptLimits {
  private readonly kept = new Map<string, Kept>();

  of(rule: string, basis: string, begin: () => LimitsAsked, looks: readonly LimitLook[]): LimitsSoFar {
    const known = this.kept.get(rule);
    const {
      asked,
      next,
      looks: seen,
      limits,
    } = known && goesOn(known, basis, looks) ? known : begun(basis, begin());
    for (const look of looks.slice(seen.length)) {
      limits.push(next(look));
      seen.push(look);
    }
    this.kept.set(rule, { basis, asked, next, looks: seen, limits });
    return { asked, limits: [...limits] };
  }
}

function begun(basis: string, asked: LimitsAsked): Kept {
  return { basis, asked, next: limitsBegun(asked), looks: [], limits: [] };
}

function goesOn(known: Kept, basis: string, looks: readonly LimitLook[]): boolean {
  if (known.basis !== basis || known.looks.length > looks.length) return false;
  return known.looks.every(({ of, wanted }, place) => {
    const look = looks[place]!;
    return look.of === of && look.wanted === wanted;
  });
}
