import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readSymptoms, symptomsPath } from '../../../gateway/binding/symptomsFile.ts';
import { demoLineFile } from '../../../gateway/commands/demo.ts';
import { createApi } from '../../../gateway/api/api.ts';
import { knownHost } from '../../../gateway/api/hostNames.ts';
import { signalRows } from '../../../gateway/api/signalRows.ts';
import { type LiveLine, startLiveLine } from '../../../gateway/live/liveLine.ts';
import { openRecords } from '../../../gateway/records/records.ts';
import { epochMs, HOUR, type Instant, type Span } from '../../../model/units/units.ts';
import { type Machine, runUntil, startMachine } from '../../../simulator/machine/machine.ts';
import type { MachineOptions } from '../../../simulator/machine/options.ts';
import { boundLine, changesOf, monday } from '../../simulator/simulatedLine.ts';
import { Memory, openMemoryTape } from '../tape/memoryTape.ts';

/** The web side of a simulated line, some hours after Monday's early shift began, and no PLC. */
export interface SimulatedSite {
  readonly live: LiveLine;
  /** Under `/api/lines/ID/`. */
  readonly get: (path: string) => Promise<Response>;
  readonly enter: (body: object) => Promise<Response>;
  readonly described: () => Promise<unknown>;
  /** Puts the gateway's clock on. */
  readonly setNow: (at: Instant) => void;
  /** From now on it goes so far on whenever it is read. */
  readonly setGoing: (step: Span) => void;
  readonly close: () => Promise<void>;
}

export async function openSimulatedSite(
  hours: number,
  options: Partial<MachineOptions>,
  /** What is done to the machine at the beginning of each hour. */
  hourly: (machine: Machine, at: Instant) => void = () => {},
): Promise<SimulatedSite> {
  const bound = boundLine();
  const { line } = bound;
  const symptoms = await readSymptoms(symptomsPath(demoLineFile), line);
  const folder = mkdtempSync(join(tmpdir(), 'scoreline-test-simulated-'));
  const records = openRecords(folder);
  const tape = openMemoryTape(new Memory(), new Map([[line.id, line.signals]]));
  const end = (monday + hours * HOUR) as Instant;
  let clock = end;
  let step = 0;
  const now = () => {
    clock = (clock + step) as Instant;
    return epochMs(clock);
  };
  const outside = () => ({ servers: [{ id: 'plc', up: true }] });
  const live = await startLiveLine({ line, tape, records, now, speed: 1, outside, told: () => {} });
  const machine = startMachine({ seed: 1, start: monday, ...options });
  for (let at = monday; at < end; at = (at + HOUR) as Instant) {
    hourly(machine, at);
    await live.offer(changesOf(bound, runUntil(machine, (at + HOUR) as Instant)));
  }
  const failed: unknown[] = [];
  const server = createServer(
    createApi({
      lines: new Map([[line.id, live]]),
      tape,
      past: { records, status: () => ({ kind: 'whole' }), cancel: () => {}, symptoms: () => symptoms },
      now,
      signals: () => signalRows(bound, live, []),
      servers: () => [],
      known: knownHost([]),
      dashboard: folder,
      log: { error: (what: unknown) => void failed.push(what) },
    }),
  );
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/api`;
  return {
    live,
    get: (path) => fetch(`${address}/lines/${line.id}/${path}`),
    enter: (body) =>
      fetch(`${address}/lines/${line.id}/entries`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(body),
      }),
    setNow: (at) => {
      clock = at;
    },
    setGoing: (by) => {
      step = by;
    },
    described: async () => (await fetch(`${address}/openapi.json`)).json(),
    close: async () => {
      server.closeAllConnections();
      await new Promise<void>((resolve) => void server.close(() => resolve()));
      await live.stop();
      records.close();
      rmSync(folder, { recursive: true, force: true });
      if (failed.length > 0) throw new Error(`the gateway failed: ${String(failed[0])}`);
    },
  };
}
