import { type EpochMs, epochMs, HOUR, type Instant, minutes, type Span } from '../units/units.ts';
import { type BalanceAsked, type KnownFlow, knownFlow, takenIn } from './knownFlow.ts';
import type { Stretch } from './stretches.ts';

/** What became unaccounted for, or was found too many, from one minute to the next that was known. */
export interface BalanceChange {
  readonly from: EpochMs;
  readonly to: EpochMs;
  readonly by: number;
  /** What people entered around it as taken out, less what was brought back. */
  readonly entered: number;
}

const CHANGES_MOST = 8;
/** A stretch that is no longer is looked through minute by minute; a longer one is divided into so many. */
const MINUTES_LONG = (2 * HOUR) as Span;
const PARTS = 8;
/** So many stretches are looked through minute by minute, those of the largest changes first. */
const LOOKED_THROUGH = 24;
/** An entry made so long before or after a change may be of it. */
const ABOUT = minutes(30);

interface Changed {
  readonly from: KnownFlow;
  readonly to: KnownFlow;
}

/** The largest changes at once in a stretch. Within one that is divided, changes that cancel each other are not found. */
export function changesIn(asked: BalanceAsked, stretch: Stretch): readonly BalanceChange[] {
  const found: Changed[] = [];
  const open = changedOf(asked, [stretch.from, stretch.to]);
  for (let looked = 0; looked < LOOKED_THROUGH && open.length > 0; looked += 1)
    found.push(...lookedThrough(asked, takeLargest(open), open));
  return found
    .sort((a, b) => sizeOf(b) - sizeOf(a) || b.to.at - a.to.at)
    .slice(0, CHANGES_MOST)
    .map(({ from, to }) => ({
      from: epochMs(from.at),
      to: epochMs(to.at),
      by: to.unaccounted - from.unaccounted,
      entered: takenIn(asked.entries, {
        from: (from.at - ABOUT) as Instant,
        to: (to.at + ABOUT) as Instant,
      }).takenOut,
    }));
}

/** Goes into the part that changed most, down to minutes; the other parts wait among `open`. */
function lookedThrough(asked: BalanceAsked, from: Changed, open: Changed[]): readonly Changed[] {
  let within = from;
  while (within.to.at - within.from.at > MINUTES_LONG) {
    const parts = changedOf(asked, bordersOf(within.from.at, within.to.at));
    // what is known at its ends alone is told as it is
    if (parts.length === 0 || (parts[0]!.from.at === within.from.at && parts[0]!.to.at === within.to.at))
      return [within];
    within = takeLargest(parts);
    open.push(...parts);
  }
  return byMinute(asked, within);
}

function takeLargest(some: Changed[]): Changed {
  const place = some.reduce((best, one, at) => (sizeOf(one) > sizeOf(some[best]!) ? at : best), 0);
  return some.splice(place, 1)[0]!;
}

function sizeOf({ from, to }: Changed): number {
  return Math.abs(to.unaccounted - from.unaccounted);
}

function bordersOf(from: Instant, to: Instant): readonly Instant[] {
  return Array.from({ length: PARTS + 1 }, (_, n) => Math.round(from + ((to - from) * n) / PARTS) as Instant);
}

/** Stretches between moments over which the unaccounted changed. Where the pockets were not known, the moment is left out. */
function changedOf({ minuteAt }: BalanceAsked, moments: readonly Instant[]): Changed[] {
  return pairs(
    moments.map((at) => {
      const known = knownFlow(minuteAt(at));
      // since that minute nothing was told, so nothing changed
      return known && { ...known, at };
    }),
  );
}

function byMinute({ minutesIn }: BalanceAsked, { from, to }: Changed): Changed[] {
  return pairs([from, ...minutesIn({ from: from.at, to: to.at }).map(knownFlow), to]);
}

function pairs(moments: readonly (KnownFlow | undefined)[]): Changed[] {
  const known = moments.filter((one) => one !== undefined);
  return known.flatMap((to, place) => {
    const from = known[place - 1];
    return from && from.at < to.at && from.unaccounted !== to.unaccounted ? [{ from, to }] : [];
  });
}
