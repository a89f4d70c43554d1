import { mkdirSync } from 'node:fs';
import {
  DataType,
  DataValue,
  nodesets,
  OPCUACertificateManager,
  OPCUAServer,
  type UAVariable,
  Variant,
} from 'node-opcua';
import { EPOCH_2020_MS, type Instant, instantFromMs, TICKS_PER_MS } from '../../model/units/units.ts';
import type { TagType } from '../../simulator/lines/tags.ts';
import { LINES, namespaceOf, PLACES, placeOf, tags } from './intakeLines.ts';
import { Load, type Written } from './intakeLoad.ts';
import { answerAll, Effort } from './intakeProcess.ts';

/** What the server is asked: where it is, to change values at a pace, and what it has done since, or up to a rest. */
export type ServerQuestion =
  | { readonly kind: 'where' }
  | { readonly kind: 'pace'; readonly perSecond: number }
  | { readonly kind: 'measure' }
  | { readonly kind: 'measured' }
  | { readonly kind: 'rest' };

export interface ServerAnswer {
  readonly endpoint: string;
  /** Changes since it was asked to measure. */
  readonly perSecond: number;
  /** % of one core, and of the time, since then. */
  readonly cpu: number;
  readonly busy: number;
  /** Changes of each tag of each line, of all that was sent so far. */
  readonly counts: readonly number[];
}

/** Between two turns; what is due by then is sent at one go. Milliseconds. */
const TURN_MS = 5;
/** A turn makes up for no more than so much, or publishing would come to a halt. Seconds. */
const MOST = 0.05;

const dataTypes: Readonly<Record<TagType, DataType>> = {
  Boolean: DataType.Boolean,
  UInt16: DataType.UInt16,
  UInt32: DataType.UInt32,
  Int32: DataType.Int32,
  Float: DataType.Float,
  Double: DataType.Double,
  String: DataType.String,
};

/** One server with the tags of all lines, each line in a namespace of its own. */
async function serve(certificates: string): Promise<void> {
  const server = await createServer(certificates);
  await server.initialize();
  const nodes = addNodes(server);
  await server.start();
  const load = new Load();
  let stamp = 0 as Instant;
  const counts = new Array<number>(PLACES).fill(0);
  const tell = (line: number, { tag, value }: Written) => {
    stamp = Math.max(stamp + 1, instantFromMs(Date.now())) as Instant;
    setValue(nodes[placeOf(line, tag)]!, dataTypes[tags[tag]!.type], value, stamp);
  };
  for (const first of load.first()) for (let line = 0; line < LINES; line += 1) tell(line, first);

  const effort = new Effort();
  let sent = 0;
  let since = { sent: 0, at: performance.now() };
  let pace = { perSecond: 0, sent: 0, at: 0 };
  setInterval(() => {
    const due = pace.sent + (pace.perSecond * (performance.now() - pace.at)) / 1000 - sent;
    const most = Math.ceil(pace.perSecond * MOST);
    for (let n = Math.min(due, most); n >= 1; n -= 1) {
      const line = sent % LINES;
      const written = load.at(Math.floor(sent / LINES));
      tell(line, written);
      counts[placeOf(line, written.tag)]! += 1;
      sent += 1;
    }
    load.drop(Math.floor(sent / LINES));
  }, TURN_MS);
  answerAll<ServerQuestion, ServerAnswer>(async ({ kind, ...question }) => {
    if (kind === 'pace' && 'perSecond' in question) {
      pace = { perSecond: question.perSecond, sent, at: performance.now() };
    }
    if (kind === 'rest') pace = { perSecond: 0, sent, at: performance.now() };
    if (kind === 'measure') {
      effort.begin();
      since = { sent, at: performance.now() };
    }
    return {
      endpoint: `opc.tcp://127.0.0.1:${server.endpoints[0]!.port}`,
      perSecond: ((sent - since.sent) * 1000) / (performance.now() - since.at),
      ...effort.percent(),
      counts: kind === 'rest' ? counts : [],
    };
  });
}

async function createServer(certificates: string): Promise<OPCUAServer> {
  mkdirSync(certificates, { recursive: true });
  const manager = new OPCUACertificateManager({
    rootFolder: certificates,
    automaticallyAcceptUnknownCertificate: true,
  });
  await manager.initialize();
  return new OPCUAServer({
    port: 0,
    host: '127.0.0.1',
    hostname: '127.0.0.1',
    nodeset_filename: [nodesets.standard],
    serverCertificateManager: manager,
    serverInfo: { applicationUri: 'urn:scoreline:bench' },
    serverCapabilities: {
      minSupportedSampleRate: 0,
      maxSessions: 4 * LINES,
      maxSubscriptions: 4 * LINES,
      maxMonitoredItems: 4 * PLACES,
    },
    maxConnectionsPerEndpoint: 4 * LINES,
    skipOwnNamespace: true,
  });
}

function addNodes(server: OPCUAServer): UAVariable[] {
  const { addressSpace } = server.engine;
  if (!addressSpace) throw new Error('a server without an address space');
  const nodes: UAVariable[] = [];
  for (let line = 0; line < LINES; line += 1) {
    const namespace = addressSpace.registerNamespace(namespaceOf(line));
    const machine = namespace.addObject({
      browseName: 'Cartoner',
      nodeId: 's=Cartoner',
      organizedBy: addressSpace.rootFolder.objects,
    });
    for (const { tag, type } of tags) {
      const node = namespace.addVariable({
        componentOf: machine,
        browseName: tag,
        nodeId: `s=${tag}`,
        dataType: dataTypes[type],
        accessLevel: 'CurrentRead',
        userAccessLevel: 'CurrentRead',
        minimumSamplingInterval: 0,
      });
      nodes.push(node);
    }
  }
  return nodes;
}

/** As the simulated PLC does it: the public setter has no place for the part of a time below a millisecond. */
function setValue(node: UAVariable, dataType: DataType, value: Written['value'], at: Instant): void {
  const ms = Math.floor(at / TICKS_PER_MS);
  const timestamp = new Date(EPOCH_2020_MS + ms);
  const picoseconds = (at - ms * TICKS_PER_MS) * 100_000;
  const inner = node as unknown as { _internal_set_dataValue(dataValue: DataValue): void };
  inner._internal_set_dataValue(
    new DataValue({
      value: new Variant({ dataType, value }),
      sourceTimestamp: timestamp,
      sourcePicoseconds: picoseconds,
      serverTimestamp: timestamp,
      serverPicoseconds: picoseconds,
    }),
  );
}

await serve(process.argv[2]!);
