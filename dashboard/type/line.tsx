import { cut, plain, sizeThatFits } from './measure.ts';

export type Tone = 'ink' | 'ink2' | 'ink3' | 'onAbnormal' | 'onEmergency';

/** One line of text inside a drawing: fitted to `max` down to `least`, cut below that with the whole text as its title. */
export function Line({
  children,
  x,
  y,
  size,
  max,
  least = 22,
  anchor = 'start',
  tone = 'ink',
  bold = false,
  value = false,
}: {
  readonly children: string;
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly max?: number | undefined;
  readonly least?: number;
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly tone?: Tone;
  readonly bold?: boolean;
  /** A measured value: drawn thin and grey while nobody vouches for it. */
  readonly value?: boolean;
}) {
  const fitted = max === undefined ? size : sizeThatFits(children, max, size, Math.min(least, size), bold);
  const shown = max === undefined ? children : cut(children, max, fitted, bold);
  return (
    <text
      x={x}
      y={y}
      fontSize={fitted}
      fontWeight={bold ? 700 : 400}
      textAnchor={anchor}
      className={value ? `${tone} value` : tone}
    >
      <Runs text={shown} />
      {shown !== children && <title>{plain(children)}</title>}
    </text>
  );
}

function Runs({ text }: { readonly text: string }) {
  const runs = text.split('**');
  if (runs.length === 1) return text;
  // Runs have no identity of their own but their place in the sentence.
  return runs.map((run, i) =>
    i % 2 === 1 ? (
      // biome-ignore lint/suspicious/noArrayIndexKey: a run is its place
      <tspan key={i} fontWeight={700}>
        {run}
      </tspan>
    ) : (
      run
    ),
  );
}

/** The same marks of bold in a page's text. */
export function Rich({ text }: { readonly text: string }) {
  return text.split('**').map((run, i) =>
    i % 2 === 1 ? (
      // biome-ignore lint/suspicious/noArrayIndexKey: a run is its place
      <b key={i}>{run}</b>
    ) : (
      run
    ),
  );
}
