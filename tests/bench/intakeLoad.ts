import { after, type Instant, minutes } from '../../model/units/units.ts';
import {
  type Machine,
  presentFacts,
  runUntil,
  startMachine,
  takeEntries,
} from '../../simulator/machine/machine.ts';
import type { TagWrite } from '../../simulator/machine/plc.ts';
import { monday } from '../simulator/simulatedLine.ts';
import { tags } from './intakeLines.ts';

/** What a tag becomes. `tag` is its place in the list of tags. */
export interface Written {
  readonly tag: number;
  readonly value: TagWrite['value'];
}

/**
 * What a simulated line writes, one change after the other and without its times: whoever sends it makes the pace. All
 * lines of the bench are told the same, so that it is simulated once.
 */
export class Load {
  private readonly machine: Machine = startMachine({ seed: 1, start: monday, lockOuts: false });
  private readonly places = new Map(tags.map(({ tag }, place) => [tag, place]));
  private readonly values: unknown[] = [];
  private writes: Written[] = [];
  private dropped = 0;
  private until: Instant = monday;

  /** What every tag says at first. */
  first(): readonly Written[] {
    return this.known(presentFacts(this.machine));
  }

  /** The change of a number, counted from the first one of all. */
  at(number: number): Written {
    while (number - this.dropped >= this.writes.length) this.simulate();
    return this.writes[number - this.dropped]!;
  }

  /** Nobody asks any more for what comes before that number. */
  drop(number: number): void {
    if (number - this.dropped < 10_000) return;
    this.writes = this.writes.slice(number - this.dropped);
    this.dropped = number;
  }

  private simulate(): void {
    this.until = after(this.until, minutes(5));
    this.writes.push(...this.known(runUntil(this.machine, this.until)));
    takeEntries(this.machine);
  }

  /** A value that is written again is no change, and no server tells it. */
  private known(facts: ReturnType<typeof presentFacts>): Written[] {
    return facts.flatMap((fact) => {
      const tag = 'link' in fact ? undefined : this.places.get(fact.tag);
      if ('link' in fact || tag === undefined || this.values[tag] === fact.value) return [];
      this.values[tag] = fact.value;
      return [{ tag, value: fact.value }];
    });
  }
}
