/**
 * The opened blank as geometry: a glue flap on the left, panels beside each other, and a flap above and below each
 * panel: major ones broad with round corners, minor ones narrowing. Scores lie where it would be folded.
 */
export interface Blank {
  /** Left edge of the glue flap. */
  readonly glue: number;
  /** Left edge of each panel, and the right edge of the last one. */
  readonly edges: readonly number[];
  readonly top: number;
  readonly bottom: number;
  /** How far the glue flap narrows. */
  readonly slope: number;
  readonly flapsAbove: readonly FlapKind[];
  readonly flapsBelow: readonly FlapKind[];
  /** How far a major flap stands out; a minor one stands six less. */
  readonly reach: number;
}
export type FlapKind = 'major' | 'minor' | 'none';

/** The outline of the whole blank. */
export function outline(blank: Blank): string {
  const left = blank.edges[0] ?? 0;
  const right = blank.edges.at(-1) ?? 0;
  const above = blank.flapsAbove.map((kind, i) =>
    flapAbove(kind, blank.edges[i] ?? 0, blank.edges[i + 1] ?? 0, blank),
  );
  const below = blank.flapsBelow.map((kind, i) =>
    flapBelow(kind, blank.edges[i] ?? 0, blank.edges[i + 1] ?? 0, blank),
  );
  return `M${left} ${blank.top}${above.join('')}L${right} ${blank.top}V${blank.bottom}${below.reverse().join('')}L${left} ${blank.bottom}L${blank.glue} ${blank.bottom - blank.slope}V${blank.top + blank.slope}Z`;
}

/** The glue flap and the first panel: what takes the colour of the line's state. */
export function firstPanel(blank: Blank): string {
  const left = blank.edges[0] ?? 0;
  return `M${left} ${blank.top}H${blank.edges[1]}V${blank.bottom}H${left}L${blank.glue} ${blank.bottom - blank.slope}V${blank.top + blank.slope}Z`;
}

/** The scores between panels and along the flaps, without the glue flap's own. */
export function scores(blank: Blank): string {
  const inner = blank.edges.slice(1, -1).map((x) => `M${x} ${blank.top}V${blank.bottom}`);
  const left = blank.edges[0] ?? 0;
  const right = blank.edges.at(-1) ?? 0;
  const along = [
    blank.flapsAbove.some((kind) => kind !== 'none') ? `M${left} ${blank.top}H${right}` : '',
    blank.flapsBelow.some((kind) => kind !== 'none') ? `M${left} ${blank.bottom}H${right}` : '',
  ];
  return [...inner, ...along].join('');
}

export function glueScore(blank: Blank): string {
  return `M${blank.edges[0]} ${blank.top}V${blank.bottom}`;
}

function flapAbove(kind: FlapKind, from: number, to: number, { top, reach }: Blank): string {
  const y = top - reach;
  if (kind === 'none') return '';
  if (kind === 'minor') return `L${from + 5} ${top}L${from + 20} ${y + 6}H${to - 20}L${to - 5} ${top}`;
  return `L${from + 6} ${top}V${y + 10}Q${from + 6} ${y} ${from + 18} ${y}H${to - 18}Q${to - 6} ${y} ${to - 6} ${y + 10}V${top}`;
}

function flapBelow(kind: FlapKind, from: number, to: number, { bottom, reach }: Blank): string {
  const y = bottom + reach + 4;
  if (kind === 'none') return '';
  if (kind === 'minor') return `L${to - 5} ${bottom}L${to - 20} ${y - 6}H${from + 20}L${from + 5} ${bottom}`;
  return `L${to - 6} ${bottom}V${y - 10}Q${to - 6} ${y} ${to - 18} ${y}H${from + 18}Q${from + 6} ${y} ${from + 6} ${y - 10}V${bottom}`;
}
