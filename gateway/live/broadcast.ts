import type { LineView } from '../../model/view/view.ts';
import type { LiveLine } from './liveLine.ts';

/** How often counts are sent when nothing happens. Milliseconds. */
const EVERY_MS = 1000;
/** Between two views that follow from events at least this long, so that a burst is one message. Milliseconds. */
const APART_MS = 40;

export interface Broadcast {
  /** The newest view told, with its number. */
  current(): { readonly number: number; readonly view: LineView };
  stop(): void;
}

type Parts = (message: { number: number; parts: Partial<LineView> }) => void;

/** Works out the view of a line once a second, and at once when something happened, and tells the parts that changed. */
export function startBroadcast(live: LiveLine, tell: Parts, watched: () => boolean = () => true): Broadcast {
  let stale = false;
  let view = live.view();
  let texts = textsOf(view);
  let number = 1;
  let last = 0;
  let soon: NodeJS.Timeout | undefined;

  const send = () => {
    soon = undefined;
    if (!watched()) {
      stale = true;
      return;
    }
    stale = false;
    last = performance.now();
    view = live.view();
    const next = textsOf(view);
    const parts: Record<string, unknown> = {};
    for (const [key, text] of next) if (texts.get(key) !== text) parts[key] = view[key as keyof LineView];
    // a part that is gone, or has become undefined, leaves no trace in JSON: it is told as null
    for (const key of texts.keys())
      if (texts.get(key) !== undefined && next.get(key) === undefined) parts[key] = null;
    texts = next;
    number += 1;
    tell({ number, parts: parts as Partial<LineView> });
  };
  const timer = setInterval(send, EVERY_MS);
  const quiet = live.onEvents(() => {
    soon ??= setTimeout(send, Math.max(0, APART_MS - (performance.now() - last)));
  });
  return {
    current: () => {
      if (stale) {
        view = live.view();
        texts = textsOf(view);
        number += 1;
        stale = false;
      }
      return { number, view };
    },
    stop: () => {
      clearInterval(timer);
      clearTimeout(soon);
      quiet();
    },
  };
}

function textsOf(view: LineView): Map<string, string | undefined> {
  return new Map(
    Object.entries(view).map(([key, value]) => [key, JSON.stringify(value) as string | undefined]),
  );
}
