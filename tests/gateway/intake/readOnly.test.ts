import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import {
  AddNodesRequest,
  AddReferencesRequest,
  AttributeIds,
  CallRequest,
  type ClientSession,
  DataType,
  DeleteNodesRequest,
  DeleteReferencesRequest,
  HistoryReadRequest,
  HistoryUpdateRequest,
  type OPCUAClient,
  OPCUAClientBase,
  SetTriggeringRequest,
  WriteRequest,
} from 'node-opcua';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { allowedRequests } from '../../../gateway/intake/channel.ts';
import { moment, type Recorded, record, until } from './fixture.ts';
import { startTestServer, type TestServer } from './testServer.ts';

type Sender = { performMessageTransaction(request: unknown, answer: (error?: Error | null) => void): void };
interface Inside extends OPCUAClient {
  readonly _sessions: readonly (ClientSession & Sender)[];
  readonly _secureChannel: Sender;
}

const forbidden = [
  () => new WriteRequest({ nodesToWrite: [{ nodeId: 'ns=1;s=Count', attributeId: AttributeIds.Value }] }),
  () => new CallRequest({ methodsToCall: [{ objectId: 'i=2253', methodId: 'i=11492' }] }),
  () => new HistoryUpdateRequest({}),
  () => new HistoryReadRequest({}),
  () => new AddNodesRequest({}),
  () => new AddReferencesRequest({}),
  () => new DeleteNodesRequest({}),
  () => new DeleteReferencesRequest({}),
  () => new SetTriggeringRequest({}),
];

let server: TestServer;
let recorded: Recorded;
let client: Inside;

beforeAll(async () => {
  server = await startTestServer({ tags: { State: DataType.Int32, Count: DataType.UInt32 } });
  server.set('State', 6, moment());
  server.set('Count', 100, moment());
  recorded = record({ endpoint: server.endpoint, tags: ['State', 'Count'] });
  await until('up', () => recorded.intake.status().up);
  const { registry } = OPCUAClientBase as unknown as {
    registry: { _cache: Record<string, WeakRef<Inside>> };
  };
  client = Object.values(registry._cache)
    .map((held) => held.deref())
    .find((one) => (one?._sessions.length ?? 0) > 0)!;
}, 180_000);

afterAll(async () => {
  await recorded.intake.stop();
  await server.stop();
}, 60_000);

function refusal(sender: Sender, request: unknown): Promise<string> {
  return new Promise((answered) => {
    sender.performMessageTransaction(request, (error) => answered(error?.message ?? 'sent'));
  });
}

describe('read-only toward the PLC', { timeout: 180_000 }, () => {
  it('a request that could change something is refused below the session, before the socket', async () => {
    const session = client._sessions[0]!;
    for (const make of forbidden) {
      const { name } = make().constructor;
      for (const sender of [session, client as unknown as Sender, client._secureChannel]) {
        expect(await refusal(sender, make()), name).toBe(
          `Refused before the socket, Scoreline only reads: ${name}`,
        );
      }
    }
  });

  it('the library’s own ways to write and to call end there as well', async () => {
    const session = client._sessions[0]!;
    const nodeId = 'ns=1;s=Count';
    const value = { value: { dataType: DataType.UInt32, value: 1 } };
    await expect(session.write({ nodeId, attributeId: AttributeIds.Value, value })).rejects.toThrow(
      /Refused/,
    );
    await expect(
      session.call({ objectId: 'i=2253', methodId: 'i=11492', inputArguments: [] }),
    ).rejects.toThrow(/Refused/);
  });

  it('the server has seen no request but reading ones', async () => {
    server.set('Count', 101, moment());
    await until('still live', () => recorded.of(1).at(-1)?.value === 101);
    expect(server.requests('ReadRequest')).toBeGreaterThan(0);
    expect(server.requests('PublishRequest')).toBeGreaterThan(0);
    expect(server.names().filter((name) => !allowedRequests.has(name))).toEqual([]);
    expect(
      [...allowedRequests].filter((name) => /Write|Call|History|Add|DeleteN|DeleteR/.test(name)),
    ).toEqual([]);
  });

  it('one file of the gateway makes a client, and three know the library', () => {
    const root = resolve(import.meta.dirname, '../../..');
    const files = execFileSync('git', ['ls-files', '-co', '--exclude-standard', 'gateway'], { cwd: root })
      .toString()
      .split('\n')
      .filter((file) => /\.(ts|tsx|mjs)$/.test(file));
    expect(files.length).toBeGreaterThan(20);
    const naming = (pattern: RegExp) =>
      files.filter((file) => pattern.test(readFileSync(join(root, file), 'utf8'))).sort();
    expect(naming(/['"]node-opcua/)).toEqual([
      'gateway/intake/certificates.ts',
      'gateway/intake/channel.ts',
      'gateway/intake/client.ts',
    ]);
    expect(naming(/OPCUAClient\b|openConnection\(/)).toEqual([
      'gateway/intake/client.ts',
      'gateway/intake/intake.ts',
    ]);
    expect(naming(/OPCUAClient\.create|new OPCUAClient/)).toEqual(['gateway/intake/client.ts']);
  });
});
