import { mkdtempSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  coerceStatusCode,
  DataType,
  DataValue,
  MessageSecurityMode,
  nodesets,
  OPCUACertificateManager,
  OPCUAServer,
  SecurityPolicy,
  type UAVariable,
  Variant,
  VariantArrayType,
} from 'node-opcua';
import { EPOCH_2020_MS, type Instant, TICKS_PER_MS } from '../../../model/units/units.ts';

export const namespace = 'urn:test:line';
export const otherNamespace = 'urn:test:other';

/** One folder of keys for all servers of a test file: making keys takes a second. */
const keys = mkdtempSync(join(tmpdir(), 'scoreline-test-server-'));

export interface TestServer {
  /** The library's server itself, to make it misbehave. */
  readonly server: OPCUAServer;
  /** Adds a tag while the server runs. */
  add(tag: string, dataType: DataType): void;
  readonly port: number;
  readonly endpoint: string;
  /** Sets a tag; `at` undefined sends no source time, and `server` no server time either when undefined. */
  set(
    tag: string,
    value: unknown,
    at: Instant | undefined,
    more?: { status?: number; server?: Instant },
  ): void;
  /** Requests received so far by name. */
  requests(name: string): number;
  readonly names: () => readonly string[];
  stop(): Promise<void>;
}

export interface TestServerOptions {
  readonly port?: number;
  readonly tags: Readonly<Record<string, DataType>>;
  /** A namespace that comes before ours, so that ours has another number. */
  readonly shifted?: boolean;
  /** How often it looks at its tags; 0, which is usual, tells every change. Milliseconds, at least 50. */
  readonly samplingMs?: number;
  /** Whom it trusts: everybody, unless it has a folder of its own in which nobody is trusted yet. */
  readonly pkiFolder?: string;
  /** How many tags one subscription may watch. */
  readonly itemsMost?: number;
}

export async function freePort(): Promise<number> {
  const probe = createServer();
  await new Promise<void>((resolve) => probe.listen(0, '127.0.0.1', resolve));
  const address = probe.address();
  await new Promise<void>((resolve) => probe.close(() => resolve()));
  if (address === null || typeof address === 'string') throw new Error('no port');
  return address.port;
}

/** A small PLC on loopback. Its tags begin without a value. */
export async function startTestServer(options: TestServerOptions): Promise<TestServer> {
  const { port, tags, shifted, samplingMs = 0, pkiFolder, itemsMost } = options;
  const certificates = new OPCUACertificateManager({
    rootFolder: pkiFolder ?? keys,
    automaticallyAcceptUnknownCertificate: pkiFolder === undefined,
  });
  await certificates.initialize();
  const server = new OPCUAServer({
    port: port ?? (await freePort()),
    host: '127.0.0.1',
    hostname: '127.0.0.1',
    nodeset_filename: [nodesets.standard],
    serverCertificateManager: certificates,
    securityModes: [MessageSecurityMode.None, MessageSecurityMode.SignAndEncrypt],
    securityPolicies: [SecurityPolicy.None, SecurityPolicy.Basic256Sha256],
    serverInfo: { applicationUri: 'urn:scoreline:test-server' },
    serverCapabilities: {
      minSupportedSampleRate: 0,
      maxSessions: 20,
      ...(itemsMost === undefined ? {} : { maxMonitoredItemsPerSubscription: itemsMost }),
    },
    maxConnectionsPerEndpoint: 20,
    skipOwnNamespace: true,
  });
  await server.initialize();
  const { addressSpace } = server.engine;
  if (!addressSpace) throw new Error('no address space');
  if (shifted) addressSpace.registerNamespace(otherNamespace);
  const space = addressSpace.registerNamespace(namespace);
  const nodes = new Map<string, { node: UAVariable; dataType: DataType }>();
  const add = (tag: string, dataType: DataType) => {
    const node = space.addVariable({
      organizedBy: addressSpace.rootFolder.objects,
      browseName: tag,
      nodeId: `s=${tag}`,
      dataType,
      accessLevel: 'CurrentRead | CurrentWrite',
      userAccessLevel: 'CurrentRead | CurrentWrite',
      minimumSamplingInterval: samplingMs,
    });
    nodes.set(tag, { node, dataType });
  };
  for (const [tag, dataType] of Object.entries(tags)) add(tag, dataType);
  const seen = new Map<string, number>();
  server.on('request', (request: { readonly schema: { readonly name: string } }) => {
    seen.set(request.schema.name, (seen.get(request.schema.name) ?? 0) + 1);
  });
  await server.start();
  const listening = server.endpoints[0]!.port;
  return {
    server,
    add,
    port: listening,
    endpoint: `opc.tcp://127.0.0.1:${listening}`,
    set: (tag, value, at, more = {}) => {
      const { node, dataType } = nodes.get(tag)!;
      const inner = node as unknown as { _internal_set_dataValue(dataValue: DataValue): void };
      inner._internal_set_dataValue(
        new DataValue({
          value: new Variant({
            dataType,
            value,
            ...(Array.isArray(value) && dataType !== DataType.Int64 && dataType !== DataType.UInt64
              ? { arrayType: VariantArrayType.Array }
              : {}),
          }),
          statusCode: coerceStatusCode(more.status ?? 0),
          ...stamp('source', at),
          ...stamp('server', more.server ?? at),
        }),
      );
    },
    requests: (name) => seen.get(name) ?? 0,
    names: () => [...seen.keys()],
    stop: () => server.shutdown(0),
  };
}

function stamp(kind: 'source' | 'server', at: Instant | undefined): Record<string, unknown> {
  if (at === undefined) return {};
  const ms = Math.floor(at / TICKS_PER_MS);
  return {
    [`${kind}Timestamp`]: new Date(EPOCH_2020_MS + ms),
    [`${kind}Picoseconds`]: (at - ms * TICKS_PER_MS) * 100_000,
  };
}
