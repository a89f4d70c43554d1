import type { FigureId } from '../../model/figures/figures.ts';

/** A number of a sentence: the figure that it is, and the words that stand for its value there. */
export type Numbered = readonly [figure: FigureId, words: string];

/** A part of a sentence, and the figure that it is a value of, if it is one. */
export interface Piece {
  readonly text: string;
  readonly figure: FigureId | undefined;
  readonly bold: boolean;
}

interface Claim {
  readonly from: number;
  readonly to: number;
  readonly figure: FigureId;
}

/**
 * A sentence cut at the values that are figures, so that each answers for itself; `**` marks what is bold. Of equal
 * values the first in `numbers` is the one that stands first. What a sentence does not say is passed over: a line that
 * was broken in two has a part of the numbers each.
 */
export function piecesOf(text: string, numbers: readonly Numbered[]): readonly Piece[] {
  const claims: Claim[] = [];
  for (const [figure, words] of numbers) {
    const from = placeOf(text, words, claims);
    if (from !== undefined) claims.push({ figure, from, to: from + words.length });
  }
  claims.sort((a, b) => a.from - b.from);
  const pieces: Piece[] = [];
  let [at, bold] = [0, false];
  const plainTo = (to: number) => {
    text
      .slice(at, to)
      .split('**')
      .forEach((run, place) => {
        if (place > 0) bold = !bold;
        if (run !== '') pieces.push({ text: run, figure: undefined, bold });
      });
    at = to;
  };
  for (const { from, to, figure } of claims) {
    plainTo(from);
    pieces.push({ text: text.slice(from, to), figure, bold });
    at = to;
  }
  plainTo(text.length);
  return pieces;
}

/** The first place where the words stand whole: 12 is found neither in 120 nor in 1,112 nor in 12.5 nor in 06:12. */
function placeOf(text: string, words: string, claims: readonly Claim[]): number | undefined {
  if (words === '') return undefined;
  for (let from = text.indexOf(words); from >= 0; from = text.indexOf(words, from + 1)) {
    const to = from + words.length;
    const whole =
      !/[\p{L}\d]$|\d[.,:]$/u.test(text.slice(0, from)) && !/^([\p{L}\d]|[.,:]\d)/u.test(text.slice(to));
    if (whole && claims.every((claim) => to <= claim.from || from >= claim.to)) return from;
  }
  return undefined;
}
