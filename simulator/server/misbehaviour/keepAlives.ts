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

/** Without a word for so long, client and server have both said what they had to. Milliseconds. */
const QUIET_MS = 60;

/**
 * Says to a client that nothing changed, and tells when the client has heard it. After each publish a client asks for
 * another one; so it has heard when as many of its requests wait as before it was said.
 */
export class KeepAlives {
  private armed: (() => void) | undefined;
  private readonly quiet = new WeakMap<ServerSession, NodeJS.Timeout>();
  /** Requests that waited when it was said, of sessions to which nothing else was sent since. */
  private readonly said = new WeakMap<ServerSession, number>();

  watch(server: OPCUAServer): void {
    server.on('create_session', (session) => {
      const { publishEngine } = session;
      const send = publishEngine._send_response.bind(publishEngine);
      publishEngine._send_response = (subscription, response) => {
        // a change that still came through: it is said once more that there is none
        if ((response.notificationMessage.notificationData ?? []).length > 0) this.said.delete(session);
        send(subscription, response);
        this.waitForQuiet(session);
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

  private waitForQuiet(session: ServerSession): void {
    clearTimeout(this.quiet.get(session));
    const timer = setTimeout(() => this.say(session), QUIET_MS);
    timer.unref();
    this.quiet.set(session, timer);
  }

  private say(session: ServerSession): void {
    const waiting = waitingIn(session);
    if (this.armed && saysNothing(session)) this.said.set(session, waiting);
  }

  private asked(session: ServerSession): void {
    this.waitForQuiet(session);
    const before = this.said.get(session);
    if (!this.armed || before === undefined || waitingIn(session) < before) return;
    this.said.delete(session);
    const then = this.armed;
    this.armed = undefined;
    then();
  }
}

function waitingIn(session: ServerSession): number {
  return (session as Inner).publishEngine?.pendingPublishRequestCount ?? 0;
}

function saysNothing(session: ServerSession): boolean {
  const subscriptions: unknown = (session as Inner).publishEngine?.subscriptions ?? [];
  return (subscriptions as readonly InnerSubscription[]).some(
    (subscription) => !subscription.hasPendingNotifications && subscription._sendKeepAliveResponse(),
  );
}
