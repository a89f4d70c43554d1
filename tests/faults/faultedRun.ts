import type { LineEvent } from '../../model/fold/events.ts';
import { LineFold } from '../../model/fold/fold.ts';
import type { Line } from '../../model/line/line.ts';
import type { Change } from '../../model/signals/signals.ts';
import { epochMs, HOUR, type Instant, MINUTE } from '../../model/units/units.ts';
import type { Fault } from '../../simulator/faults/faults.ts';
import type { LedgerEntry } from '../../simulator/ledger/entries.ts';
import { type Ledger, ledgerOf } from '../../simulator/ledger/ledger.ts';
import { openEntries, runUntil, startMachine, takeEntries } from '../../simulator/machine/machine.ts';
import { FakeLink } from '../gateway/intake/fakeLink.ts';
import { boundLine, monday } from '../simulator/simulatedLine.ts';
import { VirtualServer } from './virtualServer.ts';

/** One run of the simulated line, heard through faults by the real intake, and folded as it came. */
export interface FaultedRun {
  readonly line: Line;
  readonly ledger: Ledger;
  readonly fold: LineFold;
  readonly events: readonly LineEvent[];
  readonly changes: readonly Change[];
  readonly to: Instant;
}

/** So many hours from Monday's early shift on, by virtual time. */
export async function runFaulted(seed: number, hours: number, faults: readonly Fault[]): Promise<FaultedRun> {
  const bound = boundLine();
  const { line } = bound;
  const machine = startMachine({ seed, start: monday, lively: 2 });
  const linkSignal = line.signals.findIndex(({ role }) => role === 'link');
  const signals = [...bound.tags.keys()].map((place) => line.signals[place]!);
  const linkTo = (server: VirtualServer) =>
    new FakeLink({
      signals,
      linkSignal,
      began: epochMs(monday),
      reading: () => server.reading(),
      clockMs: () => server.clock(),
      moved: () => server.moved(),
      reopened: () => server.reopened(),
    });
  let link: FakeLink | undefined;
  const server = new VirtualServer({
    bound,
    faults,
    start: monday,
    seed,
    link: (of) => {
      link = linkTo(of);
      return link;
    },
  });
  const fold = new LineFold(line);
  const events: LineEvent[] = [];
  const entries: LedgerEntry[] = [];
  const changes: Change[] = [];
  const to = (monday + hours * HOUR) as Instant;
  await server.open();
  for (let at = (monday + MINUTE) as Instant; at <= to; at = (at + MINUTE) as Instant) {
    await server.pass(runUntil(machine, at), at);
    const fresh = link!.changes.splice(0);
    changes.push(...fresh);
    // batch by batch, as they arrived
    events.push(...fold.take(fresh));
    entries.push(...takeEntries(machine));
  }
  return { line, ledger: ledgerOf([...entries, ...openEntries(machine)]), fold, events, changes, to };
}
