import { describe, expect, it } from 'vitest';
import { type Numbered, piecesOf } from '../../../dashboard/figures/pieces.ts';

/** The sentence with each figure in brackets, and bold in stars. */
function marked(text: string, numbers: readonly Numbered[]): string {
  return piecesOf(text, numbers)
    .map(({ text: piece, figure, bold }) => {
      const said = bold ? `*${piece}*` : piece;
      return figure === undefined ? said : `[${figure} ${said}]`;
    })
    .join('');
}

describe('a sentence is cut at its figures', () => {
  it('each number apart, also within what is bold', () => {
    expect(
      marked('**1,333 lost** = 10,218 planned so far − 8,885 good', [
        ['lost', '1,333'],
        ['planned', '10,218'],
        ['good', '8,885'],
      ]),
    ).toBe('[lost *1,333*]* lost* = [planned 10,218] planned so far − [good 8,885] good');
  });

  it('only where the value stands whole', () => {
    expect(marked('Sachet 1200, 120 of 1,120 at 12:12, 12.5 or 12', [['good', '12']])).toBe(
      'Sachet 1200, 120 of 1,120 at 12:12, 12.5 or [good 12]',
    );
    expect(marked('third in 2 min 14 s', [['stood', '2 min 14 s']])).toBe('third in [stood 2 min 14 s]');
    expect(marked('two short stops', [['shortStops', 'two']])).toBe('[shortStops two] short stops');
    expect(marked('twofold', [['shortStops', 'two']])).toBe('twofold');
  });

  it('of equal values in the order of the list, and no place twice', () => {
    expect(
      marked('3 stops took 3 min', [
        ['stops', '3'],
        ['stood', '3 min'],
      ]),
    ).toBe('[stops 3] stops took [stood 3 min]');
    expect(
      marked('3 of 3', [
        ['orderGood', '3'],
        ['orderQuantity', '3'],
        ['lost', '3'],
      ]),
    ).toBe('[orderGood 3] of [orderQuantity 3]');
  });

  it('and is left as it is where it says none of them, or the words are empty', () => {
    expect(
      marked('not known yet', [
        ['good', '12'],
        ['lost', ''],
      ]),
    ).toBe('not known yet');
    expect(piecesOf('', [['good', '']])).toEqual([]);
  });
});
