import { useEffect, useMemo, useState } from 'react';
import type { StripBox } from './scale.ts';

/**
 * A strip's box as wide as its column: the page's width without `beside`, up to the box's own width or `most`. Where
 * there is no page yet, the box's own.
 */
export function useColumnBox(box: StripBox, beside: number, most = box.width): StripBox {
  const [page, setPage] = useState(pageWidth);
  useEffect(() => {
    const follow = () => setPage(pageWidth());
    addEventListener('resize', follow);
    return () => removeEventListener('resize', follow);
  }, []);
  return useMemo(
    () => ({ ...box, width: page === undefined ? box.width : Math.min(most, page - beside) }),
    [box, beside, most, page],
  );
}

/** Without the scroll bar, which takes its own room from the column. */
function pageWidth(): number | undefined {
  return typeof innerWidth === 'undefined' ? undefined : document.documentElement.clientWidth;
}
