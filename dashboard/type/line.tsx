import { useContext } from 'react';
import { Drawn, Figure, useFigure } from '../figures/figure.tsx';
import { type Numbered, type Piece, piecesOf } from '../figures/pieces.ts';
import { cut, measure, plain, sizeThatFits } from './measure.ts';

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
  of = NONE,
  quiet = false,
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
  /** Which numbers in it are figures. */
  readonly of?: readonly Numbered[];
  /** The figures of it are reached by keyboard elsewhere. */
  readonly quiet?: boolean;
}) {
  const figure = useFigure();
  const drawn = useContext(Drawn);
  const fitted = max === undefined ? size : sizeThatFits(children, max, size, Math.min(least, size), bold);
  const shown = max === undefined ? children : cut(children, max, fitted, bold);
  const pieces = piecesOf(shown, of);
  const [only] = pieces;
  // a number by itself answers as it is; several have a place each, so that the text is set as it would be without
  const whole =
    pieces.length === 1 && only?.figure !== undefined && !only.bold ? figure(only.figure, quiet) : undefined;
  return (
    <>
      <text
        {...whole}
        aria-hidden={drawn && whole === undefined ? true : undefined}
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
      {whole === undefined && (
        <Places
          pieces={pieces}
          x={x}
          y={y}
          size={fitted}
          anchor={anchor}
          bold={bold}
          thins={value}
          quiet={quiet}
        />
      )}
    </>
  );
}

const NONE: readonly Numbered[] = [];

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

/** Where the figures of a line of text are, for whoever presses them: nothing is drawn there. */
function Places({
  pieces,
  x,
  y,
  size,
  anchor,
  bold,
  thins,
  quiet,
}: {
  readonly pieces: readonly Piece[];
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly bold: boolean;
  /** It is drawn thin while nobody vouches for it: then its numbers stand nearer to each other. */
  readonly thins: boolean;
  readonly quiet: boolean;
}) {
  const figure = useFigure();
  const lefts = [false, ...(thins ? [true] : [])].map((thin) =>
    leftsOf(pieces, { x, size, anchor, bold, thin }),
  );
  return pieces.map((piece, place) => {
    const from = Math.min(...lefts.map((left) => left[place]!));
    const to = Math.max(...lefts.map((left) => left[place + 1]!));
    if (piece.figure === undefined) return null;
    const marks = figure(piece.figure, quiet);
    return (
      <rect
        // biome-ignore lint/suspicious/noArrayIndexKey: a piece is its place
        key={place}
        className="figureplace"
        {...marks}
        data-shown={piece.text}
        aria-label={'role' in marks ? piece.text : undefined}
        x={from - 2}
        y={y - size * 0.86}
        width={to - from + 4}
        height={size * 1.12}
      />
    );
  });
}

/** Where each piece begins, and where the last one ends. */
function leftsOf(
  pieces: readonly Piece[],
  {
    x,
    size,
    anchor,
    bold,
    thin,
  }: {
    readonly x: number;
    readonly size: number;
    readonly anchor: 'start' | 'middle' | 'end';
    readonly bold: boolean;
    readonly thin: boolean;
  },
): readonly number[] {
  const widths = pieces.map((piece) => measure(piece.text, size, !thin && (bold || piece.bold)));
  const all = widths.reduce((sum, width) => sum + width, 0);
  const lefts = [anchor === 'start' ? x : anchor === 'middle' ? x - all / 2 : x - all];
  for (const width of widths) lefts.push(lefts.at(-1)! + width);
  return lefts;
}

/** The same marks of bold, and of figures, in a page's text. */
export function Rich({
  text,
  of = NONE,
  quiet = false,
}: {
  readonly text: string;
  readonly of?: readonly Numbered[];
  readonly quiet?: boolean;
}) {
  return piecesOf(text, of).map((piece, i) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: a piece is its place
    <RichPiece key={i} piece={piece} quiet={quiet} />
  ));
}

function RichPiece({
  piece: { text, bold, figure },
  quiet,
}: {
  readonly piece: Piece;
  readonly quiet: boolean;
}) {
  const said = bold ? <b>{text}</b> : text;
  return figure === undefined ? (
    said
  ) : (
    <Figure of={figure} quiet={quiet}>
      {said}
    </Figure>
  );
}
