import type { CreateMonitoredItemsRequest, OPCUAServer } from 'node-opcua';
import { millis } from '../../../model/units/units.ts';
import type { Underway } from '../../faults/underway.ts';

/**
 * Watches as little as a small server does: a tag that is subscribed to meanwhile is looked at only so often, which the
 * client is told as its revised sampling interval, and what is beyond a subscription's limit is refused by its status.
 */
export function watchLittle(server: OPCUAServer, underway: Underway): void {
  server.on('request', (request: { readonly schema: { readonly name: string } }) => {
    const sampled = underway.find('sampled');
    if (!sampled || request.schema.name !== 'CreateMonitoredItemsRequest') return;
    for (const { requestedParameters } of (request as unknown as CreateMonitoredItemsRequest).itemsToCreate ??
      []) {
      requestedParameters.samplingInterval = Math.max(
        requestedParameters.samplingInterval,
        millis(sampled.every),
      );
    }
  });
  limitItems(server, underway);
}

/** The library asks its own settings for the limit at every item; a subscription writes back what it read, as it begins. */
function limitItems(server: OPCUAServer, underway: Underway): void {
  const settings = server.engine.serverCapabilities;
  const usual = settings.maxMonitoredItemsPerSubscription;
  Object.defineProperty(settings, 'maxMonitoredItemsPerSubscription', {
    get: () => underway.find('limited')?.items ?? usual,
    set: () => {},
  });
}
