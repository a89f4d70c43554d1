import { setTimeout } from 'node:timers/promises';
import type { ExportTable } from '../../model/export/columns.ts';
import { columnsOf } from '../../model/export/tables.ts';
import { wordsIn } from '../../model/words/words.ts';
import { csvTable } from './csvTable.ts';
import { type DefinitionsAsked, definitionsOf, tableDefinition } from './definitions.ts';
import { parquetTable } from './parquetTable.ts';
import type { Sink } from './tableFile.ts';
import { rowsOf } from './tableRows.ts';

const words = wordsIn('en').exporting;

export interface ExportAsked extends DefinitionsAsked {
  readonly tables: readonly ExportTable[];
}

/** Where the files go: each is written from beginning to end before the next. */
export interface Parcel {
  file(name: string, write: (sink: Sink) => Promise<void>): Promise<void>;
}

export interface ExportWork {
  readonly stopping: AbortSignal;
  /** Which table it is at, rows of it so far, and how much of all is done, 0 to 1. */
  readonly progress: (table: ExportTable, rows: number, share: number) => void;
  /** Share of the time that it takes at most; all of it unless said. */
  readonly busyMost?: number;
}

/** How long a table takes beside others, as far as it is told how much is done. */
const WEIGHT: Readonly<Partial<Record<ExportTable, number>>> = { changes: 40, minutes: 3 };

/** Names as people sort and type them. */
export function fileName(table: ExportTable, format: string): string {
  return `${table.replaceAll(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`)}.${format}`;
}

/** The file that says what the others are. */
export const DEFINITIONS = 'definitions.json';

/** Writes the wanted tables of a period, each a file, and the file that defines them. Answers rows by table. */
export async function exportTables(
  asked: ExportAsked,
  parcel: Parcel,
  work: ExportWork,
): Promise<ReadonlyMap<ExportTable, number>> {
  const all = definitionsOf(asked);
  const weights = asked.tables.map((table) => WEIGHT[table] ?? 1);
  const sum = weights.reduce((a, b) => a + b, 0);
  const rows = new Map<ExportTable, number>();
  let before = 0;
  for (const [place, table] of asked.tables.entries()) {
    const share = weights[place]! / sum;
    await parcel.file(fileName(table, asked.format), async (sink) => {
      const tell = (count: number, done: number) => {
        rows.set(table, count);
        work.progress(table, count, before + share * done);
      };
      await writeTable(table, asked, { ...work, all, sink, tell });
    });
    before += share;
  }
  const tables = Object.fromEntries(
    asked.tables.map((table) => [
      table,
      { rows: rows.get(table) ?? 0, ...tableDefinition(table, asked.source, fileName(table, asked.format)) },
    ]),
  );
  const { unread } = asked.source;
  const text = `${JSON.stringify({ ...all, unread, tables }, undefined, 2)}\n`;
  await parcel.file(DEFINITIONS, (sink) => sink(Buffer.from(text)));
  return rows;
}

interface TableWork extends ExportWork {
  readonly all: object;
  readonly sink: Sink;
  readonly tell: (rows: number, share: number) => void;
}

async function writeTable(
  table: ExportTable,
  { source, period, format }: ExportAsked,
  { all, sink, tell, stopping, busyMost = 1 }: TableWork,
): Promise<void> {
  const columns = columnsOf(table, source.index);
  const file =
    format === 'csv'
      ? csvTable(sink, columns, source.index.line.zone)
      : parquetTable(sink, columns, metadataOf(all, table, columns));
  let count = 0;
  tell(0, 0);
  let began = performance.now();
  for await (const { rows, share } of rowsOf(table, source, period)) {
    stopping.throwIfAborted();
    await file.write(rows);
    count += rows.length;
    tell(count, share);
    if (busyMost < 1) await setTimeout((performance.now() - began) * (1 / busyMost - 1));
    began = performance.now();
  }
  await file.end();
}

/** As key-value metadata of a Parquet file: all of it as JSON, and each column's unit and definition under a key of its own. */
function metadataOf(
  all: object,
  table: ExportTable,
  columns: ReturnType<typeof columnsOf>,
): Readonly<Record<string, string>> {
  const own = columns.flatMap(({ name, unit, definition }) => [
    ...(unit === undefined ? [] : [[`column.${name}.unit`, unit]]),
    [`column.${name}.definition`, definition],
  ]);
  return {
    'scoreline.export': JSON.stringify({ ...all, table, about: words.tables[table].about }),
    ...Object.fromEntries(own),
  };
}
