import { wordsIn } from '../../model/words/words.ts';
import type { Fault, Place } from './faults.ts';

const words = wordsIn('en').gateway.binding.orders;

/** One value of a list, and where it begins. */
export interface Cell {
  readonly text: string;
  readonly at: Place;
}

/** Rows of comma-separated values (RFC 4180): a value with a comma or a line break stands in double quotes. Empty lines are left out. */
export function readCsv(text: string): {
  readonly rows: readonly (readonly Cell[])[];
  readonly faults: readonly Fault[];
} {
  const reader: Reader = { text, offset: 0, line: 1, lineStart: 0, faults: [] };
  const rows: Cell[][] = [];
  while (reader.offset < text.length) {
    const row = readRow(reader);
    if (row.length > 1 || row[0]!.text.trim() !== '') rows.push(row);
  }
  return { rows, faults: reader.faults };
}

interface Reader {
  readonly text: string;
  offset: number;
  line: number;
  lineStart: number;
  readonly faults: Fault[];
}

function readRow(reader: Reader): Cell[] {
  const row: Cell[] = [];
  for (;;) {
    row.push(readCell(reader));
    const next = reader.text[reader.offset];
    if (next === ',') reader.offset += 1;
    else {
      if (next === '\r') reader.offset += 1;
      if (reader.text[reader.offset] === '\n') newLine(reader);
      return row;
    }
  }
}

function readCell(reader: Reader): Cell {
  const at = placeOf(reader);
  if (reader.text[reader.offset] === '"') return { text: readQuoted(reader, at), at };
  const rest = /[^,\r\n]*/y;
  rest.lastIndex = reader.offset;
  const text = rest.exec(reader.text)?.[0] ?? '';
  if (text.includes('"')) reader.faults.push({ at, ...words.strayQuote });
  reader.offset += text.length;
  return { text: text.trim(), at };
}

function readQuoted(reader: Reader, at: Place): string {
  let text = '';
  reader.offset += 1;
  for (;;) {
    const character = reader.text[reader.offset];
    if (character === undefined) {
      reader.faults.push({ at, ...words.openQuote });
      return text;
    }
    if (character === '"' && reader.text[reader.offset + 1] !== '"') break;
    text += character;
    if (character === '\n') newLine(reader);
    else reader.offset += character === '"' ? 2 : 1;
  }
  reader.offset += 1;
  const stray = /[^,\r\n]*/y;
  stray.lastIndex = reader.offset;
  const after = stray.exec(reader.text)?.[0] ?? '';
  if (after.trim() !== '') reader.faults.push({ at: placeOf(reader), ...words.strayQuote });
  reader.offset += after.length;
  return text.trim();
}

function newLine(reader: Reader): void {
  reader.offset += 1;
  reader.line += 1;
  reader.lineStart = reader.offset;
}

function placeOf({ line, offset, lineStart }: Reader): Place {
  return { line, column: offset - lineStart + 1 };
}
