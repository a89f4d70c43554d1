import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import {
  AttributeIds,
  ClientMonitoredItem,
  ClientSubscription,
  constructEventFilter,
  DataType,
  OPCUACertificateManager,
  OPCUAClient,
  TimestampsToReturn,
} from 'node-opcua';
import { pino } from 'pino';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { stringify } from 'yaml';
import type { SignalRow } from '../../gateway/api/schemas.ts';
import { type Gateway, run } from '../../gateway/commands/run.ts';
import { epochMs, type Instant, instantFromMs } from '../../model/units/units.ts';
import type { LineView, PressView } from '../../model/view/view.ts';
import { tagsOf } from '../../simulator/lines/tags.ts';
import { devicesOf, standard } from '../../simulator/lines/variant.ts';
import { lineFile } from '../../simulator/lines/variants.ts';
import { presentFacts, startMachine } from '../../simulator/machine/machine.ts';
import { type PlcServer, startPlcServer } from '../../simulator/server/plcServer.ts';
import { poll } from '../integration/process.ts';
import { namespace, startTestServer, type TestServer } from './intake/testServer.ts';

const PRESSES = 40;
const PRESS_MS = 30;
const SAMPLING_MS = 100;
/** Told after the last press: with it everything before it has come. */
const LAST_LOT = 'after the presses';

/*
 * One gateway hears two servers: the simulated PLC, which tells every change and raises an event at each press, and a
 * relay that looks at its tags every 100 ms. For 30 ms each are pressed, 40 times, a stop device of the PLC and one of the
 * relay, both with a counted twin, and every other time another one of the relay, without.
 */
const folder = mkdtempSync(join(tmpdir(), 'scoreline-presses-'));
const told: Instant[] = [];
let plc: PlcServer;
let relay: TestServer;
let gateway: Gateway;
let view: LineView;
let rows: ReadonlyMap<string, SignalRow>;
let events: number;

beforeAll(async () => {
  [plc, relay] = await Promise.all([startPlc(), startRelay()]);
  gateway = await run(
    { ...unasked, line: writeLine(), data: join(folder, 'data') },
    { log: pino({ level: 'silent' }), say: () => {} },
  );
  await poll(async () => (await ask<{ up: boolean }[]>('servers')).every(({ up }) => up));
  const heard = await hearEvents();
  await pressAll();
  rows = await poll(async () => {
    const now = new Map((await ask<SignalRow[]>('signals')).map((row) => [`${row.role} ${row.of}`, row]));
    const last = now.get('lot null')?.value === LAST_LOT;
    return last && now.get('stopDeviceCount counted')?.value === PRESSES && now;
  });
  view = await ask<LineView>('view');
  events = await heard();
});

afterAll(async () => {
  await gateway?.stop();
  await Promise.all([plc?.stop(), relay?.stop()]);
  rmSync(folder, { recursive: true, force: true });
});

it('[PS1] forty of forty presses of 30 ms are records of their own, each with its exact moment', () => {
  const seen = pressesOf('main-panel');
  expect(seen.map(({ known }) => known)).toEqual(Array(PRESSES).fill('edge'));
  expect(seen.map(({ id }) => id)).toEqual(told.map((at) => idOf('main-panel', at)));
  expect(seen.map(({ released }) => released)).toEqual(told.map((at) => epochMs(releasedAt(at))));
});

it('[PS3] a press that tag, counted twin and event tell is one record', () => {
  expect(events).toBe(2 * PRESSES);
  expect(rows.get('stopDeviceCount main-panel')).toMatchObject({ value: PRESSES });
  expect(pressesOf('main-panel')).toHaveLength(PRESSES);
});

it('[PS3] what a sampling server misses, its counted twin shows: seen and found together are forty', () => {
  const all = pressesOf('counted');
  const seen = all.filter(({ known }) => known === 'edge');
  expect(all).toHaveLength(PRESSES);
  expect(seen.length).toBeLessThan(PRESSES);
  expect(all.filter(({ known }) => known === 'count')).toHaveLength(PRESSES - seen.length);
  const moments = told.map((at) => idOf('counted', at));
  expect(seen.filter(({ id }) => !moments.includes(id))).toEqual([]);
});

it('[PS3] without a twin no press is made up, and its row says that shorter ones may be missed', () => {
  const seen = pressesOf('bare');
  expect(seen.length).toBeLessThan(PRESSES / 2);
  const moments = told.map((at) => idOf('bare', at));
  expect(seen.filter(({ id }) => !moments.includes(id))).toEqual([]);
  expect(rows.get('stopDevice bare')).toMatchObject({
    twin: false,
    samplingMs: SAMPLING_MS,
    missable:
      'It has no counted twin, and its server looks only every 100 ms: a shorter press may be missed.',
  });
  expect(rows.get('stopDevice counted')).toMatchObject({
    twin: true,
    samplingMs: SAMPLING_MS,
    missable:
      'Its server looks every 100 ms: of a shorter press the moment may be missed, and its counted twin tells only that it was.',
  });
  expect(rows.get('stopDevice main-panel')).toMatchObject({ twin: true, samplingMs: 0, missable: null });
});

const unasked = {
  port: 0,
  host: '127.0.0.1',
  names: [],
  fresh: false,
  speed: 1,
  seed: undefined,
  from: undefined,
  help: false,
} as const;

async function startPlc(): Promise<PlcServer> {
  mkdirSync(join(folder, 'plc'));
  const server = await startPlcServer({
    port: 0,
    certificates: join(folder, 'plc'),
    tags: tagsOf(standard),
    devices: devicesOf(standard),
  });
  await server.tell(presentFacts(startMachine({ seed: 1, start: instantFromMs(Date.now()) })));
  return server;
}

const relayTags = {
  Counted: DataType.Boolean,
  CountedCount: DataType.UInt16,
  Bare: DataType.Boolean,
} as const;

async function startRelay(): Promise<TestServer> {
  const server = await startTestServer({ tags: relayTags, samplingMs: SAMPLING_MS });
  const at = instantFromMs(Date.now());
  server.set('Counted', false, at);
  server.set('CountedCount', 0, at);
  server.set('Bare', false, at);
  return server;
}

/** The bundled line with a second server, in a shift that neither begins nor ends just now. */
function writeLine(): string {
  const file = lineFile(standard) as Record<'servers' | 'devices' | 'signals', object[]>;
  const [plcServer] = file.servers;
  const wall = (hours: number) => new Date(Date.now() + hours * 3_600_000).toISOString().slice(11, 16);
  const text = stringify({
    ...file,
    line: { ...(file as unknown as { line: object }).line, zone: 'Etc/UTC' },
    calendar: { shifts: [{ id: 'early', name: 'early shift', from: wall(-4), to: wall(4) }] },
    orders: undefined,
    servers: [
      { ...plcServer, endpoint: plc.endpoint },
      { ...plcServer, id: 'relay', endpoint: relay.endpoint, namespace },
    ],
    devices: [
      ...file.devices,
      { id: 'counted', name: 'counted', side: 'front' },
      { id: 'bare', name: 'bare', side: 'back' },
    ],
    signals: [
      // this machine stands still, and its heart with it
      ...file.signals
        .filter((signal) => (signal as { role: string }).role !== 'heartbeat')
        .map((signal) => ({ ...signal, server: 'plc' })),
      { role: 'stopDevice', of: 'counted', server: 'relay', tag: 'Counted' },
      { role: 'stopDeviceCount', of: 'counted', server: 'relay', tag: 'CountedCount', width: 16 },
      { role: 'stopDevice', of: 'bare', server: 'relay', tag: 'Bare' },
    ],
  });
  const path = join(folder, 'line.yaml');
  writeFileSync(path, text);
  return path;
}

/** Each press at a phase of its own against the sampling. */
async function pressAll(): Promise<void> {
  for (let n = 1; n <= PRESSES; n += 1) {
    const at = instantFromMs(Date.now(), 1234);
    told.push(at);
    await plc.tell([
      { at, tag: 'Stop.MainPanel', value: true },
      { at, tag: 'Stop.MainPanelCount', value: n },
    ]);
    relay.set('Counted', true, at);
    relay.set('CountedCount', n, at);
    if (n % 2 === 0) relay.set('Bare', true, at);
    await setTimeout(PRESS_MS);
    const released = releasedAt(at);
    await plc.tell([{ at: released, tag: 'Stop.MainPanel', value: false }]);
    relay.set('Counted', false, released);
    relay.set('Bare', false, released);
    await setTimeout(20 + ((n * 37) % 40));
  }
  await plc.tell([{ at: instantFromMs(Date.now()), tag: 'Magazine.BoardLot', value: LAST_LOT }]);
}

/** As the PLC stamps it: 30 ms later to the tick, however late a timer came. */
function releasedAt(pressed: Instant): Instant {
  return (pressed + PRESS_MS * 10_000) as Instant;
}

function idOf(device: string, pressed: Instant): string {
  const place = ids.indexOf(device);
  return `${place}-${pressed.toString(36)}`;
}

const ids = [...devicesOf(standard).map(({ id }) => id), 'counted', 'bare'];

function pressesOf(device: string): PressView[] {
  return view.trend.presses.filter(({ id }) => id.startsWith(`${ids.indexOf(device)}-`));
}

async function ask<Answer>(what: string): Promise<Answer> {
  return (await (await fetch(`${gateway.address}api/lines/line-3/${what}`)).json()) as Answer;
}

/** Another client listens to the PLC's events; when it has ended, how many it was told. */
async function hearEvents(): Promise<() => Promise<number>> {
  const manager = new OPCUACertificateManager({ rootFolder: join(folder, 'plc') });
  await manager.initialize();
  const client = OPCUAClient.create({ clientCertificateManager: manager, endpointMustExist: false });
  await client.connect(plc.endpoint);
  const session = await client.createSession();
  const subscription = ClientSubscription.create(session, {
    requestedPublishingInterval: 100,
    publishingEnabled: true,
  });
  const item = ClientMonitoredItem.create(
    subscription,
    { nodeId: 'ns=0;i=2253', attributeId: AttributeIds.EventNotifier },
    { samplingInterval: 0, queueSize: 200, filter: constructEventFilter(['Message', 'SourceName']) },
    TimestampsToReturn.Both,
  );
  let count = 0;
  item.on('changed', () => {
    count += 1;
  });
  await poll(() => item.monitoredItemId !== undefined);
  return async () => {
    await poll(() => count >= 2 * PRESSES);
    await subscription.terminate();
    await session.close();
    await client.disconnect();
    return count;
  };
}
