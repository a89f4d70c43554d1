import type { Cell, Column } from '../../model/export/columns.ts';
import { epochMs, type Instant } from '../../model/units/units.ts';
import { csvText, isoMoment, typedText } from '../api/csvText.ts';
import type { Sink, TableFile } from './tableFile.ts';

/** A table as a CSV file: a header row, moments by the line's clock, what is not known empty. */
export function csvTable(sink: Sink, columns: readonly Column[], zone: string): TableFile {
  const header = csvText([columns.map(({ name }) => name)]);
  let begun = false;
  const write = async (text: string) => {
    await sink(Buffer.from(begun ? text : header + text));
    begun = true;
  };
  return {
    write: async (rows) => {
      if (rows.length > 0)
        await write(
          csvText(rows.map((row) => columns.map((column, place) => cellText(row[place]!, column, zone)))),
        );
    },
    end: async () => {
      if (!begun) await write('');
    },
  };
}

function cellText(cell: Cell, { kind }: Column, zone: string): string {
  if (cell === null) return '';
  if (kind === 'moment') return isoMoment(epochMs(cell as Instant), zone);
  return typeof cell === 'string' ? typedText(cell) : String(cell);
}
