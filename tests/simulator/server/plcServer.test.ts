import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  AttributeIds,
  ClientMonitoredItem,
  ClientSubscription,
  type ClientSession,
  constructEventFilter,
  DataType,
  type DataValue,
  OPCUACertificateManager,
  OPCUAClient,
  StatusCodes,
  TimestampsToReturn,
  type Variant,
} from 'node-opcua';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { instantFromMs } from '../../../model/units/units.ts';
import { tagsOf } from '../../../simulator/lines/tags.ts';
import { devicesOf, standard } from '../../../simulator/lines/variant.ts';
import { presentFacts, startMachine, runUntil } from '../../../simulator/machine/machine.ts';
import { namespaceUri, type PlcServer, startPlcServer } from '../../../simulator/server/plcServer.ts';
import { monday } from '../simulatedLine.ts';
import { until } from './until.ts';

const CEILING = 600_000;
const certificates = mkdtempSync(join(tmpdir(), 'scoreline-test-'));
/** Keeps the test's certificate out of the user's folders. */
const own = new OPCUACertificateManager({ rootFolder: join(certificates, 'client') });
let server: PlcServer;

beforeAll(async () => {
  await own.initialize();
  server = await startPlcServer({
    port: 0,
    certificates,
    tags: tagsOf(standard),
    devices: devicesOf(standard),
    clock: () => monday,
  });
  const machine = startMachine({ seed: 1, start: monday });
  runUntil(machine, (monday + 100_000_000) as typeof monday);
  await server.tell(presentFacts(machine));
}, CEILING);

afterAll(async () => {
  await server.stop();
  rmSync(certificates, { recursive: true, force: true });
}, CEILING);

/** Does something with a session of its own. */
async function withSession<Result>(
  work: (session: ClientSession, client: OPCUAClient) => Promise<Result>,
): Promise<Result> {
  const client = OPCUAClient.create({
    clientCertificateManager: own,
    endpointMustExist: false,
    connectionStrategy: { maxRetry: 0 },
  });
  await client.connect(server.endpoint);
  const session = await client.createSession();
  try {
    return await work(session, client);
  } finally {
    await session.close();
    await client.disconnect();
  }
}

const nodeOf = (session: ClientSession, tag: string) =>
  `ns=${session.getNamespaceIndex(namespaceUri)};s=${tag}`;

it(
  'every tag is a node of its own type, in the namespace that the line file names',
  async () => {
    const types = await withSession(async (session) => {
      await session.readNamespaceArray();
      const tags = tagsOf(standard);
      const values = await session.read(
        tags.map(({ tag }) => ({ nodeId: nodeOf(session, tag), attributeId: AttributeIds.Value })),
      );
      return values.map(({ value, statusCode }, index) => [
        tags[index]?.tag,
        DataType[value.dataType],
        statusCode.value,
      ]);
    });
    expect(types).toEqual(tagsOf(standard).map(({ tag, type }) => [tag, type, 0]));
  },
  CEILING,
);

it(
  'a value carries the machine time to 100 ns',
  async () => {
    const at = instantFromMs(Date.parse('2026-03-16T07:08:09.123Z'), 4_567);
    await server.tell([{ at, tag: 'Cartoner.Heartbeat', value: 4_242 }]);
    const read = await withSession(async (session) => {
      await session.readNamespaceArray();
      return session.read({ nodeId: nodeOf(session, 'Cartoner.Heartbeat'), attributeId: AttributeIds.Value });
    });
    expect(read.value.value).toBe(4_242);
    expect(read.sourceTimestamp?.toISOString()).toBe('2026-03-16T07:08:09.123Z');
    expect(read.sourcePicoseconds).toBe(4_567 * 100_000);
  },
  CEILING,
);

it(
  'a client that writes is refused, and the server knows that it was asked',
  async () => {
    expect(server.requests('WriteRequest')).toBe(0);
    const answer = await withSession(async (session) => {
      await session.readNamespaceArray();
      const value = { value: { dataType: DataType.Int32, value: 2 } };
      return session.write({
        nodeId: nodeOf(session, 'Cartoner.State'),
        attributeId: AttributeIds.Value,
        value,
      });
    });
    expect([StatusCodes.BadNotWritable.value, StatusCodes.BadUserAccessDenied.value]).toContain(answer.value);
    expect(server.requests('WriteRequest')).toBe(1);
    expect(server.requests('CallRequest')).toBe(0);
  },
  CEILING,
);

it(
  'a short pulse comes whole through a queue, and as events too',
  async () => {
    await withSession(async (session) => {
      await session.readNamespaceArray();
      const subscription = ClientSubscription.create(session, {
        requestedPublishingInterval: 50,
        publishingEnabled: true,
      });
      const pulses: unknown[] = [];
      const events: string[] = [];
      const settings = { samplingInterval: 0, queueSize: 100, discardOldest: true };
      const item = ClientMonitoredItem.create(
        subscription,
        { nodeId: nodeOf(session, 'Stop.MainPanel'), attributeId: AttributeIds.Value },
        settings,
        TimestampsToReturn.Both,
      );
      item.on('changed', (value: DataValue) => pulses.push(value.value.value));
      const eventItem = ClientMonitoredItem.create(
        subscription,
        { nodeId: 'ns=0;i=2253', attributeId: AttributeIds.EventNotifier },
        { ...settings, filter: constructEventFilter(['Message', 'SourceName']) },
        TimestampsToReturn.Both,
      );
      eventItem.on('changed', (fields: Variant[]) => events.push(String(fields[0]?.value?.text)));
      await until(() => pulses.length === 1 && eventItem.monitoredItemId !== undefined);
      const at = (ms: number) => instantFromMs(Date.parse('2026-03-16T08:00:00Z') + ms);
      await server.tell([
        { at: at(0), tag: 'Stop.MainPanel', value: true },
        { at: at(30), tag: 'Stop.MainPanel', value: false },
      ]);
      await until(() => pulses.length >= 3 && events.length >= 2);
      expect(pulses).toEqual([false, true, false]);
      expect(events).toEqual(['Stop device pressed: main panel', 'Stop device released: main panel']);
      await subscription.terminate();
    });
  },
  CEILING,
);

it(
  'without power nothing answers; with power it answers again, with the values as they were',
  async () => {
    const at = instantFromMs(Date.parse('2026-03-16T09:00:00Z'));
    await server.tell([{ at, link: false }]);
    await expect(withSession(async () => 'answered')).rejects.toThrow();
    await server.tell([{ at, link: true }]);
    const heart = await withSession(async (session) => {
      await session.readNamespaceArray();
      return session.read({ nodeId: nodeOf(session, 'Cartoner.Heartbeat'), attributeId: AttributeIds.Value });
    });
    expect(heart.value.value).toBe(4_242);
  },
  CEILING,
);

it(
  'power may go and come as often as it likes: nothing piles up',
  async () => {
    const warnings: string[] = [];
    const note = (warning: Error) => warnings.push(warning.message);
    process.on('warning', note);
    const at = instantFromMs(Date.parse('2026-03-16T11:00:00Z'));
    for (let times = 0; times < 14; times += 1) {
      await server.tell([
        { at, link: false },
        { at, link: true },
      ]);
    }
    await new Promise((resolve) => setImmediate(resolve));
    process.off('warning', note);
    expect(warnings).toEqual([]);
    expect(await withSession(async () => 'answered')).toBe('answered');
  },
  CEILING,
);

it(
  'losing power breaks the connections that are open',
  async () => {
    const client = OPCUAClient.create({
      clientCertificateManager: own,
      endpointMustExist: false,
      connectionStrategy: { maxRetry: 0 },
    });
    await client.connect(server.endpoint);
    await client.createSession();
    let broken = false;
    client.on('connection_lost', () => {
      broken = true;
    });
    client.on('close', () => {
      broken = true;
    });
    const at = instantFromMs(Date.parse('2026-03-16T10:00:00Z'));
    await server.tell([{ at, link: false }]);
    await until(() => broken);
    expect(broken).toBe(true);
    await client.disconnect();
    await server.tell([{ at, link: true }]);
  },
  CEILING,
);

it(
  'the server says the time that the machine keeps',
  async () => {
    const said = await withSession((session) =>
      session.read({ nodeId: 'i=2258', attributeId: AttributeIds.Value }),
    );
    expect(said.value.value).toEqual(new Date('2026-03-16T05:00:00Z'));
  },
  CEILING,
);
