import { startTransition, useEffect, useState } from 'react';

/**
 * Charts are the dearest thing a page draws: of several that change at once each waits for its turn, one an animation
 * frame, so that no frame has more than one to draw. A chart that changes again while it waits is drawn once.
 */
const waiting = new Map<object, () => void>();
let asked = false;

function turn(): void {
  asked = false;
  const [first] = waiting;
  if (!first) return;
  const [chart, draw] = first;
  waiting.delete(chart);
  draw();
  ask();
}

function ask(): void {
  if (asked || waiting.size === 0) return;
  asked = true;
  requestAnimationFrame(turn);
}

/** The value that a chart draws: the newest, once its turn has come. The first one is drawn at once. */
export function useInTurn<Value>(value: Value): Value {
  const [drawn, draw] = useState(value);
  const [chart] = useState<object>(() => ({}));
  useEffect(() => {
    if (Object.is(value, drawn)) return;
    waiting.set(chart, () => startTransition(() => draw(() => value)));
    ask();
  }, [value, drawn, chart]);
  useEffect(() => () => void waiting.delete(chart), [chart]);
  return drawn;
}
