import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  type ClientSubscription,
  DataType,
  OPCUACertificateManager,
  OPCUAClient,
  type OPCUAServer,
  RepublishResponse,
} from 'node-opcua';
import { afterEach, describe, expect, it } from 'vitest';
import { openConnection } from '../../../gateway/intake/client.ts';
import type { Message } from '../../../gateway/intake/connection.ts';
import { usualSettings } from '../../../gateway/intake/settings.ts';
import { nodeNameOf } from '../../../gateway/intake/tags.ts';
import { link, moment, pause, record, until } from './fixture.ts';
import { type Cable, lay } from './proxy.ts';
import { namespace, startTestServer, type TestServer } from './testServer.ts';

/*
 * What the intake mends inside the client library. The tests of the bare library fail once it needs no mending any more:
 * then what they name in gateway/intake/client.ts can go.
 */
const ends: (() => Promise<unknown>)[] = [];

afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
}, 60_000);

async function serverOnCable(): Promise<{ server: TestServer; cable: Cable }> {
  const server = await startTestServer({ tags: { State: DataType.Int32 } });
  ends.push(server.stop);
  server.set('State', 6, moment());
  const cable = await lay(server.port);
  ends.push(cable.close);
  return { server, cable };
}

/** The library’s client as it is, without an intake. */
async function bareSubscription(endpoint: string): Promise<ClientSubscription> {
  const certificates = new OPCUACertificateManager({
    rootFolder: mkdtempSync(join(tmpdir(), 'scoreline-test-bare-')),
  });
  await certificates.initialize();
  const client = OPCUAClient.create({
    clientCertificateManager: certificates,
    endpointMustExist: false,
    connectionStrategy: { initialDelay: 100, maxDelay: 200, maxRetry: -1 },
  });
  await client.connect(endpoint);
  ends.push(() => client.disconnect());
  const session = await client.createSession();
  return session.createSubscription2({
    requestedPublishingInterval: 100,
    requestedMaxKeepAliveCount: 3,
    requestedLifetimeCount: 1000,
    publishingEnabled: true,
  });
}

/** A server that answers Republish of a message it does not have with Good and an empty message. */
function answerEmptyRepublish(server: OPCUAServer): void {
  const inner = server as unknown as {
    _apply_on_Subscription: (type: unknown, message: unknown, channel: unknown, work: Work) => void;
  };
  type Work = (
    session: unknown,
    subscription: unknown,
    send: (response: unknown) => void,
    fail: (status: unknown) => void,
  ) => Promise<void>;
  const apply = inner._apply_on_Subscription.bind(server);
  inner._apply_on_Subscription = (type, message, channel, work) =>
    apply(type, message, channel, async (session, subscription, send, fail) => {
      const empty = () => send(new RepublishResponse({ notificationMessage: { notificationData: [] } }));
      await work(session, subscription, send, type === RepublishResponse ? empty : fail);
    });
}

describe('the client library', { timeout: 180_000 }, () => {
  it('bare, takes the number of a keep-alive for one that was received', async () => {
    const { server } = await serverOnCable();
    const subscription = await bareSubscription(server.endpoint);
    const inner = subscription as ClientSubscription & { lastSequenceNumber: number };
    const numbers: number[] = [];
    subscription.on('raw_notification', (message) => {
      if ((message.notificationData ?? []).length === 0) numbers.push(message.sequenceNumber);
    });
    await until('a keep-alive', () => numbers.length > 0);
    expect(inner.lastSequenceNumber).toBe(numbers.at(-1));
  });

  it('bare, asks an empty Republish answer for the next one without end', async () => {
    const { server, cable } = await serverOnCable();
    answerEmptyRepublish(server.server);
    await bareSubscription(cable.endpoint);
    await pause(1000);
    cable.cut();
    await pause(200);
    cable.mend();
    await until('a loop', () => server.requests('RepublishRequest') > 100);
  });

  it('a publish of more values than one message takes is known to go on', async () => {
    const { server, cable } = await serverOnCable();
    const messages: Message[] = [];
    let lives = 0;
    const connection = await openConnection({
      endpoint: cable.endpoint,
      security: 'none',
      pkiFolder: mkdtempSync(join(tmpdir(), 'scoreline-test-more-')),
      nodes: [nodeNameOf('State', namespace)],
      settings: { ...usualSettings, queue: 5000 },
      now: () => Date.now(),
      nextLife: () => {
        lives += 1;
        return lives;
      },
      tell: (happening) => void (happening.kind === 'message' && messages.push(happening)),
      waiting: () => {},
      stopped: new AbortController().signal,
    });
    ends.push(() => connection.close());
    await until('the first value', () => messages.some(({ size }) => size > 0));
    messages.length = 0;
    for (let n = 0; n < 2500; n += 1) server.set('State', n, moment(n));
    const told = () => messages.reduce((sum, { size }) => sum + size, 0);
    await until('all values', () => told() >= 2500);
    expect(messages.filter(({ size }) => size > 0).map(({ size, more }) => [size, more])).toEqual([
      [1000, true],
      [1000, true],
      [500, false],
    ]);
  });

  it('with the intake, an empty Republish answer ends the asking, and data flows again', async () => {
    const { server, cable } = await serverOnCable();
    answerEmptyRepublish(server.server);
    const recorded = record({ endpoint: cable.endpoint, tags: ['State'] });
    ends.push(() => recorded.intake.stop());
    await until('up', () => recorded.intake.status().up);
    cable.cut();
    await until('lost', () => recorded.of(link).at(-1)?.value === false);
    server.set('State', 7, moment());
    cable.mend();
    await until('heard', () => recorded.of(link).length === 3);
    server.set('State', 8, moment());
    await until('live', () => recorded.of(0).at(-1)?.value === 8);
    expect(recorded.of(0).map(({ value }) => value)).toEqual([6, 7, 8]);
    expect(server.requests('RepublishRequest')).toBeLessThan(20);
  });
});
