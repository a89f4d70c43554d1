import { type PointerEvent, type ReactNode, useRef } from 'react';
import { type TimeBox, timeAt } from './scale.ts';

/** A strip of time on which a moment is chosen by pressing or drawing along it. By keyboard the slider and the keys do the same. */
export function Dragged({
  box,
  go,
  className,
  children,
}: {
  readonly box: TimeBox;
  readonly go: (at: number) => void;
  readonly className: string;
  readonly children: ReactNode;
}) {
  const held = useRef(false);
  const follow = (event: PointerEvent<HTMLDivElement>) => {
    if (held.current) go(timeAt(event.clientX - event.currentTarget.getBoundingClientRect().left, box));
  };
  const end = () => {
    held.current = false;
  };
  return (
    <div
      className={className}
      onPointerDown={(event) => {
        held.current = true;
        event.currentTarget.setPointerCapture(event.pointerId);
        follow(event);
      }}
      onPointerMove={follow}
      onPointerUp={end}
      onPointerCancel={end}
    >
      {children}
    </div>
  );
}
