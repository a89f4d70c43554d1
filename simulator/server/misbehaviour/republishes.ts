import { type Message, type OPCUAServer, RepublishResponse, type RepublishRequest } from 'node-opcua';
import type { ServerSecureChannelLayer, ServerSession } from 'node-opcua';
import type { Underway } from '../../faults/underway.ts';

interface Inner {
  _on_RepublishRequest(message: Message, channel: ServerSecureChannelLayer): void;
  getSession(token: unknown): ServerSession | null;
}

/** Answers Good with an empty message where it should say that it no longer has the message. */
export function answerEmpty(server: OPCUAServer, underway: Underway): void {
  const inner = server as unknown as Inner;
  const answer = inner._on_RepublishRequest.bind(server);
  inner._on_RepublishRequest = (message, channel) => {
    const { requestHeader, subscriptionId, retransmitSequenceNumber } = message.request as RepublishRequest;
    const subscription = inner.getSession(requestHeader.authenticationToken)?.getSubscription(subscriptionId);
    const isThere = subscription?.getMessageForSequenceNumber(retransmitSequenceNumber);
    if (!subscription || isThere || !underway.find('empty')) return answer(message, channel);
    return channel.send_response(
      'MSG',
      new RepublishResponse({ notificationMessage: { notificationData: [] } }),
      message,
    );
  };
}
