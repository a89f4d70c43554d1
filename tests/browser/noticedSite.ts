import { startLineNotices } from '../../gateway/notices/lineNotices.ts';
import { Pages } from '../../gateway/notices/pages.ts';
import { epochMs, type Instant, seconds } from '../../model/units/units.ts';
import { presentFacts, startMachine } from '../../simulator/machine/machine.ts';
import type { PlcFact } from '../../simulator/machine/plc.ts';
import { boundLine, changesOf, monday } from '../simulator/simulatedLine.ts';
import { openGatewaySite, outside, type Site } from './gatewaySite.ts';

/** The web side of a gateway that watches a line led by hand: what it stops and makes is what a test says. */
export interface NoticedSite extends Site {
  readonly line: HandLed;
  /** Tells the gateway what the line did since the last time, and has it looked at once. */
  readonly told: () => Promise<void>;
}

const bound = boundLine();

/** Fifty good cartons a minute, stops of the bottom major flap in between, and sizes in turn: told in line time from Monday six on. */
export class HandLed {
  second = 0;
  facts: PlcFact[] = [...presentFacts(startMachine({ seed: 1, start: monday }))];
  private lots = 0;
  private readonly counted = new Map<string, number>();

  constructor() {
    for (const fact of this.facts)
      if ('tag' in fact && typeof fact.value === 'number') this.counted.set(fact.tag, fact.value);
    this.facts.push({ at: monday, link: true });
    this.tell('Cartoner.Size', 20).tell('Cartoner.State', 6).tell('Cartoner.Mode', 1);
  }

  run(cartons: number): this {
    for (let more = 0; more < cartons; more += 10) {
      this.pass(12);
      for (const tag of ['Cartoner.Cycles', 'Pick.Blanks', 'Discharge.Good']) this.count(tag, 10);
    }
    return this;
  }

  /** A tuck jam at the bottom major flap. */
  jam(lasts = 40): this {
    this.begin();
    return this.clear(lasts);
  }

  begin(): this {
    this.pass(1);
    this.tell('Cartoner.State', 11).tell('Cartoner.FirstOut', 51);
    return this;
  }

  clear(lasts: number): this {
    this.pass(lasts);
    return this.tell('Cartoner.State', 6).tell('Cartoner.FirstOut', 0);
  }

  size(code: number): this {
    this.pass(30);
    return this.tell('Cartoner.Size', code);
  }

  /** Runs in which the station stopped as it always does, once in two thousand cartons; or not at all. Each has a lot of its own. */
  runs(count: number, stops = true): this {
    for (let n = 0; n < count; n += 1) {
      this.lots += 1;
      this.tell('Magazine.BoardLot', `B-${this.lots}`).run(1000);
      if (stops) this.jam();
      this.run(1000).size(48).run(60).size(20);
    }
    return this;
  }

  /** Time passes, and the program shows that it goes on. */
  pass(spent: number): this {
    const to = this.second + spent;
    while (this.second < to) {
      this.second = Math.min(to, this.second + 4);
      this.count('Cartoner.Heartbeat', 1);
    }
    return this;
  }

  private tell(tag: string, value: number | string): this {
    this.facts.push({ at: at(this.second), tag, value });
    return this;
  }

  private count(tag: string, more: number): void {
    const value = (this.counted.get(tag) ?? 0) + more;
    this.counted.set(tag, value);
    this.tell(tag, value);
  }
}

function at(second: number): Instant {
  return (monday + seconds(second)) as Instant;
}

export async function openNoticedSite(): Promise<NoticedSite> {
  const led = new HandLed();
  const clock = { second: 0 };
  const now = () => epochMs(at(clock.second));
  const pages = new Pages();
  const site = await openGatewaySite({ bound, now, pages });
  const { address, live, records } = site;
  const watcher = startLineNotices({
    ...{ live, records, outside, now, pages, data: site.folder },
    address: () => `${address}/`,
    outbox: () => undefined,
    log: { warn: site.failed },
  });
  return {
    address,
    live,
    line: led,
    told: async () => {
      clock.second = led.second;
      await live.offer(changesOf(bound, led.facts));
      led.facts = [];
      await watcher.turn();
    },
    end: async () => {
      await watcher.stop();
      await site.end();
    },
  };
}
