import {
  type CreateMonitoredItemsRequest,
  type ModifyMonitoredItemsRequest,
  type MonitoredItem,
  type MonitoredItemNotification,
  type OPCUAServer,
  StatusCode,
} from 'node-opcua';
import type { Underway } from '../../faults/underway.ts';

type Settings = { queueSize: number };
/** What the library keeps to itself of an item that is watched. */
type Inner = { queueSize: number; _setOverflowBit(notification: MonitoredItemNotification): void };

/**
 * Keeps the queues of values short. What is subscribed to meanwhile is told so (its revised queue size) and keeps it;
 * what was subscribed to before is not, and has its old queue back afterwards.
 */
export function keepQueuesShort(server: OPCUAServer, underway: Underway): void {
  const most = () => underway.find('queue')?.size ?? Number.POSITIVE_INFINITY;
  server.on('request', (request: { readonly schema: { readonly name: string } }) => {
    for (const settings of settingsIn(request)) settings.queueSize = Math.min(settings.queueSize, most());
  });
  server.on('create_session', (session) => {
    session.on('new_subscription', (subscription) => {
      subscription.on('monitoredItem', (item: MonitoredItem) => keepShort(item as unknown as Inner, most));
      subscription.on('monitoredItem', (item: MonitoredItem) =>
        markOverflow(item as unknown as Inner, () => underway.find('queue')?.silent ?? false),
      );
    });
  });
}

function settingsIn(request: { readonly schema: { readonly name: string } }): readonly Settings[] {
  switch (request.schema.name) {
    case 'CreateMonitoredItemsRequest':
      return ((request as unknown as CreateMonitoredItemsRequest).itemsToCreate ?? []).map(
        ({ requestedParameters }) => requestedParameters,
      );
    case 'ModifyMonitoredItemsRequest':
      return ((request as unknown as ModifyMonitoredItemsRequest).itemsToModify ?? []).map(
        ({ requestedParameters }) => requestedParameters,
      );
    default:
      return [];
  }
}

function keepShort(item: Inner, most: () => number): void {
  let granted = item.queueSize;
  Object.defineProperty(item, 'queueSize', {
    get: () => Math.min(granted, most()),
    set: (size: number) => {
      granted = size;
    },
  });
}

/** The library's own way of marking fails where the value is bad. */
function markOverflow(item: Inner, isSilent: () => boolean): void {
  item._setOverflowBit = ({ value }) => {
    if (!isSilent())
      value.statusCode = StatusCode.makeStatusCode(value.statusCode, 'Overflow | InfoTypeDataValue');
  };
}
