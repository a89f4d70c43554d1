import { createHash } from 'node:crypto';
import { lastKnown } from '../../gateway/live/lastKnown.ts';
import { type LiveLine, startLiveLine } from '../../gateway/live/liveLine.ts';
import { openSqliteTape } from '../../gateway/tape/sqliteTape.ts';
import { after, epochMs, type Instant, SECOND, type Span } from '../../model/units/units.ts';
import { runUntil, startMachine } from '../../simulator/machine/machine.ts';
import { FakeLink } from '../gateway/intake/fakeLink.ts';
import { boundLine, monday } from '../simulator/simulatedLine.ts';
import { VirtualServer } from './virtualServer.ts';

/**
 * A process: tape, live line and intake of a gateway on a folder, hearing a simulated line in virtual time from a moment
 * on, until it is ended. It prints the position and hash of the state it resumed, and then, after each stretch, the
 * moment reached, the position that is durable, and the good cartons that it shows.
 */
const [folder, seed, from] = process.argv.slice(2) as [string, string, string];
const STRETCH = (5 * SECOND) as Span;

async function run(): Promise<never> {
  const bound = boundLine();
  const { line } = bound;
  const tape = await openSqliteTape(folder, new Map([[line.id, line.signals]]));
  const machine = startMachine({ seed: Number(seed), start: monday, lively: 2 });
  let now = Number(from) as Instant;
  const live = await startLiveLine({
    line,
    tape,
    now: () => epochMs(now),
    speed: 1,
    outside: () => ({ servers: [] }),
    told: () => {},
  });
  await said(`resumed ${live.position()} ${createHash('sha256').update(live.fold().text()).digest('hex')}`);
  const server = serverFor(live, bound, now);
  if (now > monday) server.skip(runUntil(machine, now), now);
  await server.open();
  for (;;) {
    now = after(now, STRETCH);
    await server.pass(runUntil(machine, now), now);
    await said(`${now} ${live.position()} ${live.view().plan.good}`);
  }
}

function serverFor(live: LiveLine, bound: ReturnType<typeof boundLine>, began: Instant): VirtualServer {
  const { line } = live;
  return new VirtualServer({
    bound,
    faults: [],
    start: monday,
    seed: Number(seed),
    link: (of) =>
      new FakeLink({
        signals: [...bound.tags.keys()].map((place) => line.signals[place]!),
        linkSignal: line.signals.findIndex(({ role }) => role === 'link'),
        began: epochMs(began),
        known: (signal) => lastKnown(live, signal),
        take: (changes) => live.offer(changes),
        reading: () => of.reading(),
        clockMs: () => of.clock(),
        moved: () => of.moved(),
        reopened: () => of.reopened(),
      }),
  });
}

function said(text: string): Promise<void> {
  return new Promise((resolve) => process.stdout.write(`${text}\n`, () => resolve()));
}

await run();
