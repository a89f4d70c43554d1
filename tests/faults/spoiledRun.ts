import { LineFold } from '../../model/fold/fold.ts';
import { byLineTime, type Change, type Role, type Value } from '../../model/signals/signals.ts';
import { type Instant, SECOND } from '../../model/units/units.ts';
import type { Fault } from '../../simulator/faults/faults.ts';
import { monday } from '../simulator/simulatedLine.ts';
import type { FaultedRun } from './faultedRun.ts';
import { judge } from './judge.ts';

/** What somebody makes of what was recorded. */
export type Spoil = (changes: readonly Change[]) => readonly Change[];

/** A run of which something else had been recorded than there was to record, for a judge that has to find it wrong. */
export class SpoiledRun {
  readonly run: FaultedRun;
  private readonly faults: readonly Fault[];

  constructor(run: FaultedRun, faults: readonly Fault[]) {
    this.run = run;
    this.faults = faults;
  }

  /** All that the judge finds wrong. */
  judged(spoil: Spoil = (changes) => changes): readonly string[] {
    const fold = new LineFold(this.run.line);
    const changes = [...spoil(this.run.changes)].sort(byLineTime);
    return judge({ ...this.run, changes, fold, events: fold.take(changes) }, this.faults, monday).wrong;
  }

  /** Whether a change is one of a role, and of that for which there are several. */
  is({ signal }: Change, role: Role, of?: string): boolean {
    const known = this.run.line.signals[signal]!;
    return known.role === role && (of === undefined || known.of === of);
  }

  count(role: Role, of?: string): number {
    return this.run.changes.filter((change) => this.is(change, role, of)).length;
  }

  /** Only the first value of each is left. */
  without(role: Role, of?: string): Spoil {
    return (changes) => {
      const firsts = new Set<number>();
      return changes.filter((change) => {
        if (this.is(change, role, of) && firsts.has(change.signal)) return false;
        firsts.add(change.signal);
        return true;
      });
    };
  }

  /** From so many seconds on they come so much later, or earlier. */
  moved(role: Role, seconds: number, from = 1800): Spoil {
    return (changes) =>
      changes.map((change) =>
        this.is(change, role) && change.at > monday + from * SECOND
          ? { ...change, at: (change.at + seconds * SECOND) as Instant }
          : change,
      );
  }

  valued(role: Role, value: (before: Value) => Value): Spoil {
    return (changes) =>
      changes.map((change) => (this.is(change, role) ? { ...change, value: value(change.value) } : change));
  }

  /** One value more, at so many seconds. */
  with(role: Role, value: Value, seconds: number, of?: string): Spoil {
    return (changes) => {
      const like = changes.find((change) => this.is(change, role, of))!;
      const at = (monday + seconds * SECOND) as Instant;
      return [...changes, { ...like, at, received: at, value, status: 0 }];
    };
  }
}

/** One after the other. */
export function all(...spoils: readonly Spoil[]): Spoil {
  return (changes) => spoils.reduce((spoiled, spoil) => spoil(spoiled), changes);
}
