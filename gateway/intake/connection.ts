import type { Stamps } from './lineTime.ts';
import type { WireValue } from './values.ts';

/** A value of one tag as it came from the server; `item` is the tag's place in the list that was asked for. */
export interface RawValue extends Stamps {
  readonly item: number;
  readonly wire: WireValue | undefined;
  readonly status: number;
}

/** One publish of the subscription. */
export interface Message {
  readonly kind: 'message';
  /** Which life of the subscription it belongs to: a subscription made anew numbers its messages anew. */
  readonly life: number;
  readonly number: number;
  /** Nothing changed; the number is the one that the next message will have. */
  readonly keepAlive: boolean;
  /** The server had more to tell at that moment than fits one message: the rest follows at once. */
  readonly more: boolean;
  /** When it was received, by the caller's clock; milliseconds since 1970. */
  readonly received: number;
  /** How many values it holds, for the bounds of queues. */
  readonly size: number;
  values(): readonly RawValue[];
}

/** What a connection tells while it lives, in the order in which it happens. */
export type Happening =
  | Message
  /** The link broke; it is being repaired, and the server may keep the subscription meanwhile. */
  | { readonly kind: 'lost' }
  /** The link is repaired, what the server had kept has been sent. */
  | { readonly kind: 'restored' }
  /** It will not come back by itself. */
  | { readonly kind: 'dead' };

/** What the server made of one tag. */
export interface ItemState {
  /** Status code of the monitored item. */
  readonly status: number;
  /** Milliseconds; what the server granted, not what was asked for. */
  readonly sampling: number;
  readonly queue: number;
}

/** One client with one session and one subscription for all tags of a server. */
export interface Connection {
  /** When the subscription was asked for: what is heard is observed from then on. Milliseconds since 1970, our clock. */
  readonly openedAt: number;
  /** Revised by the server. Milliseconds. */
  readonly publishingMs: number;
  readonly keepAliveMs: number;
  readonly lifetimeMs: number;
  readonly fingerprint: string | undefined;
  /** Which life of the subscription is running. */
  life(): number;
  items(): readonly ItemState[];
  /** Every tag once, or only some, as they are now. */
  read(items?: readonly number[]): Promise<readonly RawValue[]>;
  /** The server's own clock, milliseconds since 1970. */
  serverClock(): Promise<number>;
  /** True when a namespace has another number than when the tags were looked up. */
  namespacesMoved(): Promise<boolean>;
  /** Messages that have not come by now are not asked for any more. */
  giveUpMissing(): void;
  /** Stops asking for more publishes, or goes on; the server keeps the values in its queues meanwhile. */
  pause(on: boolean): void;
  /** When the server last answered anything, by `performance.now()`; 0 before the first answer. */
  lastAnswer(): number;
  close(): Promise<void>;
}
