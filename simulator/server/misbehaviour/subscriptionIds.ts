import { type OPCUAServer, setNextSubscriptionId } from 'node-opcua';

type Create = (session: unknown, request: unknown) => { readonly id: number };

/** The highest number given by any server of this process: the library counts them for all of them together. */
let highest = 0;

/** Numbers of subscriptions, which a server that is started anew may give again. */
export class SubscriptionIds {
  private given: number[] = [];

  /** `again`: as the server before gave them, in the same order. Otherwise they go on counting. */
  give(server: OPCUAServer, again: boolean): void {
    const wanted = again ? this.given : [];
    this.given = [];
    const engine = server.engine as unknown as { _createSubscriptionOnSession: Create };
    const create = engine._createSubscriptionOnSession.bind(server.engine);
    engine._createSubscriptionOnSession = (session, request) => {
      const id = wanted.shift();
      if (id !== undefined) setNextSubscriptionId(id);
      const subscription = create(session, request);
      this.given.push(subscription.id);
      highest = Math.max(highest, subscription.id);
      if (id !== undefined) setNextSubscriptionId(highest + 1);
      return subscription;
    };
  }
}
