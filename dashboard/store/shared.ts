/**
 * The next value with every piece of the one before that says the same: what did not change keeps its identity, and
 * whoever draws a piece sees at once that there is nothing to draw.
 */
export function shared<Value>(before: unknown, next: Value): Value {
  if (Object.is(before, next)) return next;
  if (typeof before !== 'object' || typeof next !== 'object' || before === null || next === null) return next;
  if (Array.isArray(before) !== Array.isArray(next)) return next;
  const from = before as { readonly [key: string]: unknown };
  const pieces = Object.entries(next).map(
    ([key, piece]) => [key, shared(Object.hasOwn(from, key) ? from[key] : undefined, piece)] as const,
  );
  const same =
    Object.keys(from).length === pieces.length && pieces.every(([key, piece]) => Object.is(from[key], piece));
  if (same) return before as Value;
  return (Array.isArray(next) ? pieces.map(([, piece]) => piece) : Object.fromEntries(pieces)) as Value;
}
