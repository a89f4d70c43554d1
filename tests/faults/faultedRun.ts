import type { Entry } from '../../model/entries/entries.ts';
import type { LineEvent } from '../../model/fold/events.ts';
import { LineFold } from '../../model/fold/fold.ts';
import type { Line } from '../../model/line/line.ts';
import type { Change } from '../../model/signals/signals.ts';
import { epochMs, HOUR, type Instant, MINUTE } from '../../model/units/units.ts';
import type { Fault } from '../../simulator/faults/faults.ts';
import type { LedgerEntry } from '../../simulator/ledger/entries.ts';
import { type Ledger, ledgerOf } from '../../simulator/ledger/ledger.ts';
import { bundledOrders, orderAt } from '../../simulator/machine/orders.ts';
import type { TagWrite } from '../../simulator/machine/plc.ts';
import { openEntries, runUntil, startMachine, takeEntries } from '../../simulator/machine/machine.ts';
import { FakeLink } from '../gateway/intake/fakeLink.ts';
import { boundLine, monday } from '../simulator/simulatedLine.ts';
import { type LostValue, refusedItems } from './virtualQueues.ts';
import { VirtualServer } from './virtualServer.ts';

/** One run of the simulated line, heard through faults by the real intake, and folded as it came. */
export interface FaultedRun {
  readonly line: Line;
  readonly ledger: Ledger;
  readonly fold: LineFold;
  readonly events: readonly LineEvent[];
  readonly changes: readonly Change[];
  readonly to: Instant;
  /** What the machine's own PLC told, before any fault happened to it; where it is known. */
  readonly facts?: readonly TagWrite[];
  /** What of it nobody was ever told; where it is known. */
  readonly lost?: readonly LostValue[];
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
      clock: faults.some(({ kind }) => kind === 'local') ? 'local' : 'utc',
      queue: () => server.queue(),
      refused: refusedItems(faults, signals.length),
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
  const facts: TagWrite[] = [];
  const changes: Change[] = [...listedOrders(line, seed)];
  events.push(...fold.take(changes));
  const to = (monday + hours * HOUR) as Instant;
  await server.open();
  for (let at = (monday + MINUTE) as Instant; at <= to; at = (at + MINUTE) as Instant) {
    const told = runUntil(machine, at);
    for (const fact of told) if ('tag' in fact) facts.push(fact);
    await server.pass(told, at);
    const fresh = link!.changes.splice(0);
    changes.push(...fresh);
    // batch by batch, as they arrived
    events.push(...fold.take(fresh));
    entries.push(...takeEntries(machine));
  }
  const ledger = ledgerOf([...entries, ...openEntries(machine)]);
  return { line, ledger, fold, events, changes, to, facts, lost: server.lost() };
}

/** More than are made in a shift. */
const ORDERS = 8;

/** The list of orders, as a gateway writes it on the tape. */
function listedOrders({ signals }: Line, seed: number): readonly Change[] {
  const signal = signals.findIndex(({ role }) => role === 'entry');
  const at = monday;
  return Array.from({ length: ORDERS }, (_, place): Change => {
    const { number, size, blend, quantity } = orderAt(bundledOrders, seed, place);
    const entry: Entry = {
      ...{ kind: 'orderListed', number, size, blend, quantity },
      ...{ id: `order ${place}`, at: epochMs(at), author: { kind: 'file', file: 'orders.csv' } },
    };
    return { signal, at, received: at, status: 0, value: JSON.stringify(entry) };
  });
}
