import type { OPCUAServer, ServerSession, Subscription } from 'node-opcua';

/** What the library keeps to itself of a session and of a subscription. */
interface Inner {
  readonly publishEngine:
    | (ServerSession['publishEngine'] & { readonly pendingPublishRequestCount: number })
    | null;
}
type InnerSubscription = Pick<Subscription, 'hasPendingNotifications'> & {
  _sendKeepAliveResponse(): boolean;
};
type InnerServer = OPCUAServer & { getSession(token: unknown): ServerSession | null };
type Request = {
  readonly schema: { readonly name: string };
  readonly requestHeader: { readonly authenticationToken: unknown };
};

/**
 * Says to a client that nothing changed, and tells when the client has heard it: it then asks for a publish again, as it
 * does after each one. A client that always has as many requests waiting is heard to be through when they are all back.
 */
export class KeepAlives {
  private armed: (() => void) | undefined;
  private readonly most = new WeakMap<ServerSession, number>();
  /** Sessions to which nothing else was sent since it was said. */
  private readonly said = new WeakSet<ServerSession>();

  watch(server: OPCUAServer): void {
    server.on('create_session', (session) => {
      const { publishEngine } = session;
      const send = publishEngine._send_response.bind(publishEngine);
      publishEngine._send_response = (subscription, response) => {
        // a change that still came through: it is said once more that there is none
        if ((response.notificationMessage.notificationData ?? []).length > 0) this.said.delete(session);
        send(subscription, response);
      };
    });
    server.on('request', (request: Request) => {
      if (request.schema.name !== 'PublishRequest') return;
      const session = (server as InnerServer).getSession(request.requestHeader.authenticationToken);
      // its handler comes first
      if (session) setImmediate(() => this.asked(session));
    });
  }

  /** Once a client has heard that nothing changed, and before anything else is sent to it. */
  onceHeard(then: () => void): void {
    this.armed = then;
  }

  disarm(): void {
    this.armed = undefined;
  }

  private asked(session: ServerSession): void {
    if (!this.isThrough(session) || !this.armed) return;
    if (!this.said.delete(session)) {
      if (saysNothing(session)) this.said.add(session);
      return;
    }
    const then = this.armed;
    this.armed = undefined;
    then();
  }

  private isThrough(session: ServerSession): boolean {
    const waiting = (session as Inner).publishEngine?.pendingPublishRequestCount ?? 0;
    const most = Math.max(waiting, this.most.get(session) ?? 0);
    this.most.set(session, most);
    return waiting > 0 && waiting === most;
  }
}

function saysNothing(session: ServerSession): boolean {
  const subscriptions: unknown = (session as Inner).publishEngine?.subscriptions ?? [];
  return (subscriptions as readonly InnerSubscription[]).some(
    (subscription) => !subscription.hasPendingNotifications && subscription._sendKeepAliveResponse(),
  );
}
