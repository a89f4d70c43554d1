import { useCallback, useEffect, useRef, useState } from 'react';
import { type Instant, TICKS_PER_MS } from '../../model/units/units.ts';

/** How many times as fast as it was. */
export const SPEEDS = [1, 8, 60, 600] as const;
export type Speed = (typeof SPEEDS)[number];

export interface Cursor {
  readonly at: Instant;
  readonly plays: boolean;
  readonly speed: Speed;
  readonly go: (at: Instant) => void;
  readonly play: (plays: boolean) => void;
  readonly setSpeed: (speed: Speed) => void;
}

/** The moment that is looked at, kept within a stretch; while it plays it goes on by the screen's own clock. */
export function useCursor(begin: Instant, end: Instant, first: Instant): Cursor {
  const [at, set] = useState(first);
  const [plays, setPlays] = useState(false);
  const [speed, setSpeed] = useState<Speed>(1);
  const now = useRef(at);
  now.current = at;
  const go = useCallback(
    (moment: Instant) => set(Math.min(end, Math.max(begin, Math.round(moment))) as Instant),
    [begin, end],
  );
  useEffect(() => {
    if (!plays) return;
    let last = performance.now();
    let asked = 0;
    const on = () => {
      const clock = performance.now();
      const next = now.current + (clock - last) * TICKS_PER_MS * speed;
      last = clock;
      go(next as Instant);
      if (next >= end) setPlays(false);
      else asked = requestAnimationFrame(on);
    };
    asked = requestAnimationFrame(on);
    return () => cancelAnimationFrame(asked);
  }, [plays, speed, end, go]);
  const play = useCallback(
    (wanted: boolean) => {
      // at its end it begins anew
      if (wanted && now.current >= end) set(begin);
      setPlays(wanted);
    },
    [begin, end],
  );
  return { at, plays, speed, go, play, setSpeed };
}
