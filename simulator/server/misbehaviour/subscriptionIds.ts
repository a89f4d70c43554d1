import { type OPCUAServer, setNextSubscriptionId } from 'node-opcua';

type Create = (session: unknown, request: unknown) => { readonly id: number };

/** The highest number given by any server of this process: the library counts them for all of them together. */
let highest = 0;

/** Numbers of subscriptions, which a server that is started anew may give again. */
export class SubscriptionIds {
  /** Numbers given so far, by each server in its turn. */
  readonly given: (readonly number[])[] = [];

  /** `again`: as the server before gave them, in the same order. Otherwise they go on counting. */
  give(server: OPCUAServer, again: boolean): void {
    const wanted = again ? [...(this.given.at(-1) ?? [])] : [];
    const own: number[] = [];
    this.given.push(own);
    const engine = server.engine as unknown as { _createSubscriptionOnSession: Create };
    const create = engine._createSubscriptionOnSession.bind(server.engine);
    engine._createSubscriptionOnSession = (session, request) => {
      const id = wanted.shift();
      if (id !== undefined) setNextSubscriptionId(id);
      const subscription = create(session, request);
      own.push(subscription.id);
      highest = Math.max(highest, subscription.id);
      if (id !== undefined) setNextSubscriptionId(highest + 1);
      return subscription;
    };
  }
}
