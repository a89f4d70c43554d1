import type { Line } from './line.ts';

const MAP = '$map';

/** A line's definition as text, from which `lineFrom` makes the same one again: so a browser folds by it as the gateway does. */
export function lineText(line: Line): string {
  return JSON.stringify(line, (_key, value: unknown) =>
    value instanceof Map ? { [MAP]: [...value] } : value,
  );
}

export function lineFrom(text: string): Line {
  return JSON.parse(text, (_key, value: unknown) => {
    const isMap = typeof value === 'object' && value !== null && Object.hasOwn(value, MAP);
    return isMap ? new Map((value as { readonly [MAP]: [unknown, unknown][] })[MAP]) : value;
  }) as Line;
}
