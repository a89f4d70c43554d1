import { after, type Instant } from '../../model/units/units.ts';
import type { Fault } from '../../simulator/faults/faults.ts';

/** cut: both ends see it. dark: nobody is told. gone: the server, or the subscription, is no longer there. */
export type Away = 'cut' | 'dark' | 'gone';

/** Time that a fault takes away from the link, and what of the subscription outlives it. */
export interface Outage {
  readonly kind: Away;
  readonly from: Instant;
  readonly to: Instant;
  /** The namespace has another number afterwards. */
  readonly moved: boolean;
  /** A keep-alive comes through before it, and the connection breaks at its end at the latest. */
  readonly announced: boolean;
}

const ranks: Readonly<Record<Away, number>> = { dark: 1, cut: 2, gone: 3 };

export function isWorse(kind: Away, than: Away | undefined): boolean {
  return ranks[kind] > (than ? ranks[than] : 0);
}

/** What several outages at once come to. */
export function worstOf(outages: readonly Outage[]): Away | undefined {
  return outages.reduce<Away | undefined>(
    (worst, { kind }) => (isWorse(kind, worst) ? kind : worst),
    undefined,
  );
}

export function outageOf(fault: Fault, start: Instant): readonly Outage[] {
  const outage = (kind: Away, more: Partial<Outage> = {}): readonly Outage[] => {
    const from = after(start, fault.at);
    const to = 'lasts' in fault ? after(from, fault.lasts) : from;
    return [{ kind, from, to, moved: false, announced: false, ...more }];
  };
  switch (fault.kind) {
    case 'cut':
    case 'dark':
      return outage(fault.kind);
    case 'unheard':
      return outage('dark', { announced: true });
    case 'killed':
    case 'reissued':
    // sessions are forgotten, and none is given
    case 'refused':
      return outage('gone');
    case 'download':
      return outage('gone', { moved: true });
    default:
      return [];
  }
}
