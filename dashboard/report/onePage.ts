import { type RefObject, useLayoutEffect, useRef, useState } from 'react';

/** A4 upright at 96 dots an inch. */
export const PAGE = { width: 794, height: 1116 } as const;
const PHONE = 760;
/** Made no smaller than this: type of 8.6 points would be below 7. */
const LEAST = 0.8;

/** A page that always fits: what is longer than paper is set a little smaller, all of it. */
export function useOnePage(
  key: unknown,
): readonly [RefObject<HTMLElement | null>, { readonly zoom: number; readonly width: number } | undefined] {
  const page = useRef<HTMLElement>(null);
  const [zoom, set] = useState(1);
  // another report is measured anew
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key is what is measured
  useLayoutEffect(() => {
    const element = page.current;
    // a phone shows it as one column, which is as long as it is
    if (!element || innerWidth <= PHONE) return set(1);
    const before = [element.style.zoom, element.style.width] as const;
    element.style.zoom = '1';
    let fits = 1;
    for (let n = 0; n < 6; n += 1) {
      element.style.width = `${PAGE.width / fits}px`;
      const height = element.scrollHeight * fits;
      if (height <= PAGE.height || fits <= LEAST) break;
      fits = Math.max(LEAST, fits * Math.max(0.9, PAGE.height / height) - 0.005);
    }
    [element.style.zoom, element.style.width] = before;
    set(fits);
  }, [key]);
  return [page, zoom < 1 ? { zoom, width: PAGE.width / zoom } : undefined];
}
