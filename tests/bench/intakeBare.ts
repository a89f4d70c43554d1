import {
  AttributeIds,
  type ClientSubscription,
  type DataChangeNotification,
  type NotificationMessage,
  OPCUAClient,
  TimestampsToReturn,
} from 'node-opcua';
import { openCertificates } from '../../gateway/intake/certificates.ts';
import { usualSettings as settings } from '../../gateway/intake/settings.ts';
import { LINES, namespaceOf, PLACES, placeOf, tags } from './intakeLines.ts';
import { answerFor, Delays } from './intakeListener.ts';

/** The OPC UA library alone: the same clients, sessions and subscriptions, and of each value only the count of its tag. */
async function hear(endpoint: string, certificates: string): Promise<void> {
  const counts = new Array<number>(PLACES).fill(0);
  const delays = new Delays();
  for (let line = 0; line < LINES; line += 1) {
    const { subscription, places } = await subscribe(endpoint, certificates, line);
    subscription.on('raw_notification', (raw: NotificationMessage) => {
      for (const one of raw.notificationData ?? []) {
        const { monitoredItems } = one as DataChangeNotification;
        for (const { clientHandle } of monitoredItems ?? []) {
          const tag = places.get(clientHandle);
          if (tag !== undefined) counts[placeOf(line, tag)]! += 1;
        }
        const changed = monitoredItems?.[0]?.value.sourceTimestamp;
        if (changed) delays.taken(changed.getTime());
      }
    });
  }
  answerFor({ ready: () => true, counts: async () => counts, warned: [] }, delays);
}

async function subscribe(
  endpoint: string,
  certificates: string,
  line: number,
): Promise<{ readonly subscription: ClientSubscription; readonly places: ReadonlyMap<number, number> }> {
  const { manager, ownFile } = await openCertificates(certificates);
  const client = OPCUAClient.create({
    applicationUri: 'urn:scoreline:gateway',
    clientCertificateManager: manager,
    certificateFile: ownFile,
    endpointMustExist: false,
    keepSessionAlive: true,
    keepAliveInterval: settings.keepAliveMs,
  });
  await client.connect(endpoint);
  const session = await client.createSession();
  const namespace = (await session.readNamespaceArray()).indexOf(namespaceOf(line));
  const subscription = await session.createSubscription2({
    requestedPublishingInterval: settings.publishingMs,
    requestedLifetimeCount: settings.lifetimeCount,
    requestedMaxKeepAliveCount: settings.keepAliveCount,
    maxNotificationsPerPublish: 1000,
    publishingEnabled: true,
    priority: 10,
  });
  const group = await subscription.monitorItems(
    tags.map(({ tag }) => ({ nodeId: `ns=${namespace};s=${tag}`, attributeId: AttributeIds.Value })),
    { samplingInterval: settings.samplingMs, queueSize: settings.queue, discardOldest: true },
    TimestampsToReturn.Both,
  );
  const places = new Map(
    group.monitoredItems.map(({ monitoringParameters }, place) => [monitoringParameters.clientHandle, place]),
  );
  return { subscription, places };
}

await hear(process.argv[2]!, process.argv[3]!);
