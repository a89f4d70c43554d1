import { ByteReader, ByteWriter } from '../../model/tape/bytes.ts';
import { damagedBlob } from '../../model/tape/damage.ts';

/** Stretches of a text are looked for in the other by so many characters at a time. */
const BLOCK = 16;
/** What goes on where the last stretch ended is looked at first, from so many characters on. */
const GOES_ON = 8;

/** One step from a text to another: so much that is new, then a stretch of the other text. */
interface Copy {
  readonly fresh: string;
  /** Where the stretch begins, from where the last one ended. */
  readonly skip: number;
  readonly length: number;
}

/**
 * A text as what differs from another one: stretches of that one, and what is between them. Saved states of one line are alike
 * but for what happened since.
 */
export function deltaOf(base: string, text: string): Uint8Array {
  const copies = copiesOf(base, text);
  const out = new ByteWriter();
  out.count(text.length);
  out.count(copies.length);
  for (const { fresh, skip, length } of copies) {
    out.count(fresh.length);
    out.signed(skip);
    out.count(length);
  }
  out.text(copies.map(({ fresh }) => fresh).join(''));
  return out.written().slice();
}

/** The text that a delta makes of the one it was made from; refuses what leads nowhere as damaged. */
export function withDelta(base: string, delta: Uint8Array): string {
  const from = new ByteReader(delta);
  const length = from.count();
  const copies = Array.from({ length: Math.min(from.count(), delta.length) }, () => ({
    fresh: from.count(),
    skip: from.signed(),
    length: from.count(),
  }));
  const fresh = from.text();
  let text = '';
  let place = 0;
  let end = 0;
  for (const copy of copies) {
    text += fresh.slice(place, place + copy.fresh);
    place += copy.fresh;
    const start = end + copy.skip;
    end = start + copy.length;
    if (start < 0 || end > base.length) throw damagedBlob();
    text += base.slice(start, end);
  }
  if (text.length !== length) throw damagedBlob();
  return text;
}

function copiesOf(base: string, text: string): Copy[] {
  const blocks = new Map<string, number>();
  for (let start = 0; start + BLOCK <= base.length; start += BLOCK) {
    const block = base.slice(start, start + BLOCK);
    if (!blocks.has(block)) blocks.set(block, start);
  }
  const copies: Copy[] = [];
  let told = 0;
  let end = 0;
  for (let place = 0; place < text.length; ) {
    const goesOn = end + GOES_ON <= base.length && text.startsWith(base.slice(end, end + GOES_ON), place);
    let start = goesOn ? end : blocks.get(text.slice(place, place + BLOCK));
    if (start === undefined) {
      place += 1;
      continue;
    }
    let from = place;
    while (from > told && start > 0 && text[from - 1] === base[start - 1]) {
      from -= 1;
      start -= 1;
    }
    let length = place - from;
    while (from + length < text.length && text[from + length] === base[start + length]) length += 1;
    copies.push({ fresh: text.slice(told, from), skip: start - end, length });
    told = from + length;
    place = told;
    end = start + length;
  }
  copies.push({ fresh: text.slice(told), skip: 0, length: 0 });
  return copies;
}
