import type { Sent } from './session.ts';
import { send } from './session.ts';

/** What the gateway says of push. */
export interface PushTold {
  readonly running: boolean;
  readonly key: string | null;
  readonly own: readonly { readonly id: string; readonly since: number }[] | null;
}

/** Why this browser cannot take notices by push; undefined where it can. */
export type PushLack = 'notSecure' | 'notThere' | 'denied';

export function pushLack(): PushLack | undefined {
  if (!isSecureContext) return 'notSecure';
  if (!('serviceWorker' in navigator) || !('PushManager' in globalThis)) return 'notThere';
  return Notification.permission === 'denied' ? 'denied' : undefined;
}

/** Undefined where the gateway does not answer, or has no such address. */
export async function pushTold(): Promise<PushTold | undefined> {
  try {
    const response = await fetch('/api/notices/push');
    return response.ok ? ((await response.json()) as PushTold) : undefined;
  } catch {
    return undefined; // the screen says elsewhere that the gateway does not answer
  }
}

/** The id of this browser's subscription; undefined where it has none. */
export async function ownId(): Promise<string | undefined> {
  const registration = await navigator.serviceWorker.getRegistration('/');
  const subscription = await registration?.pushManager.getSubscription();
  return subscription ? idOf(subscription.endpoint) : undefined;
}

/** Asks this browser for a subscription and tells the gateway; undefined where browser or push service will not. */
export async function subscribe(key: string): Promise<Sent | undefined> {
  const subscription = await newSubscription(key);
  if (subscription === undefined) return undefined;
  const { endpoint, keys } = subscription.toJSON();
  return send('POST', '/api/notices/push', { endpoint, keys });
}

/** The gateway sends nothing more there; where it is this browser's own, that gives its subscription up as well. */
export async function unsubscribe(id: string): Promise<Sent> {
  const registration = await navigator.serviceWorker?.getRegistration('/');
  const subscription = await registration?.pushManager?.getSubscription();
  if (subscription && (await idOf(subscription.endpoint)) === id) await subscription.unsubscribe();
  return send('DELETE', `/api/notices/push/${id}`);
}

async function newSubscription(key: string): Promise<PushSubscription | undefined> {
  if ((await Notification.requestPermission()) !== 'granted') return undefined;
  try {
    await navigator.serviceWorker.register('/push.js');
    const { pushManager } = await navigator.serviceWorker.ready;
    // one of another gateway's key, or of the key before, takes nothing from this one
    await (await pushManager.getSubscription())?.unsubscribe();
    return await pushManager.subscribe({ userVisibleOnly: true, applicationServerKey: key });
  } catch {
    return undefined; // told in words by whoever asked: the browser's own words are for programmers
  }
}

/** As the gateway tells it: SHA-256 in hexadecimal digits. */
async function idOf(endpoint: string): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(endpoint));
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
}
