import { type RefObject, useEffect, useLayoutEffect, useRef, useState } from 'react';
import { flushSync } from 'react-dom';

/** A4 upright at 96 dots an inch. */
export const PAGE = { width: 794, height: 1116 } as const;
/** Below this width the screen shows no page, but one column that is as long as it is. */
const PHONE = '(max-width: 760px)';
/** Made no smaller than this: type of 8.6 points would be below 7. */
const LEAST = 0.8;
/** Where nothing more can be given up, one page is worth more than its type. */
const TINY = 0.3;

interface Fit {
  /** What was measured. */
  readonly of: string;
  /** How many times something was left out. */
  readonly step: number;
  readonly zoom: number;
  readonly settled: boolean;
}

/**
 * A page that always fits. What is longer than paper is set a little smaller, all of it; what is longer still gives something
 * up, step by step (`steps` of them). `key` is what is measured: another one is measured anew, and so is what is printed, as
 * a screen may be no page.
 */
export function useOnePage(
  key: string,
  steps: number,
): { readonly page: RefObject<HTMLElement | null>; readonly step: number; readonly zoom: number } {
  const page = useRef<HTMLElement>(null);
  const prints = useRef(false);
  const [fit, set] = useState<Fit>(() => unmeasured(key));
  useLayoutEffect(() => {
    const element = page.current;
    if (fit.of !== key) return set(unmeasured(key));
    if (fit.settled || !element) return;
    if (!prints.current && matchMedia(PHONE).matches) return set({ ...fit, settled: true });
    const isLast = fit.step >= steps - 1;
    const zoom = zoomThatFits(element, LEAST) ?? (isLast ? zoomThatFits(element, TINY) : undefined);
    set(
      zoom === undefined && !isLast
        ? { ...fit, step: fit.step + 1 }
        : { ...fit, zoom: zoom ?? TINY, settled: true },
    );
  }, [fit, key, steps]);
  useEffect(
    () =>
      whenPageChanges((printing) => {
        prints.current = printing;
        // a print takes the page as it is when the event ends
        flushSync(() => set((before) => unmeasured(before.of)));
      }),
    [],
  );
  return { page, step: fit.step, zoom: fit.zoom };
}

function unmeasured(of: string): Fit {
  return { of, step: 0, zoom: 1, settled: false };
}

/**
 * The largest zoom from `least` on with which it is one page high, whatever the screen it stands on; undefined where it is
 * higher even so.
 */
function zoomThatFits(element: HTMLElement, least: number): number | undefined {
  const { style } = element;
  const before = style.getPropertyValue('--zoom');
  const fits = (zoom: number) => {
    style.setProperty('--zoom', String(zoom));
    return element.scrollHeight * zoom <= PAGE.height;
  };
  element.classList.add('tofit');
  const zoom = fits(1) ? 1 : fits(least) ? largest(fits, least) : undefined;
  element.classList.remove('tofit');
  style.setProperty('--zoom', before);
  return zoom;
}

/** Between one that fits and 1, which does not, halved until the difference is none that is seen. */
function largest(fits: (zoom: number) => boolean, least: number): number {
  let [low, high] = [least, 1];
  for (let n = 0; n < 6; n += 1) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/** Before it is printed, after that, and when the screen becomes a phone's or is none any more. Returns its end. */
function whenPageChanges(act: (printing: boolean) => void): () => void {
  const phone = matchMedia(PHONE);
  const [print, screen] = [() => act(true), () => act(false)];
  addEventListener('beforeprint', print);
  addEventListener('afterprint', screen);
  phone.addEventListener('change', screen);
  return () => {
    removeEventListener('beforeprint', print);
    removeEventListener('afterprint', screen);
    phone.removeEventListener('change', screen);
  };
}
