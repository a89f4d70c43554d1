import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  AttributeIds,
  ClientMonitoredItem,
  ClientSubscription,
  type DataValue,
  OPCUACertificateManager,
  OPCUAClient,
  TimestampsToReturn,
} from 'node-opcua';
import { expect, it } from 'vitest';
import { EPOCH_2020_MS, type Instant, TICKS_PER_MS } from '../../../model/units/units.ts';
import { tagsOf } from '../../../simulator/lines/tags.ts';
import { devicesOf, standard } from '../../../simulator/lines/variant.ts';
import { presentFacts, runUntil, startMachine } from '../../../simulator/machine/machine.ts';
import type { PlcFact } from '../../../simulator/machine/plc.ts';
import { machineTime, runLive, systemClock } from '../../../simulator/server/live.ts';
import { namespaceUri, startPlcServer } from '../../../simulator/server/plcServer.ts';
import { monday } from '../simulatedLine.ts';
import { until } from './until.ts';

const CEILING = 600_000;

it('machine time runs with the wall clock, as many times as fast as asked', () => {
  const pace = { at: monday, wall: 1_000, speed: 4 };
  expect(machineTime(pace, 1_000)).toBe(monday);
  expect(machineTime(pace, 1_250.5)).toBe(monday + 1_002 * TICKS_PER_MS);
});

/** A value and its moment as one line, to compare what was told with what was heard. */
const told = (fact: PlcFact) => ('tag' in fact ? `${fact.tag} ${fact.at} ${fact.value}` : `link ${fact.at}`);

function heard(tag: string, { value, sourceTimestamp, sourcePicoseconds }: DataValue): string {
  const ms = (sourceTimestamp?.getTime() ?? 0) - EPOCH_2020_MS;
  return `${tag} ${ms * TICKS_PER_MS + sourcePicoseconds / 100_000} ${value.value}`;
}

it(
  'a client hears every change that the live machine tells at ten times its pace, with its moment',
  async () => {
    const folder = mkdtempSync(join(tmpdir(), 'scoreline-test-'));
    const server = await startPlcServer({
      port: 0,
      certificates: folder,
      tags: tagsOf(standard),
      devices: devicesOf(standard),
    });
    const machine = startMachine({ seed: 3, start: monday, lockOuts: false });
    runUntil(machine, (monday + 1) as Instant);
    await server.tell(presentFacts(machine));
    const own = new OPCUACertificateManager({ rootFolder: join(folder, 'client') });
    await own.initialize();
    const client = OPCUAClient.create({ endpointMustExist: false, clientCertificateManager: own });
    await client.connect(server.endpoint);
    const session = await client.createSession();
    await session.readNamespaceArray();
    const subscription = ClientSubscription.create(session, {
      requestedPublishingInterval: 100,
      publishingEnabled: true,
      maxNotificationsPerPublish: 0,
    });
    const ears = new Set<string>();
    const first = new Set<string>();
    for (const { tag } of tagsOf(standard)) {
      const item = ClientMonitoredItem.create(
        subscription,
        { nodeId: `ns=${session.getNamespaceIndex(namespaceUri)};s=${tag}`, attributeId: AttributeIds.Value },
        { samplingInterval: 0, queueSize: 5_000, discardOldest: true },
        TimestampsToReturn.Both,
      );
      item.on('changed', (value: DataValue) => {
        if (first.has(tag)) ears.add(heard(tag, value));
        first.add(tag);
      });
    }
    await until(() => first.size === tagsOf(standard).length);
    const facts: PlcFact[] = [];
    const stop = new AbortController();
    const listener = {
      tell: async (news: readonly PlcFact[]) => {
        facts.push(...news);
        await server.tell(news);
        if (facts.length >= 700) stop.abort();
      },
      note: async () => {},
    };
    const pace = { at: (monday + 1) as Instant, wall: systemClock.now(), speed: 10 };
    await runLive(machine, pace, systemClock, listener, stop.signal);
    await until(() => ears.size >= facts.length);
    expect([...ears].sort()).toEqual(facts.map(told).sort());
    await client.disconnect();
    await server.stop();
    rmSync(folder, { recursive: true, force: true });
  },
  CEILING,
);
