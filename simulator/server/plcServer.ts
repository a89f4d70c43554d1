import { mkdirSync } from 'node:fs';
import {
  DataType,
  MessageSecurityMode,
  nodesets,
  OPCUACertificateManager,
  OPCUAServer,
  SecurityPolicy,
  type UAObject,
  type UAVariable,
} from 'node-opcua';
import { EPOCH_2020_MS, type Instant, TICKS_PER_MS } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { ToldValue } from '../faults/cells.ts';
import type { ToldFact } from '../faults/plcFaults.ts';
import type { Tag } from '../lines/tags.ts';
import type { Device } from '../lines/variant.ts';
import type { PlcFact, TagWrite } from '../machine/plc.ts';
import { refuse } from './portTaken.ts';
import { breakOff, darken, lighten } from './power.ts';
import { addTag, setValue } from './tagNodes.ts';

/** Namespace in which the tags live, as the line file names it. */
export const namespaceUri = 'urn:scoreline:simulator:line';
/** Stands before it where its number has moved. */
const programUri = 'urn:scoreline:simulator:program';

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
  /** Whether the namespace of the tags has another number than usual. */
  readonly moved?: boolean;
  /** Given the library's server before it listens, to make it misbehave. */
  readonly prepare?: (server: OPCUAServer, certificates: OPCUACertificateManager) => void;
}

/** The simulated PLC as an OPC UA server: flat tags, read-only for every client. */
export interface PlcServer {
  readonly endpoint: string;
  readonly port: number;
  /** Brings facts of the machine to the clients. Resolves when a change of power has taken effect. */
  tell(facts: readonly (PlcFact | ToldFact)[]): Promise<void>;
  /** How many requests of a type it has been sent, by the type's name: `WriteRequest`, `CallRequest` … */
  requests(name: string): number;
  /** Breaks every connection, and forgets every session. */
  breakOff(): void;
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
  const { server, certificates } = await createServer(options);
  await server.initialize();
  const { addressSpace } = server.engine;
  if (!addressSpace) throw new Error('Mistake in the simulator: a server without an address space');
  if (options.moved) addressSpace.registerNamespace(programUri);
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
  options.prepare?.(server, certificates);
  await server.start().catch((error: unknown) => refuse(options.port, error));
  if (options.clock) setClock(addressSpace.findNode('i=2256') as UAVariable, options.clock);
  let dark = false;
  const power = async (link: boolean) => {
    if (link !== dark) return;
    dark = !link;
    await (link ? lighten(server) : darken(server));
  };
  const port = server.endpoints[0]?.port ?? options.port;
  return {
    endpoint: `opc.tcp://${options.host ?? '127.0.0.1'}:${port}`,
    port,
    tell: async (facts) => {
      for (const fact of facts) {
        if ('link' in fact) await power(fact.link);
        else tellTag(machine, options.devices, variables.get(fact.tag), fact);
      }
    },
    requests: (name) => seen.get(name) ?? 0,
    breakOff: () => breakOff(server),
    stop: async () => {
      if (dark) await power(true);
      await server.shutdown(0);
    },
  };
}

async function createServer(
  options: PlcServerOptions,
): Promise<{ readonly server: OPCUAServer; readonly certificates: OPCUACertificateManager }> {
  mkdirSync(options.certificates, { recursive: true });
  const certificates = new OPCUACertificateManager({
    rootFolder: options.certificates,
    automaticallyAcceptUnknownCertificate: true,
  });
  await certificates.initialize();
  const server = new OPCUAServer({
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
  return { server, certificates };
}

function tellTag(
  machine: UAObject,
  devices: readonly Device[],
  variable: Told | undefined,
  fact: TagWrite | ToldValue,
): void {
  if (!variable) return;
  setValue(variable.node, variable.tag, fact);
  if (fact.value === null) return;
  const device = devices.find(({ tag }) => tag === variable.tag.tag);
  if (device && (fact.value === true || variable.told)) raisePress(machine, device, fact.value === true);
  variable.told = true;
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
