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
/** Stretches that are looked into at most, those of the largest changes first. */
const LOOKED_INTO = 80;
/** An entry made so long before or after a change may be of it. */
const ABOUT = minutes(30);

interface Changed {
  readonly from: KnownFlow;
  readonly to: KnownFlow;
}

/** The largest changes at once in a stretch. Within one that is divided, changes that cancel each other are not found. */
export function changesIn(asked: BalanceAsked, stretch: Stretch): readonly BalanceChange[] {
  const found: Changed[] = [];
  let open = changedOf(asked, [stretch.from, stretch.to]);
  for (let looked = 0; looked < LOOKED_INTO && open.length > 0; looked += 1) {
    const [largest, ...rest] = open.sort((a, b) => sizeOf(b) - sizeOf(a));
    open = rest;
    const { from, to } = largest!;
    const parts = changedOf(asked, bordersOf(from.at, to.at));
    const [part] = parts;
    if (to.at - from.at <= MINUTES_LONG) found.push(...byMinute(asked, largest!));
    // between its ends the pockets were not known
    else if (part?.from.at === from.at && part.to.at === to.at) found.push(part);
    else open.push(...parts);
  }
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
