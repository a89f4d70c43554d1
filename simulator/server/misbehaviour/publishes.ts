import {
  DataChangeNotification,
  type NotificationMessage,
  type OPCUAServer,
  PublishResponse,
} from 'node-opcua';
import type { Instant } from '../../../model/units/units.ts';
import type { Underway } from '../../faults/underway.ts';
import { type Draw, stream } from '../../machine/random.ts';
import { dateOf } from '../tagNodes.ts';

/**
 * What a server does to the messages of its subscriptions: they carry the PLC's time, come twice, the second time after
 * the next one, or with their values mixed. The library's own method that sends them is wrapped (version pinned).
 */
export function changePublishes(server: OPCUAServer, underway: Underway, clock: () => Instant): void {
  const chance = stream(1, 'messages mixed');
  server.on('create_session', ({ publishEngine }) => {
    const send = publishEngine._send_response.bind(publishEngine);
    let again: PublishResponse | undefined;
    publishEngine._send_response = (subscription, response) => {
      const { notificationMessage } = response;
      const data = notificationMessage.notificationData ?? [];
      notificationMessage.publishTime = dateOf(clock());
      if (underway.find('mixed')) mix(notificationMessage, chance);
      send(subscription, response);
      if (again && publishEngine.pendingPublishRequestCount > 0) send(subscription, again);
      again = data.length > 0 && underway.find('twice') ? copyOf(response) : undefined;
    };
  });
}

function mix({ notificationData }: NotificationMessage, chance: Draw): void {
  for (const data of notificationData ?? []) {
    if (!(data instanceof DataChangeNotification)) continue;
    data.monitoredItems = (data.monitoredItems ?? [])
      .map((item) => ({ item, by: chance() }))
      .sort((a, b) => a.by - b.by)
      .map(({ item }) => item);
  }
}

function copyOf({ subscriptionId, availableSequenceNumbers, notificationMessage }: PublishResponse) {
  return new PublishResponse({ subscriptionId, availableSequenceNumbers, notificationMessage });
}
