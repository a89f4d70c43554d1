import { ClientSecureChannelLayer } from 'node-opcua';

/**
 * The only requests that may leave this process towards a PLC: finding it, opening and closing a session, reading,
 * browsing and subscribing. No Write, no Call, no HistoryUpdate, no node management: a request that is not named here
 * is refused, so one that a later version of the standard or the library adds is refused as well.
 */
export const allowedRequests: ReadonlySet<string> = new Set([
  'FindServersRequest',
  'GetEndpointsRequest',
  'OpenSecureChannelRequest',
  'CloseSecureChannelRequest',
  'CreateSessionRequest',
  'ActivateSessionRequest',
  'CloseSessionRequest',
  'BrowseRequest',
  'BrowseNextRequest',
  'TranslateBrowsePathsToNodeIdsRequest',
  'ReadRequest',
  'CreateSubscriptionRequest',
  'ModifySubscriptionRequest',
  'DeleteSubscriptionsRequest',
  'SetPublishingModeRequest',
  'TransferSubscriptionsRequest',
  'CreateMonitoredItemsRequest',
  'ModifyMonitoredItemsRequest',
  'DeleteMonitoredItemsRequest',
  'SetMonitoringModeRequest',
  'PublishRequest',
  'RepublishRequest',
]);

type Channel = ClientSecureChannelLayer;
type Request = Parameters<Channel['performMessageTransaction']>[0];
type Answer = Parameters<Channel['performMessageTransaction']>[1];

const guarded = Symbol.for('scoreline.readOnlyChannel');

/**
 * Puts the allow-list below the session, where every request of every client of this process has to pass before it is
 * encoded: the library's secure channel sends through this one method, what lies beneath is private to it (opening and
 * closing the channel). A refused request never reaches the socket; its caller gets an error.
 *
 * This replaces a method of the library, whose version is pinned; without that method the gateway does not start.
 */
export function makeChannelsReadOnly(): void {
  const channel = ClientSecureChannelLayer.prototype as Channel & { [guarded]?: true };
  if (channel[guarded]) return;
  const send: unknown = channel.performMessageTransaction;
  if (typeof send !== 'function') throw new Error('Mistake in Scoreline: no secure channel to guard');
  channel.performMessageTransaction = function (this: Channel, request: Request, answer: Answer) {
    if (!isAllowed(request)) {
      answer(new Error(`Refused before the socket, Scoreline only reads: ${nameOf(request)}`));
      return;
    }
    send.call(this, request, answer);
  };
  Object.defineProperty(channel, guarded, { value: true });
}

/** Both its own name and the name of what it encodes as must be allowed. */
function isAllowed(request: Request): boolean {
  return allowedRequests.has(nameOf(request)) && allowedRequests.has(request.constructor.name);
}

function nameOf(request: Request): string {
  return (
    (request as { readonly schema?: { readonly name?: string } }).schema?.name ?? request.constructor.name
  );
}
