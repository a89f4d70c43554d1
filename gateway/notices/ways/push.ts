import type { Push } from '../../people/people.ts';
import { openPushKeys } from './pushKeys.ts';
import type { OpenPush } from './pushRoutes.ts';
import type { PushSettings } from './pushSettings.ts';
import type { Way } from './way.ts';

export interface PushOpening {
  readonly settings: PushSettings;
  readonly data: string;
  readonly subscriptions: Push;
  readonly trusted?: string;
  readonly now: () => number;
}

/** Sets push up: its keys, made on first use, and the way. The library is loaded only where this is called. */
export async function openPush({
  settings,
  data,
  subscriptions,
  ...more
}: PushOpening): Promise<{ readonly way: Way; readonly open: OpenPush }> {
  const { default: webPush } = await import('web-push');
  const { pushWay } = await import('./pushWay.ts');
  const keys = openPushKeys(data, () => {
    // whoever subscribed to other keys takes nothing that these sign
    subscriptions.clear();
    return webPush.generateVAPIDKeys();
  });
  return {
    way: pushWay({ settings, keys, subscriptions, ...more }),
    open: { settings, publicKey: keys.publicKey, subscriptions },
  };
}
