import {
  AttributeIds,
  type ClientMonitoredItemGroup,
  type ClientSession,
  type ClientSubscription,
  type DataChangeNotification,
  type DataValue,
  MessageSecurityMode,
  type NotificationMessage,
  OPCUAClient,
  SecurityPolicy,
  StatusCodes,
  TimestampsToReturn,
  VariantArrayType,
} from 'node-opcua';
import { type Certificates, applicationName, applicationUri, openCertificates } from './certificates.ts';
import { makeChannelsReadOnly } from './channel.ts';
import type { Connection, Happening, Message, RawValue } from './connection.ts';
import { SequenceWatch } from './sequence.ts';
import type { IntakeSettings } from './settings.ts';
import { type NodeName, nodeIdOf } from './tags.ts';
import {
  NamespaceMissing,
  type OpeningError,
  Unreachable,
  whyNotOpen,
  whyNotTrusted,
} from './openingErrors.ts';

/*
 * The one file that makes and holds an OPC UA client. It only reads: see channel.ts for what is refused below it. What
 * it touches inside the library (version pinned) is marked, and a test fails when the library no longer needs it.
 */
makeChannelsReadOnly();

export type Security = 'none' | 'sign' | 'signAndEncrypt';

export interface ConnectionOptions {
  readonly endpoint: string;
  readonly security: Security;
  readonly pkiFolder: string;
  readonly nodes: readonly NodeName[];
  readonly settings: IntakeSettings;
  readonly now: () => number;
  /** A number never given before: names the next life of a subscription. */
  readonly nextLife: () => number;
  readonly tell: (happening: Happening) => void;
  /** Told while it is being tried again and again without an answer. */
  readonly waiting: (error: OpeningError) => void;
  /** Ends an attempt that has not succeeded yet. */
  readonly stopped: AbortSignal;
}

const policies = { none: SecurityPolicy.None, sign: SecurityPolicy.Basic256Sha256 } as const;
const modes = {
  none: MessageSecurityMode.None,
  sign: MessageSecurityMode.Sign,
  signAndEncrypt: MessageSecurityMode.SignAndEncrypt,
} as const;

/** Opens client, session and subscription. Waits for a server that is away; throws an OpeningError for what waiting does not mend. */
export async function openConnection(options: ConnectionOptions): Promise<Connection> {
  const certificates = await openCertificates(options.pkiFolder);
  const client = createClient(options, certificates);
  const live: Live = {
    life: 0,
    lastAnswer: 0,
    closing: false,
    watch: new SequenceWatch(),
    unfinished: new WeakSet(),
  };
  watchClient(client, options, live);
  const abort = () => void client.disconnect().catch(() => undefined);
  options.stopped.addEventListener('abort', abort);
  try {
    options.stopped.throwIfAborted(); // while keys were made nobody listened
    await connect(client, options, certificates);
    const session = await createSession(client, certificates);
    return await subscribe({ client, session, options, certificates, live });
  } catch (error) {
    live.closing = true;
    await client.disconnect();
    throw error;
  } finally {
    options.stopped.removeEventListener('abort', abort);
  }
}

interface Live {
  life: number;
  lastAnswer: number;
  closing: boolean;
  readonly watch: SequenceWatch;
  /** Messages of a publish that goes on in another one. */
  readonly unfinished: WeakSet<object>;
}

interface Parts {
  readonly client: OPCUAClient;
  readonly session: ClientSession;
  readonly options: ConnectionOptions;
  readonly certificates: Certificates;
  readonly live: Live;
}

function createClient({ security, settings }: ConnectionOptions, certificates: Certificates): OPCUAClient {
  return OPCUAClient.create({
    applicationName,
    applicationUri,
    clientName: applicationName,
    clientCertificateManager: certificates.manager,
    certificateFile: certificates.ownFile,
    securityMode: modes[security],
    securityPolicy: security === 'none' ? policies.none : policies.sign,
    endpointMustExist: false,
    keepSessionAlive: true,
    keepAliveInterval: settings.keepAliveMs,
    transportTimeout: settings.requestMs,
    defaultTransactionTimeout: settings.requestMs,
    requestedSessionTimeout: settings.sessionTimeoutMs,
    connectionStrategy: { initialDelay: 200, maxDelay: 1000, maxRetry: -1 },
  });
}

function watchClient(client: OPCUAClient, options: ConnectionOptions, live: Live): void {
  const tell = (happening: Happening) => {
    if (!live.closing) options.tell(happening);
  };
  client.on('backoff', () => options.waiting(new Unreachable('no answer')));
  client.on('connection_lost', () => tell({ kind: 'lost' }));
  client.on('start_reconnection', () => tell({ kind: 'lost' }));
  client.on('connection_reestablished', () => tell({ kind: 'restored' }));
  client.on('close', (error) => error && tell({ kind: 'dead' }));
  client.on('receive_response', (response) => {
    live.lastAnswer = performance.now();
    const { name } = response.schema;
    if (name === 'CreateSubscriptionResponse') live.life = options.nextLife();
    if (name === 'RepublishResponse') endEmptyRepublish(response as unknown as RepublishAnswer);
    if (name === 'PublishResponse') noteUnfinished(response as unknown as PublishAnswer, live.unfinished);
  });
}

interface PublishAnswer {
  readonly moreNotifications?: boolean;
  readonly notificationMessage?: object | null;
}

/** The library keeps the flag to itself; its event of the message tells only the message. */
function noteUnfinished(
  { moreNotifications, notificationMessage }: PublishAnswer,
  unfinished: WeakSet<object>,
) {
  if (moreNotifications && notificationMessage) unfinished.add(notificationMessage);
}

interface RepublishAnswer {
  readonly notificationMessage?: { readonly notificationData?: readonly unknown[] | null };
  readonly responseHeader: { serviceResult: unknown };
}

/**
 * Inside the library: it asks for one missing message after another until the server says that there is none. Some
 * servers answer Good with an empty message for ever, and the client would ask thousands of times a second without end.
 */
function endEmptyRepublish({ notificationMessage, responseHeader }: RepublishAnswer): void {
  if ((notificationMessage?.notificationData ?? []).length === 0) {
    responseHeader.serviceResult = StatusCodes.BadMessageNotAvailable;
  }
}

async function connect(client: OPCUAClient, options: ConnectionOptions, certificates: Certificates) {
  await client.connect(options.endpoint).catch((error: unknown) => {
    throw whyNotOpen(error, certificates);
  });
}

function createSession(client: OPCUAClient, certificates: Certificates): Promise<ClientSession> {
  return client.createSession().catch((error: unknown) => {
    throw whyNotTrusted(error, certificates) ?? error;
  });
}

async function subscribe(parts: Parts): Promise<Connection> {
  const { session, options, live } = parts;
  const namespaces = await session.readNamespaceArray();
  const nodeIds = options.nodes.map((name) => nodeIdOf(name, namespaces));
  const missing = options.nodes.find((_name, place) => nodeIds[place] === undefined);
  if (missing) throw new NamespaceMissing(String(missing.namespace), namespaces);
  const nodes = (nodeIds as string[]).map((nodeId) => ({ nodeId, attributeId: AttributeIds.Value }));
  const limits = await readLimits(session);
  const { settings } = options;
  const openedAt = options.now();
  const subscription = await session.createSubscription2({
    requestedPublishingInterval: settings.publishingMs,
    requestedLifetimeCount: settings.lifetimeCount,
    requestedMaxKeepAliveCount: settings.keepAliveCount,
    maxNotificationsPerPublish: 1000,
    publishingEnabled: true,
    priority: 10,
  });
  const groups: ClientMonitoredItemGroup[] = [];
  const places = new Map<number, number>();
  watchSubscription(subscription, options, live, places);
  for (const some of chunks(nodes, limits.items)) {
    const group = await subscription.monitorItems(
      some.map((node) => ({ ...node })),
      { samplingInterval: settings.samplingMs, queueSize: settings.queue, discardOldest: true },
      TimestampsToReturn.Both,
    );
    for (const item of group.monitoredItems) places.set(item.monitoringParameters.clientHandle, places.size);
    groups.push(group);
  }
  return connectionOf(parts, { openedAt, subscription, groups, namespaces, nodes, readMost: limits.read });
}

/** The library tells a message once it has it; nothing is done with it here, a throw would lose it without a word. */
function watchSubscription(
  subscription: ClientSubscription,
  options: ConnectionOptions,
  live: Live,
  places: ReadonlyMap<number, number>,
): void {
  subscription.on('raw_notification', (raw: NotificationMessage) => {
    const data = raw.notificationData ?? [];
    live.watch.note(live.life, raw.sequenceNumber, data.length === 0);
    rememberLast(subscription, live.watch.last);
    const lists = data.map((one) => (one as DataChangeNotification | null)?.monitoredItems ?? []);
    const message: Message = {
      kind: 'message',
      life: live.life,
      number: raw.sequenceNumber,
      keepAlive: data.length === 0,
      more: live.unfinished.has(raw),
      received: options.now(),
      size: lists.reduce((sum, list) => sum + list.length, 0),
      values: () =>
        lists.flat().flatMap(({ clientHandle, value }) => {
          const item = places.get(clientHandle);
          return item === undefined ? [] : [rawValueOf(item, value)];
        }),
    };
    if (!live.closing) options.tell(message);
  });
  subscription.on('status_changed', (status) => {
    if (status.value >= 0x80000000 && !live.closing) options.tell({ kind: 'dead' });
  });
  subscription.on('internal_error', () => undefined);
}

/**
 * Inside the library: after a cut it asks for the number after the one that came last, one by one. But a keep-alive carries
 * the number that the next message will have, and a live message may come before one that is sent again: from either, it
 * would ask for too high a number and lose what lies between. So it is told up to where nothing is missing.
 */
function rememberLast(subscription: ClientSubscription, number: number): void {
  (subscription as ClientSubscription & { lastSequenceNumber: number }).lastSequenceNumber = number;
}

interface Subscribed {
  readonly openedAt: number;
  readonly subscription: ClientSubscription;
  readonly groups: readonly ClientMonitoredItemGroup[];
  readonly namespaces: readonly string[];
  readonly nodes: readonly { readonly nodeId: string; readonly attributeId: AttributeIds }[];
  readonly readMost: number;
}

function connectionOf({ client, session, certificates, live }: Parts, subscribed: Subscribed): Connection {
  const { openedAt, subscription, groups, namespaces, nodes, readMost } = subscribed;
  const { publishingInterval: publishingMs, maxKeepAliveCount, lifetimeCount } = subscription;
  return {
    openedAt,
    publishingMs,
    keepAliveMs: publishingMs * maxKeepAliveCount,
    lifetimeMs: publishingMs * lifetimeCount,
    fingerprint: certificates.fingerprint(),
    life: () => live.life,
    lastAnswer: () => live.lastAnswer,
    items: () =>
      groups
        .flatMap(({ monitoredItems }) => monitoredItems)
        .map(({ statusCode, monitoringParameters: { samplingInterval, queueSize } }) => ({
          status: statusCode.value,
          sampling: samplingInterval,
          queue: queueSize,
        })),
    read: async (items = nodes.map((_node, place) => place)) => {
      const values: RawValue[] = [];
      for (const some of chunks(items, readMost)) {
        const read = await session.read(some.map((place) => ({ ...nodes[place]! })));
        for (const [index, value] of read.entries()) values.push(rawValueOf(some[index]!, value));
      }
      return values;
    },
    serverClock: async () => ((await readOne(session, 'i=2258')) as Date).getTime(),
    namespacesMoved: async () => {
      const now = (await readOne(session, 'i=2255')) as readonly string[];
      return namespaces.some((uri, place) => now[place] !== uri);
    },
    giveUpMissing: () => {
      live.watch.giveUp();
      rememberLast(subscription, live.watch.last);
    },
    pause: (on) => {
      // inside the library: its publish engine; the server keeps values in its queues while it is suspended
      (session as unknown as { getPublishEngine(): { suspend(on: boolean): void } })
        .getPublishEngine()
        .suspend(on);
    },
    close: async () => {
      live.closing = true;
      await client.disconnect();
    },
  };
}

async function readOne(session: ClientSession, nodeId: string): Promise<unknown> {
  return (await session.read({ nodeId, attributeId: AttributeIds.Value })).value.value;
}

/** How many items a server takes in one request: MaxMonitoredItemsPerCall and MaxNodesPerRead; 0 or none is any. */
async function readLimits(session: ClientSession): Promise<{ items: number; read: number }> {
  const [items, read] = await session.read(
    ['i=11714', 'i=11705'].map((nodeId) => ({ nodeId, attributeId: AttributeIds.Value })),
  );
  const most = (value: DataValue | undefined) => Math.min(Number(value?.value?.value) || 1000, 1000);
  return { items: most(items), read: most(read) };
}

function chunks<Item>(all: readonly Item[], most: number): Item[][] {
  return Array.from({ length: Math.ceil(all.length / most) }, (_, n) => all.slice(n * most, (n + 1) * most));
}

function rawValueOf(item: number, value: DataValue): RawValue {
  const { value: variant, statusCode, sourceTimestamp, serverTimestamp } = value;
  return {
    item,
    status: statusCode.value,
    wire: variant && {
      dataType: variant.dataType,
      scalar: variant.arrayType === VariantArrayType.Scalar,
      value: variant.value,
    },
    sourceMs: sourceTimestamp?.getTime(),
    sourceTicks: Math.floor((value.sourcePicoseconds ?? 0) / 100_000),
    serverMs: serverTimestamp?.getTime(),
    serverTicks: Math.floor((value.serverPicoseconds ?? 0) / 100_000),
  };
}
