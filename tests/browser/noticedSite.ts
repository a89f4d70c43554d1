import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createApi } from '../../gateway/api/api.ts';
import { knownHost } from '../../gateway/api/hostNames.ts';
import { serverRows, signalRows } from '../../gateway/api/signalRows.ts';
import { dashboardFolder } from '../../gateway/commands/dashboard.ts';
import { type LiveLine, startLiveLine } from '../../gateway/live/liveLine.ts';
import { startSockets } from '../../gateway/live/sockets.ts';
import { startLineNotices } from '../../gateway/notices/lineNotices.ts';
import { Pages } from '../../gateway/notices/pages.ts';
import { openPeople } from '../../gateway/people/people.ts';
import { openRecords } from '../../gateway/records/records.ts';
import { openSqliteTape } from '../../gateway/tape/sqliteTape.ts';
import { epochMs, type Instant, seconds } from '../../model/units/units.ts';
import { presentFacts, startMachine } from '../../simulator/machine/machine.ts';
import type { PlcFact } from '../../simulator/machine/plc.ts';
import { boundLine, changesOf, monday } from '../simulator/simulatedLine.ts';

/** The web side of a gateway that watches a line led by hand: what it stops and makes is what a test says. */
export interface NoticedSite {
  readonly address: string;
  readonly live: LiveLine;
  readonly line: HandLed;
  /** Tells the gateway what the line did since the last time, and has it looked at once. */
  readonly told: () => Promise<void>;
  readonly end: () => Promise<void>;
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
  const { line } = bound;
  const folder = mkdtempSync(join(tmpdir(), 'scoreline-test-noticed-'));
  const tape = await openSqliteTape(folder, new Map([[line.id, line.signals]]));
  const records = openRecords(folder);
  const led = new HandLed();
  const clock = { second: 0 };
  const now = () => epochMs(at(clock.second));
  const outside = () => ({ servers: [{ id: 'plc', up: true }] });
  const live = await startLiveLine({ line, tape, records, now, speed: 1, outside, told: () => {} });
  const lines = new Map([[line.id, live]]);
  const known = knownHost([]);
  const people = openPeople(folder, { now });
  const pages = new Pages();
  const failed: unknown[] = [];
  const parts = { lines, tape, people, now, known, dashboard: dashboardFolder };
  const server = createServer(
    createApi({
      ...parts,
      past: { records, status: () => ({ kind: 'whole' }), cancel: () => {} },
      signals: () => signalRows(bound, live, []),
      servers: () => serverRows(bound, []),
      log: { error: (what: unknown) => void failed.push(what) },
    }),
  );
  const sockets = startSockets(server, lines, now, { known, people, pages });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  const watcher = startLineNotices({
    ...{ live, records, outside, now, pages, data: folder },
    address: () => `${address}/`,
    outbox: () => undefined,
    log: { warn: (what: unknown) => void failed.push(what) },
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
      await sockets.stop();
      server.closeAllConnections();
      await new Promise<void>((resolve) => void server.close(() => resolve()));
      await live.stop();
      people.close();
      records.close();
      await tape.close();
      rmSync(folder, { recursive: true, force: true });
      if (failed.length > 0) throw new Error(`the gateway failed: ${JSON.stringify(failed)}`);
    },
  };
}
