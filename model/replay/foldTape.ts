import type { LineEvent } from '../fold/events.ts';
import { LineFold, type SavedFold } from '../fold/fold.ts';
import type { FoldState } from '../fold/state.ts';
import type { Line } from '../line/line.ts';
import { byLineTime, type Change } from '../signals/signals.ts';
import type { Instant } from '../units/units.ts';
import type { TapeRead } from './tapeRead.ts';

export interface Folded {
  readonly fold: LineFold;
  /** How many changes of the tape were folded for it. */
  readonly replayed: number;
  /** False when data came so late that it could not be worked in: the state is without it. */
  readonly whole: boolean;
}

/** Changes held in memory at once to work late data in; data that would need more is too late. About two shifts. */
export const SORTED_MOST = 2_000_000;
/** Changes folded at one go, before other work gets its turn. */
const AT_ONCE = 20_000;
/** Changes between two words on how far it is. */
const TELL_EVERY = 500_000;

interface Wish {
  /** Version of model and definition: a saved state of another one is never used. */
  readonly version: string;
  readonly end: number;
  /** Told now and then how far it is; a long tape of another version takes its time. */
  readonly progress?: (done: number, of: number) => void;
  /** Folding begins at this position or before, so that all since then is seen. */
  readonly since?: number;
  /**
   * What was seen on the way, the state after it, before it goes on, and the position of the change with which it was seen:
   * `end` where it is seen once more.
   */
  readonly seen?: (events: readonly LineEvent[], state: Readonly<FoldState>, position: number) => void;
  /** From this line time on all will be seen once more. */
  readonly anew?: (from: Instant) => void;
  /** Line time at which the tape begins: what claims to be older is not gone back for. */
  readonly oldest?: Instant | undefined;
  /** Gives other work its turn, where much is folded at one go. */
  readonly rest?: () => Promise<void>;
  /** For tests only. */
  readonly sortedMost?: number;
}

/**
 * The state of a line after the first `end` changes of its tape, from the newest saved state that serves (SPEC, TI2). As
 * a rule that is the newest one, and the changes after it are folded as they came. Where one of them is older than the
 * saved state, they have to be folded in line time from a state older than all of them.
 */
export async function foldTape(tape: TapeRead, line: Line, wish: Wish): Promise<Folded> {
  const { end, progress = () => {} } = wish;
  const kept = await tape.nearest(line.id, Math.min(end, wish.since ?? end), wish.version);
  const fold = new LineFold(line, kept && (JSON.parse(kept.body) as SavedFold));
  const from = kept?.position ?? tape.begin(line.id);
  let whole = true;
  let done = 0;
  let next = TELL_EVERY;
  // positions are counted anew from there: what the line no longer has a signal for is left out of what is read
  const since = Math.min(end, Math.max(from, wish.since ?? from));
  for (const [start, stop] of [
    [from, since],
    [since, end],
  ] as const) {
    let position: number = start;
    for await (const changes of tape.read(line.id, start, stop)) {
      if (!takeSeeing(fold, changes, position, wish)) whole = false;
      position += changes.length;
      done += changes.length;
      if (done < next) continue;
      progress(done, end - from);
      next += TELL_EVERY;
    }
  }
  if (whole) return { fold, replayed: end - from, whole };
  const sorted = await foldSorted(tape, line, wish);
  return sorted ?? { fold, replayed: end - from, whole };
}

/** False when something was too old to be worked in. */
function takeSeeing(
  fold: LineFold,
  changes: readonly Change[],
  position: number,
  { seen, oldest = 0 as Instant }: Pick<Wish, 'seen' | 'oldest'>,
): boolean {
  const isWhole = (events: readonly LineEvent[]) =>
    !events.some((event) => event.kind === 'BeyondReach' && event.at >= oldest);
  if (!seen) return isWhole(fold.take(changes));
  let whole = true;
  for (let place = 0; place < changes.length; ) {
    const { taken, events } = fold.takeUntilSeen(changes, place, changes.length);
    place += taken;
    if (!isWhole(events)) whole = false;
    seen(events, fold.state, position + place);
  }
  return whole;
}

/** Undefined when it would take more changes than may be held at once. */
async function foldSorted(tape: TapeRead, line: Line, wish: Wish): Promise<Folded | undefined> {
  const { version, end, sortedMost = SORTED_MOST, anew = () => {} } = wish;
  let changes: Change[] = [];
  for (let until = end; ; ) {
    const kept = await tape.nearest(line.id, until - 1, version);
    const from = kept?.position ?? tape.begin(line.id);
    if (end - from > sortedMost) return undefined;
    const before: Change[] = [];
    for await (const chunk of tape.read(line.id, from, until))
      for (const change of chunk) before.push(change);
    changes = before.concat(changes).sort(byLineTime);
    const saved = kept && (JSON.parse(kept.body) as SavedFold);
    if (!saved || !isBefore(changes[0], saved)) {
      anew(saved?.state.at ?? (0 as Instant));
      const fold = await foldAll(new LineFold(line, saved), changes, wish);
      return { fold, replayed: end - from, whole: true };
    }
    until = from;
  }
}

function isBefore(change: Change | undefined, { state }: SavedFold): boolean {
  if (!change) return false;
  return change.at < state.at || (change.at === state.at && change.signal < state.signal);
}

async function foldAll(
  fold: LineFold,
  changes: readonly Change[],
  { end, seen = () => {}, rest = async () => {} }: Wish,
): Promise<LineFold> {
  for (let place = 0; place < changes.length; place += AT_ONCE) {
    seen(fold.take(changes.slice(place, place + AT_ONCE)), fold.state, end);
    await rest();
  }
  return fold;
}
