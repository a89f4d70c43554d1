import { mkdirSync } from 'node:fs';
import type { Server as Socket } from 'node:net';
import {
  coerceNodeId,
  coerceStatusCode,
  DataType,
  DataValue,
  MessageSecurityMode,
  type Namespace,
  nodesets,
  OPCUACertificateManager,
  OPCUAServer,
  SecurityPolicy,
  type UAObject,
  type UAVariable,
  Variant as OpcUaVariant,
} from 'node-opcua';
import { LineError } from '../../model/trouble/trouble.ts';
import { EPOCH_2020_MS, type Instant, TICKS_PER_MS } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { Tag } from '../lines/tags.ts';
import type { Device } from '../lines/variant.ts';
import type { PlcFact, TagValue } from '../machine/plc.ts';

/** Namespace in which the tags live, as the line file names it. */
export const namespaceUri = 'urn:scoreline:simulator:line';

export interface PlcServerOptions {
  /** 0 takes any free port. */
  readonly port: number;
  /** Address to listen on; loopback unless somebody wants otherwise. */
  readonly host?: string;
  readonly tags: readonly Tag[];
  readonly devices: readonly Device[];
  /** What the PLC's clock says; the computer's own unless the machine keeps another time. */
  readonly clock?: () => Instant;
  /** Folder for the server's own certificate. */
  readonly certificates: string;
}

/** The simulated PLC as an OPC UA server: flat tags, read-only for every client. */
export interface PlcServer {
  readonly endpoint: string;
  /** Brings facts of the machine to the clients. Resolves when a change of power has taken effect. */
  tell(facts: readonly PlcFact[]): Promise<void>;
  /** How many requests of a type it has been sent, by the type's name: `WriteRequest`, `CallRequest` … */
  requests(name: string): number;
  stop(): Promise<void>;
}

interface Told {
  readonly tag: Tag;
  readonly node: UAVariable;
  told: boolean;
}

/**
 * A PLC has one clock: what it says of itself is the time its values are stamped with. The library has no door for it,
 * so its own status object is wrapped (version pinned; `plcServer.test.ts` fails when this no longer works).
 */
function setClock(status: UAVariable, clock: () => Instant): void {
  const node = status as UAVariable & { $extensionObject: object; currentTime: { touchValue(): void } };
  node.$extensionObject = new Proxy(node.$extensionObject, {
    get: (target, name) => {
      if (name !== 'currentTime') return Reflect.get(target, name);
      node.currentTime.touchValue();
      return new Date(EPOCH_2020_MS + clock() / TICKS_PER_MS);
    },
  });
}

/** Starts listening. Nothing is told before the first facts arrive. */
export async function startPlcServer(options: PlcServerOptions): Promise<PlcServer> {
  const server = await createServer(options);
  await server.initialize();
  const { addressSpace } = server.engine;
  if (!addressSpace) throw new Error('Mistake in the simulator: a server without an address space');
  const namespace = addressSpace.registerNamespace(namespaceUri);
  const machine = namespace.addObject({
    browseName: 'Cartoner',
    nodeId: 's=Cartoner',
    organizedBy: addressSpace.rootFolder.objects,
    eventSourceOf: addressSpace.rootFolder.objects.server,
  });
  const variables = new Map(
    options.tags.map((tag) => [tag.tag, { tag, node: addTag(namespace, machine, tag), told: false } as Told]),
  );
  const seen = countRequests(server);
  await server.start().catch((error: unknown) => refuse(options.port, error));
  if (options.clock) setClock(addressSpace.findNode('i=2256') as UAVariable, options.clock);
  let dark = false;
  const power = async (link: boolean) => {
    if (link !== dark) return;
    dark = !link;
    await (link ? lighten(server) : darken(server));
  };
  return {
    endpoint: `opc.tcp://${options.host ?? '127.0.0.1'}:${server.endpoints[0]?.port ?? options.port}`,
    tell: async (facts) => {
      for (const fact of facts) {
        if ('link' in fact) await power(fact.link);
        else tellTag(machine, options.devices, variables.get(fact.tag), fact.at, fact.value, fact.status);
      }
    },
    requests: (name) => seen.get(name) ?? 0,
    stop: async () => {
      if (dark) await power(true);
      await server.shutdown(0);
    },
  };
}

/** A port in use is something to mend; anything else goes on as it is. */
function refuse(port: number, error: unknown): never {
  if (!/EADDRINUSE|already in use/i.test(String(error))) throw error;
  const words = wordsIn('en').simulator;
  throw new LineError(words.portTaken(port), { why: words.portTakenWhy, mend: words.portTakenMend });
}

async function createServer(options: PlcServerOptions): Promise<OPCUAServer> {
  mkdirSync(options.certificates, { recursive: true });
  const certificates = new OPCUACertificateManager({
    rootFolder: options.certificates,
    automaticallyAcceptUnknownCertificate: true,
  });
  await certificates.initialize();
  return new OPCUAServer({
    port: options.port,
    host: options.host ?? '127.0.0.1',
    hostname: options.host ?? '127.0.0.1',
    nodeset_filename: [nodesets.standard],
    serverCertificateManager: certificates,
    securityModes: [MessageSecurityMode.None, MessageSecurityMode.SignAndEncrypt],
    securityPolicies: [SecurityPolicy.None, SecurityPolicy.Basic256Sha256],
    serverInfo: { applicationUri: 'urn:scoreline:simulator' },
    serverCapabilities: { minSupportedSampleRate: 0, maxSessions: 20 },
    maxConnectionsPerEndpoint: 20,
    skipOwnNamespace: true,
  });
}

const dataTypes: Readonly<Record<Tag['type'], DataType>> = {
  Boolean: DataType.Boolean,
  UInt16: DataType.UInt16,
  UInt32: DataType.UInt32,
  Int32: DataType.Int32,
  Float: DataType.Float,
  Double: DataType.Double,
  String: DataType.String,
};

function addTag(namespace: Namespace, machine: UAObject, tag: Tag): UAVariable {
  return namespace.addVariable({
    componentOf: machine,
    browseName: tag.tag,
    nodeId: `s=${tag.tag}`,
    dataType: dataTypes[tag.type],
    accessLevel: 'CurrentRead',
    userAccessLevel: 'CurrentRead',
    minimumSamplingInterval: 0,
  });
}

function tellTag(
  machine: UAObject,
  devices: readonly Device[],
  variable: Told | undefined,
  at: Instant,
  value: TagValue,
  status: number | undefined,
): void {
  if (!variable) return;
  setValue(variable.node, dataTypes[variable.tag.type], at, value, status ?? 0);
  const device = devices.find(({ tag }) => tag === variable.tag.tag);
  if (device && (value === true || variable.told)) raisePress(machine, device, value === true);
  variable.told = true;
}

/**
 * The library's public setter has no place for the part of a time below a millisecond, so this calls what that
 * setter calls itself. The library's version is pinned, and a test reads the picoseconds back.
 */
function setValue(node: UAVariable, dataType: DataType, at: Instant, value: TagValue, status: number): void {
  const ms = Math.floor(at / TICKS_PER_MS);
  const timestamp = new Date(EPOCH_2020_MS + ms);
  const picoseconds = (at - ms * TICKS_PER_MS) * 100_000;
  const inner = node as unknown as { _internal_set_dataValue(dataValue: DataValue): void };
  inner._internal_set_dataValue(
    new DataValue({
      value: new OpcUaVariant({ dataType, value }),
      statusCode: coerceStatusCode(status),
      sourceTimestamp: timestamp,
      sourcePicoseconds: picoseconds,
      serverTimestamp: timestamp,
      serverPicoseconds: picoseconds,
    }),
  );
}

/** A press and a release are events, too. */
function raisePress(machine: UAObject, device: Device, pressed: boolean): void {
  const words = wordsIn('en').simulator;
  const text = pressed ? words.pressed(device.name) : words.released(device.name);
  machine.raiseEvent('SystemEventType', {
    message: { dataType: DataType.LocalizedText, value: { text } },
    severity: { dataType: DataType.UInt16, value: pressed ? 900 : 400 },
    sourceName: { dataType: DataType.String, value: device.tag },
  });
}

function countRequests(server: OPCUAServer): Map<string, number> {
  const seen = new Map<string, number>();
  server.on('request', (request: { readonly schema: { readonly name: string } }) => {
    const { name } = request.schema;
    seen.set(name, (seen.get(name) ?? 0) + 1);
  });
  return seen;
}

/** Power off: the listening socket closes, every connection breaks, and all sessions are forgotten. */
async function darken(server: OPCUAServer): Promise<void> {
  const released = server.suspendEndPoints();
  for (const endpoint of server.endpoints) {
    for (const channel of endpoint.getChannels()) {
      for (const token of Object.keys(channel.sessionTokens)) {
        server.engine.closeSession(coerceNodeId(token), true, 'Terminated');
      }
    }
    endpoint.abruptlyInterruptChannels();
  }
  await released;
}

/**
 * Power on. The library hangs two more listeners on its socket each time it listens again; the old ones are taken off
 * first, or Node would warn of a leak after ten times.
 */
async function lighten(server: OPCUAServer): Promise<void> {
  for (const endpoint of server.endpoints) {
    const { _server: socket } = endpoint as unknown as { readonly _server?: Socket };
    socket?.removeAllListeners('error');
    socket?.removeAllListeners('listening');
  }
  await server.resumeEndPoints();
}
