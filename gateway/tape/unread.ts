import type { Change, Signal } from '../../model/signals/signals.ts';
import { standIn, type Unread } from '../../model/tape/standIn.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import type { Instant } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { SegmentTable } from './segmentTable.ts';
import type { SignalNumbers } from './signalNumbers.ts';
import { BEFORE_ALL } from './spans.ts';
import type { Damage, StoredPiece } from './tape.ts';

const words = wordsIn('en').tape;

/** Positions [start, end) that cannot be read. */
export interface Stretch {
  readonly start: number;
  readonly end: number;
}

/** The line whose tape it is. */
export interface OfLine {
  readonly number: number;
  readonly signals: readonly Signal[];
  readonly numbers: SignalNumbers;
}

/** What of a line's tape cannot be read: what is folded in its place, and which of it has been found. */
export class UnreadStretches {
  private readonly line: OfLine;
  private readonly segments: SegmentTable;
  private readonly told: (damage: Damage) => void;
  private readonly found = new Map<number, Damage>();

  constructor(line: OfLine, segments: SegmentTable, told: (damage: Damage) => void) {
    this.line = line;
    this.segments = segments;
    this.told = told;
  }

  /** Told once for each stretch [start, end). `tail` is what comes after all segments. */
  note({ start, end }: Stretch, tail: StoredPiece | undefined): void {
    if (this.found.has(start)) return;
    const times = this.timesOf(start, tail);
    const damage = {
      positions: { from: start, to: end },
      at: times && { from: times.from, to: times.to },
    };
    this.found.set(start, damage);
    this.told(damage);
  }

  /** All that has been found, in order. */
  known(): readonly Damage[] {
    return [...this.found.values()].sort((a, b) => a.positions.from - b.positions.from);
  }

  /** What stands for positions [from, to) of a stretch. */
  changes(
    stretch: Stretch,
    { from, to }: { readonly from: number; readonly to: number },
    tail: StoredPiece | undefined,
  ): Change[] {
    const last = this.line.numbers.fromTape(this.segments.lastOf(this.line.number, stretch.start));
    const times = this.timesOf(stretch.start, tail);
    if (!times) return [];
    const unread = { ...times, last };
    const ends = { begins: from <= stretch.start, ends: to >= stretch.end };
    return standIn(this.line.signals, unread, ends);
  }

  /**
   * When it was: from what came before it to its own end, where that is known; else as long as nothing else was received. What
   * came late after it says nothing of that. Undefined where nobody knows: it is the first of all, and of an older file.
   */
  private timesOf(start: number, tail: StoredPiece | undefined): Omit<Unread, 'last'> | undefined {
    const { number } = this.line;
    const [own] = this.segments.spans(number, start, start + 1);
    const before = this.segments.timedBeside(number, start, 'before');
    const after = this.segments.timedBeside(number, start, 'after') ?? tail;
    const to = own?.at && own.at.most > BEFORE_ALL ? own.at.most : silentUntil(before, after);
    if (to === undefined) return undefined;
    // before the first of all nothing was known that could be missing
    const from = before?.at?.most ?? to;
    const received = own?.received?.most ?? after?.received?.least ?? before?.received?.most ?? to;
    return { from, to: Math.max(from, to) as Instant, received };
  }
}

/** When something was heard again after a piece of which is known when it was, by what was received. */
function silentUntil(before: StoredPiece | undefined, after: StoredPiece | undefined): Instant | undefined {
  if (!before?.at || !before.received) return undefined;
  const silent = (after?.received?.least ?? 0) - before.received.most;
  return (before.at.most + Math.max(0, silent)) as Instant;
}

/** A stretch that cannot be read, as it is told to a person. */
export function damageTrouble(line: string, { positions }: Damage): LineError {
  return new LineError(words.damaged(line, positions.from, positions.to), {
    why: words.damagedWhy,
    mend: words.damagedMend,
  });
}
