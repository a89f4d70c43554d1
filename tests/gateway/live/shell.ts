import { type LiveLine, type LiveNote, startLiveLine } from '../../../gateway/live/liveLine.ts';
import type { Records } from '../../../gateway/records/records.ts';
import type { Tape } from '../../../gateway/tape/tape.ts';
import type { Entry, EntryBody } from '../../../model/entries/entries.ts';
import type { Line } from '../../../model/line/line.ts';
import { type EpochMs, epochMs } from '../../../model/units/units.ts';
import { at } from '../../model/smallLine.ts';
import { Memory, openMemoryTape } from '../tape/memoryTape.ts';

/** A live line on a tape in memory, with a clock that stands at a second after six unless it is moved. */
export interface Stand {
  readonly live: LiveLine;
  readonly tape: Tape;
  readonly memory: Memory;
  readonly notes: LiveNote[];
  readonly clock: { second: number };
}

export interface Wish {
  readonly memory?: Memory;
  readonly second?: number;
  /** A clock of the test's own, in place of `second`. */
  readonly clock?: { second: number };
  readonly speed?: number;
  readonly records?: Records;
  /** Puts something between the line and its tape. */
  readonly through?: (tape: Tape) => Tape;
}

export async function stand(line: Line, wish: Wish = {}): Promise<Stand> {
  const { memory = new Memory(), second = 0, speed = 1, through = (tape: Tape) => tape } = wish;
  const tape = through(openMemoryTape(memory, new Map([[line.id, line.signals]])));
  const notes: LiveNote[] = [];
  const { clock = { second } } = wish;
  const live = await startLiveLine({
    line,
    tape,
    now: () => msAt(clock.second),
    speed,
    outside: () => ({ servers: [] }),
    ...(wish.records ? { records: wish.records } : {}),
    told: (note) => void notes.push(note),
  });
  return { live, tape, memory, notes, clock };
}

/** The gateway's clock at so many seconds after six. */
export function msAt(second: number): number {
  return epochMs(at(second));
}

export function entry(id: string, second: number, body: EntryBody): Entry {
  return {
    id,
    at: msAt(second) as EpochMs,
    author: { kind: 'position', position: 'front' },
    ...body,
  };
}
