import { expect } from 'vitest';
import { LineFold } from '../../model/fold/fold.ts';
import { type FlowTold, flowTold } from '../../model/fold/flow.ts';
import type { Line } from '../../model/line/line.ts';
import type { Value } from '../../model/signals/signals.ts';
import { boundSignals, changes, running, smallLine } from './smallLine.ts';

const U32 = 2 ** 32;
const PICK = 4;
/** Cycles that a pocket takes until it has passed the check, from as far behind the pick as a reverse jog is followed. */
export const PASSAGE = PICK + 1 + 6;

type Counter = 'cycles' | 'picked' | 'good' | 'rejectOpen' | 'rejectEmpty' | 'crushed' | 'crushedPick';

/** The small line with a counter of blanks, and crushed cartons counted at pick, too. */
export function countedLine(change: Partial<Line> = {}): Line {
  return smallLine(change, [
    ...boundSignals,
    { id: 'picked', role: 'pickedCount', wraps: U32 },
    { id: 'crushedPick', role: 'crushedCount', of: 'pick', wraps: 65_536 },
  ]);
}

/** The small line turned by hand: what lies in its pockets is known, and its counters tell the fold what such a PLC tells. */
export class HandWorked {
  readonly line = countedLine();
  readonly fold = new LineFold(this.line);
  /** By distance to the check. */
  readonly pockets = new Array<number>(PICK + 1).fill(0);
  readonly shown: Record<Counter, number>;
  /** All that it has told. */
  readonly rows: (readonly [number, string, Value, number?])[] = [];
  second = 1;

  constructor(first: Partial<Record<Counter, number>> = {}) {
    const zero = { cycles: 0, picked: 0, good: 0, rejectOpen: 0, rejectEmpty: 0, crushed: 0, crushedPick: 0 };
    this.shown = { ...zero, ...first };
    const begun = running().map(([at, id, value]): [number, string, Value] => [
      at,
      id,
      this.shown[id as Counter] ?? value,
    ]);
    for (const id of ['picked', 'crushedPick'] as const) begun.push([0, id, this.shown[id]]);
    this.tell(begun);
  }

  get told(): FlowTold {
    return flowTold(this.fold.state.flow!);
  }

  /** Blanks picked that nothing accounts for; null while not known. */
  get unaccounted(): number | null {
    return this.told[5];
  }

  get lying(): number {
    return this.pockets.reduce((sum, cartons) => sum + cartons, 0);
  }

  /** So many whole cycles: every pocket moves on, the one at the check is counted, a blank is picked. */
  run(cycles: number, fate: 'good' | 'rejectOpen' | 'rejectEmpty' = 'good', picks = true): this {
    for (let n = 0; n < cycles; n += 1) {
      this.turn(fate, picks);
      this.show('cycles');
      this.second += 0.5;
      this.show(fate, 'picked');
      this.second += 0.4;
    }
    return this;
  }

  /** What a cycle does, without a word of it. */
  turn(fate: 'good' | 'rejectOpen' | 'rejectEmpty' = 'good', picks = true): void {
    this.advance();
    this.check(fate);
    if (picks) this.pick();
  }

  advance(): void {
    this.count('cycles', 1);
    this.pockets.shift();
    this.pockets.push(0);
  }

  check(fate: 'good' | 'rejectOpen' | 'rejectEmpty'): void {
    this.count(fate, this.pockets[0]!);
    this.pockets[0] = 0;
  }

  pick(): void {
    this.pockets[PICK]! += 1;
    this.count('picked', 1);
  }

  /** Pockets move on, or back, by hand-wheel: nothing is picked, and what comes to the check is counted. */
  jog(cycles: number): this {
    for (let n = 0; n < cycles; n += 1) this.run(1, 'good', false);
    for (let n = 0; n > cycles; n -= 1) {
      this.count('cycles', -1);
      this.pockets.unshift(0);
      this.show('cycles');
      this.second += 1;
    }
    // behind the pick as many places as it was turned back still hold what lay there
    if (cycles > 0) this.pockets.length = PICK + 1;
    return this;
  }

  count(counter: Counter, cartons: number): void {
    this.shown[counter] += cartons;
  }

  /** Tells what a counter shows now. */
  show(...counters: readonly Counter[]): this {
    this.tell(counters.map((id) => [this.second, id, this.shown[id]]));
    return this;
  }

  /** In the order of the line's signals, as what is looked at together is told. */
  tell(told: readonly (readonly [number, string, Value, number?])[]): this {
    const place = (id: string) => this.line.signals.findIndex((signal) => signal.id === id);
    const rows = [...told].sort((a, b) => place(a[1]) - place(b[1]));
    this.rows.push(...rows);
    // what follows is told later, and not at the same moment
    this.second += 0.05;
    this.fold.take(changes(this.line, rows));
    return this;
  }
}

/** A line that has run long enough for its pockets to be known: four cartons lie in them, and one pocket is at the check. */
export const settled = (first = {}) => new HandWorked(first).run(PASSAGE);

/** The parts that are told add up, and pockets are no more than there are. */
export function expectAddsUp([picked, good, rejected, crushed, pockets, unaccounted]: FlowTold): void {
  expect(picked).toBe(good + rejected + crushed + pockets! + unaccounted!);
  // one in each place from the pick to the check
  expect(pockets).toBeGreaterThanOrEqual(0);
  expect(pockets).toBeLessThanOrEqual(5);
}
