import marks from './marks.svg?raw';
import stations from './stations.svg?raw';

/** Drawings that stations.svg has; a line's file may name one that it has not. */
const DRAWN: ReadonlySet<string> = new Set(
  Array.from(stations.matchAll(/<symbol id="st-([a-z-]+)"/g), (found) => found[1] ?? ''),
);

/** Every symbol and pattern, once a page; `Mark` and `Carton` use them. */
export function Symbols() {
  return (
    <div
      aria-hidden="true"
      className="unseen"
      // biome-ignore lint/security/noDangerouslySetInnerHtml: two files of our own, fixed when the page is built
      dangerouslySetInnerHTML={{ __html: marks + stations }}
    />
  );
}

/** The carton as it looks at a station; `off` is folded off its score. An unknown drawing is a closed carton. */
export function Carton({
  drawing,
  off = false,
  className = '',
  ...box
}: {
  readonly drawing: string;
  readonly off?: boolean;
  readonly className?: string;
  readonly x?: number;
  readonly y?: number;
  readonly width: number;
}) {
  const known = DRAWN.has(drawing) ? drawing : 'discharge';
  const id = off && DRAWN.has(`${known}-off`) ? `${known}-off` : known;
  return (
    <svg
      className={`st ${className}`}
      viewBox="0 -6 120 158"
      height={(box.width * 158) / 120}
      {...box}
      aria-hidden="true"
    >
      <use href={`#st-${id}`} width={120} height={158} y={-6} />
    </svg>
  );
}

/** A mark beside a word, never without one. `s-` marks of the line's state are drawn in a box of 44. */
export function Mark({
  id,
  size,
  x,
  y,
}: {
  readonly id: string;
  readonly size: number;
  readonly x?: number;
  readonly y?: number;
}) {
  const box = id.startsWith('s-')
    ? '0 0 44 44'
    : id === 'm-padlock' || id === 'm-person'
      ? '0 0 40 46'
      : '0 0 32 32';
  const place = { ...(x === undefined ? {} : { x }), ...(y === undefined ? {} : { y }) };
  return (
    <svg className="mark" width={size} height={size} viewBox={box} {...place} aria-hidden="true">
      <use href={`#${id}`} />
    </svg>
  );
}
