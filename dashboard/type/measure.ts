/**
 * Advance widths of the face in thousandths of its size (the metrics that Arial, Helvetica and Liberation Sans
 * share), so that a line can be fitted without a browser and is the same on every system.
 */
const REGULAR = widths(
  '278 278 355 556 556 889 667 191 333 333 389 584 278 333 278 278 556 556 556 556 556 556 556 556 556 556 278 278 584 584 584 556 ' +
    '1015 667 667 722 722 667 611 778 722 278 500 667 556 833 722 778 667 778 722 667 611 722 667 944 667 667 611 278 278 278 469 556 ' +
    '333 556 556 500 556 556 278 556 556 222 222 500 222 833 556 556 556 556 333 500 278 556 500 722 500 500 500 334 260 334 584',
);
const BOLD = widths(
  '278 333 474 556 556 889 722 238 333 333 389 584 278 333 278 278 556 556 556 556 556 556 556 556 556 556 333 333 584 584 584 611 ' +
    '975 722 722 722 722 667 611 778 722 278 556 722 611 833 722 778 667 778 722 667 611 722 667 944 667 667 611 333 278 333 584 556 ' +
    '333 556 611 556 611 556 333 611 611 278 278 556 278 889 611 611 611 611 389 556 333 611 556 778 556 556 500 389 280 389 584',
);

function widths(list: string): readonly number[] {
  return list.split(' ').map(Number);
}

/** Width of one line of text in px; `**` marks what is bold and has no width itself. */
export function measure(text: string, size: number, bold = false): number {
  let width = 0;
  let inBold = bold;
  for (const run of text.split('**')) {
    for (const letter of run) width += advance(letter, inBold);
    inBold = !inBold;
  }
  return (width * size) / 1000;
}

function advance(letter: string, bold: boolean): number {
  const code = letter.codePointAt(0) ?? 0;
  if (code >= 0x2e80) return 1000; // written in squares
  if (letter === '−') return 584;
  if (letter === '’') return bold ? 278 : 222;
  return (bold ? BOLD : REGULAR)[code - 32] ?? (bold ? 640 : 600);
}

/** The text without its marks of bold, for those who listen. */
export function plain(text: string): string {
  return text.replaceAll('**', '');
}

/** The largest size, from `size` down to `least`, at which the text is no wider than `width`. */
export function sizeThatFits(text: string, width: number, size: number, least: number, bold = false): number {
  const asked = measure(text, size, bold);
  return asked <= width ? size : Math.max(least, Math.floor((size * width) / asked));
}

/** The text cut to the width, with an ellipsis where something is missing. */
export function cut(text: string, width: number, size: number, bold = false): string {
  if (measure(text, size, bold) <= width) return text;
  let kept = [...text];
  while (kept.length > 1 && measure(`${kept.join('')}…`, size, bold) > width) kept = kept.slice(0, -1);
  const open = kept.join('').split('**').length % 2 === 0;
  return `${kept.join('').trimEnd()}…${open ? '**' : ''}`;
}

/** Words broken into lines no wider than `width`. A word wider than that keeps its own line. */
export function wrap(text: string, width: number, size: number, bold = false): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && measure(longer, size, bold) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return line === '' ? lines : [...lines, line];
}

/** A name on two lines of about equal length; one word stays on one. */
export function balance(name: string, size: number): readonly string[] {
  const words = name.split(' ');
  let best: readonly string[] = [name];
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < words.length; i++) {
    const pair = [words.slice(0, i).join(' '), words.slice(i).join(' ')];
    const width = Math.max(...pair.map((line) => measure(line, size)));
    if (width < least) [best, least] = [pair, width];
  }
  return best;
}

/** Phrases on lines: one phrase a line where that fits in `most` lines, else broken where they must, smaller if need be. */
export function setLines(
  phrases: readonly string[],
  {
    width,
    most,
    sizes,
  }: { readonly width: number; readonly most: number; readonly sizes: readonly number[] },
): { readonly size: number; readonly lines: readonly string[]; readonly whole: boolean } {
  const said = phrases.map((phrase, i) => (i < phrases.length - 1 ? `${phrase},` : phrase));
  for (const size of sizes) {
    const apart = said.flatMap((phrase) => wrap(phrase, width, size));
    if (apart.length <= most && apart.every((line) => measure(line, size) <= width))
      return { size, lines: apart, whole: true };
    const flowing = wrap(said.join(' '), width, size);
    if (flowing.length <= most && flowing.every((line) => measure(line, size) <= width))
      return { size, lines: flowing, whole: true };
  }
  const size = sizes.at(-1) ?? 22;
  const lines = wrap(said.join(' '), width, size);
  const kept = lines.slice(0, most);
  const rest = lines.slice(most - 1).join(' ');
  return { size, lines: kept.map((line, i) => cut(i === most - 1 ? rest : line, width, size)), whole: false };
}
