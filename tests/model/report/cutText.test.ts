import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cutText } from '../../../model/report/cutText.ts';
import { wordsIn } from '../../../model/words/words.ts';

const { cut } = wordsIn('en').screen.past.report.paper;

describe('a text that finds too little room', () => {
  it('[RE3] is cut between words, and says how many more there are', () => {
    const text = 'look at the tuck blade before you start, and at the magazine';
    expect(cut(text, 100)).toBe(text);
    expect(cut(text, 22)).toBe('look at the tuck blade … and 7 more words');
    expect(cut(text, 20)).toBe('look at the tuck … and 8 more words');
    expect(cut(`look ${'at '.repeat(20)}it`, 65)).toBe(`look ${'at '.repeat(20)}it`);
  });

  it('[RE3] is whole where telling what is left would take as much room', () => {
    expect(cut('look at the tuck', 15)).toBe('look at the tuck');
  });

  it('[RE3] is cut in a word that has no end, and never in the middle of a sign', () => {
    const endless = 'abcdefghij'.repeat(5);
    expect(cut(endless, 4)).toBe('abcd … and 46 more characters');
    expect(cut(`ok ${endless}`, 8)).toBe('ok abcde … and 45 more characters');
    expect(cut('👩‍🏭'.repeat(9), 1)).toBe('👩‍🏭 … and 8 more characters');
  });

  it('[RE3] loses nothing that is not told', () => {
    const sign = fc.constantFrom('a', 'b', ' ', ' ', '\n', 'é', '👩‍🏭');
    fc.assert(
      fc.property(fc.array(sign), fc.integer({ min: 1, max: 60 }), (signs, most) => {
        const text = signs.join('').trim();
        const { kept, left, of } = cutText(text, most);
        expect(text.startsWith(kept)).toBe(true);
        const rest = text.slice(kept.length);
        const all = [...new Intl.Segmenter().segment(rest)].length;
        const words = rest.split(/\s+/).filter((word) => word !== '').length;
        expect(left).toBe(of === 'words' ? words : all);
        expect([...new Intl.Segmenter().segment(kept)].length).toBeLessThanOrEqual(most);
      }),
    );
  });
});
