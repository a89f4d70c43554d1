import { setImmediate } from 'node:timers/promises';
import { ByteWriter, ParquetWriter } from 'hyparquet-writer';
import type { Cell, Column, ColumnKind } from '../../model/export/columns.ts';
import { EPOCH_2020_MS } from '../../model/units/units.ts';
import type { Sink, TableFile } from './tableFile.ts';

type SchemaElement = ConstructorParameters<typeof ParquetWriter>[0]['schema'][number];

/** Rows of one row group: what is held at once, and encoded without other work getting its turn. */
const GROUP = 8192;

/** A table as a Parquet file. `metadata` goes into the file's own key-value metadata. */
export function parquetTable(
  sink: Sink,
  columns: readonly Column[],
  metadata: Readonly<Record<string, string>>,
): TableFile {
  const writer = new ByteWriter(1 << 20);
  const parquet = new ParquetWriter({
    writer,
    schema: [{ name: 'root', num_children: columns.length }, ...columns.map(elementOf)],
    kvMetadata: Object.entries(metadata).map(([key, value]) => ({ key, value })),
    createdBy: 'scoreline',
  });
  const flush = async () => {
    await sink(writer.getBytes().slice());
    writer.index = 0;
  };
  let waiting: (readonly Cell[])[] = [];
  const group = async () => {
    const rows = waiting;
    waiting = [];
    if (rows.length === 0) return;
    const columnData = columns.map(({ name, kind }, place) => ({
      name,
      data: rows.map((row) => stored(row[place]!, kind)),
    }));
    await parquet.write({ columnData, rowGroupSize: rows.length });
    await flush();
    await setImmediate();
  };
  return {
    write: async (rows) => {
      for (const row of rows) {
        waiting.push(row);
        if (waiting.length >= GROUP) await group();
      }
    },
    end: async () => {
      await group();
      await parquet.finish();
      await flush();
    },
  };
}

function elementOf({ name, kind }: Column): SchemaElement {
  return { name, repetition_type: 'OPTIONAL', ...STORED[kind] };
}

const STORED: Readonly<Record<ColumnKind, Omit<SchemaElement, 'name'>>> = {
  moment: {
    type: 'INT64',
    converted_type: 'TIMESTAMP_MICROS',
    logical_type: { type: 'TIMESTAMP', isAdjustedToUTC: true, unit: 'MICROS' },
  },
  whole: { type: 'INT64' },
  number: { type: 'DOUBLE' },
  text: { type: 'BYTE_ARRAY', converted_type: 'UTF8', logical_type: { type: 'STRING' } },
  truth: { type: 'BOOLEAN' },
};

function stored(cell: Cell, kind: ColumnKind): Cell | bigint {
  if (cell === null || typeof cell !== 'number') return cell;
  // ticks of 100 ns since 2020 as microseconds since 1970
  if (kind === 'moment') return BigInt(EPOCH_2020_MS * 1000 + Math.floor(cell / 10));
  return kind === 'whole' ? BigInt(cell) : cell;
}
