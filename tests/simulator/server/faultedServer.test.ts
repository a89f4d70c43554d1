import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  AttributeIds,
  type ClientSession,
  type ClientSubscription,
  type DataChangeNotification,
  type DataValue,
  type NotificationMessage,
  OPCUACertificateManager,
  OPCUAClient,
  RepublishRequest,
  TimestampsToReturn,
} from 'node-opcua';
import { afterAll, afterEach, expect, it } from 'vitest';
import { after, type Instant, SECOND, type Span } from '../../../model/units/units.ts';
import { readFaults } from '../../../simulator/faults/language.ts';
import { tagsOf } from '../../../simulator/lines/tags.ts';
import { devicesOf, standard } from '../../../simulator/lines/variant.ts';
import { presentFacts, startMachine } from '../../../simulator/machine/machine.ts';
import { type FaultedServer, startFaultedServer } from '../../../simulator/server/faultedServer.ts';
import { namespaceUri } from '../../../simulator/server/plcServer.ts';
import { monday } from '../simulatedLine.ts';
import { until } from './until.ts';

const CEILING = 600_000;
const folder = mkdtempSync(join(tmpdir(), 'scoreline-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const ends: (() => Promise<unknown>)[] = [];

afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
}, CEILING);

interface Stage {
  readonly server: FaultedServer;
  /** Lets the line's time come to so many seconds after the start, and a tag change then. */
  to(seconds: number, tag?: string, value?: number): Promise<void>;
}

/** A server with faults whose time is the test's; nothing happens to its line. */
async function stage(faults: string): Promise<Stage> {
  let now: Instant = monday;
  const server = await startFaultedServer({
    ...{ port: 0, clock: () => now, start: monday, faults: readFaults(faults) },
    ...{ tags: tagsOf(standard), devices: devicesOf(standard), certificates: join(folder, 'server') },
  });
  ends.push(() => server.stop());
  await server.tell(presentFacts(startMachine({ seed: 1, start: monday })), monday);
  const to = async (seconds: number, tag?: string, value = 0) => {
    now = after(monday, Math.round(seconds * SECOND) as Span);
    const facts = tag === undefined ? [] : [{ at: now, tag, value }];
    await server.tell(facts, (now + 1) as Instant);
  };
  return { server, to };
}

/** A session that does not mend itself. */
async function connect({ endpoint }: FaultedServer) {
  const own = new OPCUACertificateManager({ rootFolder: join(folder, 'client') });
  await own.initialize();
  const client = OPCUAClient.create({
    clientCertificateManager: own,
    endpointMustExist: false,
    keepSessionAlive: false,
    connectionStrategy: { maxRetry: 0 },
  });
  ends.push(() => client.disconnect());
  await client.connect(endpoint);
  const session = await client.createSession();
  await session.readNamespaceArray();
  return { client, session };
}

async function open(server: FaultedServer): Promise<ClientSession> {
  return (await connect(server)).session;
}

interface Heard {
  readonly subscription: ClientSubscription;
  readonly messages: NotificationMessage[];
  readonly values: DataValue[];
  readonly revised: number;
}

/** Listens to one tag. */
async function hear(session: ClientSession, tag = 'Cartoner.Heartbeat', queueSize = 100): Promise<Heard> {
  const subscription = await session.createSubscription2({
    requestedPublishingInterval: 50,
    requestedMaxKeepAliveCount: 1000,
    requestedLifetimeCount: 10_000,
    publishingEnabled: true,
  });
  const messages: NotificationMessage[] = [];
  const values: DataValue[] = [];
  subscription.on('raw_notification', (message: NotificationMessage) => {
    messages.push(message);
    for (const one of message.notificationData ?? []) {
      const items = (one as DataChangeNotification).monitoredItems ?? [];
      values.push(...items.map(({ value }) => value));
    }
  });
  const nodeId = `ns=${session.getNamespaceIndex(namespaceUri)};s=${tag}`;
  const item = await subscription.monitor(
    { nodeId, attributeId: AttributeIds.Value },
    { samplingInterval: 0, queueSize, discardOldest: true },
    TimestampsToReturn.Both,
  );
  await until(() => values.length > 0);
  return { subscription, messages, values, revised: item.monitoringParameters.queueSize };
}

const numbers = ({ values }: Heard) => values.map(({ value }) => value.value as unknown);
const beat = 'Cartoner.Heartbeat';

it(
  'a server killed has forgotten its sessions, and gives its ids again where it is to; a download moves the namespace',
  async () => {
    const { server, to } = await stage(`0:00:10 server killed for 1 s
      0:00:20 server killed with the same ids for 1 s
      0:00:30 program downloaded for 1 s`);
    const found: (readonly [number, number])[] = [];
    for (const seconds of [0, 11, 21, 31]) {
      await to(seconds - 0.5);
      await to(seconds);
      const session = await open(server);
      const { subscription } = await hear(session, 'Discharge.Good');
      found.push([subscription.subscriptionId, session.getNamespaceIndex(namespaceUri)]);
      if (seconds === 0) await to(10.5);
      if (seconds === 0) await expect(open(server)).rejects.toThrow();
    }
    const [first, second, third] = found;
    expect(second![0]).not.toBe(first![0]);
    expect(third![0]).toBe(second![0]);
    expect(found.map(([, place]) => place - first![1])).toEqual([0, 0, 0, 1]);
    const value = await (await open(server)).read({
      nodeId: `ns=${found[3]![1]};s=Discharge.Good`,
      attributeId: AttributeIds.Value,
    });
    expect(value.value.value).toBe(0);
  },
  CEILING,
);

it(
  'a queue is as short as its client is told, and marks what it dropped unless it is silent',
  async () => {
    const { server, to } = await stage('0:00:10 queues of 5 for 10 s\n0:00:20 queues of 5 silent for 10 s');
    const session = await open(server);
    const before = await hear(session);
    expect(before.revised).toBe(100);
    const bits: (readonly boolean[])[] = [];
    for (const [from, most] of [
      [10, 5],
      [20, 5],
      [30, 100],
    ] as const) {
      await to(from);
      const during = await hear(session);
      expect(during.revised).toBe(most);
      for (const heard of [before, during]) heard.values.length = 0;
      for (let n = 1; n <= 12; n += 1) await to(from + n / 10, beat, from + n);
      await until(() => [before, during].every((heard) => numbers(heard).at(-1) === from + 12));
      expect(numbers(before)).toEqual(numbers(during));
      expect(numbers(before).length).toBe(Math.min(most, 12));
      bits.push(before.values.map(({ statusCode }) => statusCode.hasOverflowBit));
    }
    expect(bits).toEqual([
      [true, false, false, false, false],
      [false, false, false, false, false],
      Array.from({ length: 12 }, () => false),
    ]);
  },
  CEILING,
);

it(
  'a small server tells the last of what changed between two looks, and refuses what is beyond its limit',
  async () => {
    const { server, to } = await stage(
      '0:00:00 values sampled every 200 ms for 10 s\n0:00:00 no more than 2 items for 10 s',
    );
    const session = await open(server);
    const { subscription, ...heard } = await hear(session);
    heard.values.length = 0;
    for (let n = 1; n <= 50; n += 1) await to(n / 100, beat, n);
    await until(() => heard.values.at(-1)?.value.value === 50);
    expect(heard.values.length).toBeLessThan(25);
    const ask = async (tag: string) => {
      const nodeId = `ns=${session.getNamespaceIndex(namespaceUri)};s=${tag}`;
      const item = await subscription.monitor(
        { nodeId, attributeId: AttributeIds.Value },
        { samplingInterval: 0, queueSize: 10, discardOldest: true },
        TimestampsToReturn.Both,
      );
      return [item.statusCode.name, item.monitoringParameters.samplingInterval];
    };
    expect(await ask('Discharge.Good')).toEqual(['Good', 200]);
    expect((await ask('Pick.Missed'))[0]).toBe('BadTooManyMonitoredItems');
    await to(11);
    expect(await ask('Pick.Blanks')).toEqual(['Good', 0]);
  },
  CEILING,
);

it(
  'a bad value overflows, too, and comes with its status',
  async () => {
    const { server, to } = await stage(
      `0:00:00 queues of 5 for 1 min\n0:00:10 value ${beat} bad with value for 9 s\n0:00:30 value ${beat} bad for 9 s`,
    );
    const heard = await hear(await open(server));
    for (let n = 1; n <= 12; n += 1) await to(10 + n / 10, beat, n);
    await until(() => numbers(heard).at(-1) === 12);
    expect(heard.values.at(-5)!.statusCode.hasOverflowBit).toBe(true);
    expect(heard.values.at(-1)!.statusCode.value).toBe(0x80050000);
    await to(30.5);
    await until(() => heard.values.at(-1)!.value.value === null);
    expect(heard.values.at(-1)!.statusCode.value).toBe(0x80050000);
  },
  CEILING,
);

it(
  'values, the clock and publishes carry the time that the PLC’s clock says, and no source time where it gives none',
  async () => {
    const { server, to } = await stage(
      '0:00:10 clock stepped by 1 h\n0:00:20 stamps missing for 5 s\n0:00:30 clock local',
    );
    const session = await open(server);
    const heard = await hear(session);
    const seen: (readonly (string | undefined)[])[] = [];
    for (const seconds of [5, 15, 22, 35]) {
      await to(seconds, beat, seconds);
      await until(() => numbers(heard).at(-1) === seconds);
      const clock = await session.read({ nodeId: 'i=2258', attributeId: AttributeIds.Value });
      const value = heard.values.at(-1)!;
      const times = [
        value.sourceTimestamp,
        value.serverTimestamp,
        heard.messages.at(-1)!.publishTime,
        clock.value.value as Date,
      ];
      seen.push(
        times.map((time) => (time && time.getTime() > 0 ? time.toISOString().slice(11, 19) : undefined)),
      );
    }
    const four = (time: string) => [time, time, time, time];
    expect(seen).toEqual([
      four('05:00:05'),
      four('06:00:15'),
      [undefined, '06:00:22', '06:00:22', '06:00:22'],
      four('07:00:35'),
    ]);
  },
  CEILING,
);

it(
  'messages come twice, the second time after the next one, and mixed',
  async () => {
    const { server, to } = await stage('0:00:10 messages twice for 10 s\n0:00:30 messages mixed for 10 s');
    const heard = await hear(await open(server));
    heard.messages.length = 0;
    for (const seconds of [11, 12, 13]) {
      await to(seconds, beat, seconds);
      await until(() => numbers(heard).includes(seconds));
    }
    const [first] = heard.messages.map(({ sequenceNumber }) => sequenceNumber);
    await until(() => heard.messages.length === 5);
    expect(heard.messages.map(({ sequenceNumber }) => sequenceNumber - first!)).toEqual([0, 1, 0, 2, 1]);
    heard.values.length = 0;
    const all = Array.from({ length: 20 }, (_, n) => 100 + n);
    for (const n of all) await to(30 + n / 1000, beat, n);
    // the last of those that come twice comes with them
    await until(() => heard.values.length >= 21);
    const mixed = numbers(heard).filter((value) => value !== 13);
    expect(mixed).not.toEqual(all);
    expect(mixed.toSorted()).toEqual(all);
  },
  CEILING,
);

it(
  'asked again for what it does not have, it says so, or answers with nothing',
  async () => {
    const { server, to } = await stage('0:00:10 answers empty for 10 s');
    const session = await open(server);
    const { subscription } = await hear(session);
    const ask = () =>
      (session as unknown as { republish(request: RepublishRequest): Promise<object> }).republish(
        new RepublishRequest({ subscriptionId: subscription.subscriptionId, retransmitSequenceNumber: 99 }),
      );
    await expect(ask()).rejects.toThrow(/BadMessageNotAvailable/);
    await to(11);
    expect(await ask()).toMatchObject({ notificationMessage: { notificationData: [] } });
  },
  CEILING,
);

it(
  'a client whose certificate is refused loses its session, and gets none until it is trusted again',
  async () => {
    const { server, to } = await stage('0:00:10 certificate refused for 10 s');
    const session = await open(server);
    await to(11);
    await expect(session.read({ nodeId: 'i=2258', attributeId: AttributeIds.Value })).rejects.toThrow();
    await expect(open(server)).rejects.toThrow(/BadSecurityChecksFailed/);
    await to(20);
    await open(server);
  },
  CEILING,
);

it(
  'a keep-alive is heard, then nothing comes through until the connection breaks',
  async () => {
    const { server, to } = await stage('0:00:10 keep-alive before dark for 10 s');
    const { client, session } = await connect(server);
    const heard = await hear(session);
    await to(11, beat, 11);
    await until(() => (heard.messages.at(-1)!.notificationData ?? []).length === 0);
    const [said, next] = heard.messages.slice(-2).map(({ sequenceNumber }) => sequenceNumber);
    expect(next! - said!).toBe(1);
    let broken = false;
    for (const event of ['connection_lost', 'close'] as const) {
      client.on(event, () => {
        broken = true;
      });
    }
    await to(12, beat, 12);
    for (let turn = 0; turn < 20; turn += 1) await new Promise((resolve) => setTimeout(resolve, 10));
    expect([numbers(heard).at(-1), broken]).toEqual([11, false]);
    await to(20.5);
    await until(() => broken);
    expect(numbers(heard).at(-1)).toBe(11);
  },
  CEILING,
);
