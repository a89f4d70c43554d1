/** An opened page that nobody touches for this long goes back, so that a question is not hidden behind it. */
export const LEFT_ALONE_MS = 90_000;

const TOUCHES = ['pointerdown', 'pointermove', 'keydown', 'input'] as const;

/** Acts once nobody has touched `target` for a while; every touch and every key begins the while anew. Returns its end. */
export function whenLeftAlone(target: EventTarget, act: () => void, after = LEFT_ALONE_MS): () => void {
  let timer = setTimeout(act, after);
  const again = () => {
    clearTimeout(timer);
    timer = setTimeout(act, after);
  };
  for (const touch of TOUCHES) target.addEventListener(touch, again, { capture: true });
  return () => {
    clearTimeout(timer);
    for (const touch of TOUCHES) target.removeEventListener(touch, again, { capture: true });
  };
}
