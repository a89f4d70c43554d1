/** The beginning of a text that has to find room, and what of it found none. */
export interface CutText {
  readonly kept: string;
  /** Words left out; where not even one word found room, or the text has none, signs. */
  readonly left: number;
  readonly of: 'words' | 'signs';
}

/** What people see as one sign may be several characters: a text is never cut in the middle of one. */
const signs = new Intl.Segmenter(undefined, { granularity: 'grapheme' });

/**
 * A text of so many signs at most, cut between words. `left` is 0 where it is whole. A word that is longer than half of the
 * room is cut in itself, and what is left is counted in signs.
 */
export function cutText(text: string, most: number): CutText {
  const all = [...signs.segment(text)].map(({ segment }) => segment);
  if (all.length <= most) return { kept: text, left: 0, of: 'words' };
  const room = all.slice(0, most).join('');
  const end = isSpace(all[most]) ? room.length : room.search(/\s\S*$/);
  const kept = room.slice(0, Math.max(0, end)).trimEnd();
  if (kept.length >= most / 2) {
    const left = text
      .slice(kept.length)
      .split(/\s+/)
      .filter((word) => word !== '').length;
    return { kept, left, of: 'words' };
  }
  return { kept: room, left: all.length - most, of: 'signs' };
}

function isSpace(sign: string | undefined): boolean {
  return sign !== undefined && /^\s/.test(sign);
}
