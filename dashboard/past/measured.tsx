import { type ReactNode, useEffect, useRef, useState } from 'react';

/** Px before it was measured, and where nothing can be measured. */
const FIRST = 900;

/** A drawing that is told how wide its column is, so that its type keeps its size. */
export function Measured({
  className,
  children,
}: {
  readonly className: string;
  readonly children: (width: number) => ReactNode;
}) {
  const column = useRef<HTMLDivElement>(null);
  const [width, set] = useState(FIRST);
  useEffect(() => {
    const element = column.current;
    if (!element) return;
    const watch = new ResizeObserver(() => set(Math.max(200, Math.round(element.clientWidth))));
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return (
    <div ref={column} className={className}>
      {children(width)}
    </div>
  );
}
