import { asyncBufferFromFile, parquetMetadataAsync, parquetReadObjects } from 'hyparquet';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoLineFile as lineFile } from '../../../gateway/commands/demo.ts';
import { exportCommand } from '../../../gateway/commands/exportCommand.ts';
import { exportTables, fileName } from '../../../gateway/export/export.ts';
import { folderParcel } from '../../../gateway/export/folderParcel.ts';
import { storedSource } from '../../../gateway/export/storedSource.ts';
import type { ExportFormat } from '../../../model/export/job.ts';
import { openSqliteTape } from '../../../gateway/tape/sqliteTape.ts';
import { EXPORT_TABLES, type ExportTable } from '../../../model/export/columns.ts';
import { columnsOf } from '../../../model/export/tables.ts';
import { indexOf } from '../../../model/fold/lineIndex.ts';
import { HOUR, type Instant, instantFromMs, minutes, seconds } from '../../../model/units/units.ts';
import { monday } from '../../simulator/simulatedLine.ts';
import { gathered } from '../tape/stretch.ts';
import { folderForTest, work } from '../backup/site.ts';
import { csvRows } from './csvRows.ts';
import { line, recordedFolder } from './recordedFolder.ts';

const parent = mkdtempSync(join(tmpdir(), 'scoreline-export-'));
let data: string;
beforeAll(async () => {
  data = await recordedFolder(5, parent);
});
afterAll(() => rmSync(parent, { recursive: true }));

const end = (monday + 5 * HOUR) as Instant;
const index = indexOf(line);

/** Exports a period, and answers the folder. */
async function exported(
  from: number,
  to: number,
  format: ExportFormat = 'csv',
  wish: { readonly tables?: readonly ExportTable[]; readonly data?: string } = {},
): Promise<string> {
  const folder = join(folderForTest(), 'files');
  mkdirSync(folder);
  const { tables = EXPORT_TABLES } = wish;
  const source = await storedSource({
    data: wish.data ?? data,
    line,
    scratch: join(folder, 'records'),
    derived: true,
    work: work(),
  });
  try {
    await exportTables(
      { source, period: { from: from as Instant, to: to as Instant }, format, tables, now: 0 },
      folderParcel(folder),
      { stopping: new AbortController().signal, progress: () => {} },
    );
  } finally {
    source.close();
  }
  return folder;
}

function rowsIn(folder: string, table: ExportTable): readonly Record<string, string>[] {
  return csvRows(readFileSync(join(folder, fileName(table, 'csv')), 'utf8'));
}

describe('tables as files', () => {
  it('[OI1] periods side by side hold every row once: together they are the period that both make', async () => {
    // in the middle of everything, and on no minute
    const cut = monday + 2 * HOUR + seconds(1234.5);
    const [first, second, both] = [
      await exported(monday, cut),
      await exported(cut, end),
      await exported(monday, end),
    ];
    for (const table of EXPORT_TABLES) {
      const rows = rowsIn(both, table);
      if (table !== 'notices' && table !== 'gaps') expect(rows.length, table).toBeGreaterThan(0);
      expect([...rowsIn(first, table), ...rowsIn(second, table)], table).toEqual(rows);
    }
  });

  it('[OI1] changes are those of the tape whose line time lies in the period, wherever they stand on it', async () => {
    const own = await recordedFolder(1);
    const tape = await openSqliteTape(own, new Map([[line.id, line.signals]]));
    const all = await gathered(tape.read(line.id, tape.begin(line.id), tape.end(line.id)));
    const late = {
      ...all.find(({ at }) => at > monday + minutes(20))!,
      received: (monday + 2 * HOUR) as Instant,
    };
    await tape.append(line.id, [late]);
    await tape.close();
    const [from, to] = [late.at, late.at + minutes(10)];
    const rows = rowsIn(await exported(from, to, 'csv', { tables: ['changes'], data: own }), 'changes');
    const wanted = [...all, late]
      .map((change, position) => ({ change, position }))
      .filter(({ change }) => change.at >= from && change.at < to);
    expect(rows.map(({ position, line_time_ticks }) => [position, line_time_ticks])).toEqual(
      wanted.map(({ change, position }) => [String(position), String(change.at)]),
    );
    expect(rows.at(-1)).toMatchObject({
      position: String(all.length),
      signal: line.signals[late.signal]!.id,
      role: line.signals[late.signal]!.role,
      received_ticks: String(late.received),
    });
    for (const { line_time, line_time_ticks } of rows)
      expect(Math.abs(instantFromMs(Date.parse(line_time!)) - Number(line_time_ticks))).toBeLessThan(5001);
  });

  it('[OI2] a definition stands beside them: each column with its unit, the model’s version, positions, period and zone', async () => {
    const folder = await exported(monday, end);
    const definitions = JSON.parse(readFileSync(join(folder, 'definitions.json'), 'utf8'));
    expect(definitions).toMatchObject({
      line: { id: 'line-3' },
      zone: 'Europe/Berlin',
      from: '2026-03-16T06:00:00.000+01:00',
      to: '2026-03-16T11:00:00.000+01:00',
      format: 'csv',
      modelVersion: expect.any(String),
      tape: { begin: 0, end: definitions.derived.upTo },
    });
    for (const table of EXPORT_TABLES) {
      const { columns, rows, file } = definitions.tables[table];
      const text = readFileSync(join(folder, file), 'utf8');
      expect(columns.map(({ name }: { name: string }) => name).join(',')).toBe(text.split('\r\n')[0]);
      expect(rowsIn(folder, table)).toHaveLength(rows);
      for (const { definition } of columns) expect(definition).toMatch(/^\S.*[^ ]\.$/);
    }
    expect(definitions.tables.stops.columns).toContainEqual({
      name: 'lost_cartons',
      kind: 'number',
      unit: 'cartons',
      definition: 'Cartons lost to it by its output pause, not rounded; empty while that is open.',
    });
  });

  it('[OI2] CSV and Parquet say the same, cell by cell; Parquet has the definitions in its own metadata', async () => {
    const [csv, parquet] = [await exported(monday, end), await exported(monday, end, 'parquet')];
    for (const table of EXPORT_TABLES) {
      const file = await asyncBufferFromFile(join(parquet, fileName(table, 'parquet')));
      const stored = await parquetReadObjects({ file });
      const columns = columnsOf(table, index);
      const texts = stored.map((row) =>
        Object.fromEntries(columns.map(({ name }) => [name, textOf(row[name] as unknown)])),
      );
      const wanted = rowsIn(csv, table).map((row) =>
        Object.fromEntries(
          columns.map(({ name, kind }) => [
            name,
            kind === 'moment' && row[name] !== ''
              ? new Date(row[name]!).toISOString()
              : row[name]!.replace(/^'=/, '='),
          ]),
        ),
      );
      expect(texts.length, table).toBe(wanted.length);
      const wrong = texts.flatMap((row, place) =>
        columns
          .map(({ name, kind }) => ({ name, kind, is: row[name]!, other: wanted[place]![name]! }))
          // moments are to the microsecond in the one, and to the millisecond in the other
          .filter(({ kind, is, other }) =>
            kind === 'moment' && is !== '' && other !== ''
              ? Math.abs(Date.parse(is) - Date.parse(other)) > 1
              : is !== other,
          ),
      );
      expect(wrong, table).toEqual([]);
      const { key_value_metadata: kept = [] } = await parquetMetadataAsync(file);
      const told = new Map(kept.map(({ key, value }) => [key, value]));
      expect(JSON.parse(told.get('scoreline.export')!)).toMatchObject({ table, zone: line.zone });
      for (const { name, unit, definition } of columns) {
        expect(told.get(`column.${name}.unit`)).toBe(unit);
        expect(told.get(`column.${name}.definition`)).toBe(definition);
      }
    }
  });

  it('[OI2] what is not known is empty, and counters add up from minutes to runs', async () => {
    const folder = await exported(monday, end);
    const stops = rowsIn(folder, 'stops');
    expect(stops.every((stop) => (stop.ended === '') === (stop.lasted_s === ''))).toBe(true);
    const changes = rowsIn(folder, 'changes');
    const several = changes.filter(
      ({ value_number, value_text, value_truth }) =>
        [value_number, value_text, value_truth].filter((value) => value !== '').length > 1,
    );
    expect(several).toEqual([]);
    const good = rowsIn(folder, 'minutes').reduce((sum, row) => sum + Number(row.good_count_cartons), 0);
    const runs = rowsIn(folder, 'runs').reduce((sum, row) => sum + Number(row.good_cartons), 0);
    expect(good).toBe(runs);
    expect(good).toBeGreaterThan(5000);
  });

  it('[OI3] what people typed is no formula in a spreadsheet, and people stand by their numbers', async () => {
    const folder = await exported(monday, end);
    const [note] = rowsIn(folder, 'entries').filter(({ kind }) => kind === 'note');
    expect(note).toMatchObject({ by_kind: 'person', by: '4711', withdrawn: 'false' });
    for (const table of EXPORT_TABLES)
      expect(
        rowsIn(folder, table).filter((row) => Object.values(row).some((cell) => /^[=+@\t]|^-\D/.test(cell))),
      ).toEqual([]);
    const [reading] = rowsIn(folder, 'setPoints').filter(({ event }) => event === 'typed');
    expect(reading).toMatchObject({ adjustment: '5.2', value: '38.4', unit: 'mm', by: 'front' });
  });

  it('works the past out of the tape where the records are of another version, and gives the same', async () => {
    const without = await recordedFolder(2);
    const whole = await exported(monday, end, 'csv', { data: without });
    rmSync(join(without, 'records.sqlite'));
    const anew = await exported(monday, end, 'csv', { data: without });
    for (const table of EXPORT_TABLES) expect(rowsIn(anew, table), table).toEqual(rowsIn(whole, table));
  });
});

function textOf(value: unknown): string {
  if (value === null || value === undefined) return '';
  if (value instanceof Date) return value.toISOString();
  return String(value);
}

describe('the export command', () => {
  it('[OI1] writes files while a gateway may run, and tells what it wrote; whoever ends it finds nothing', async () => {
    const folder = join(folderForTest(), 'files');
    const args = ['--line', lineFile, '--data', data, '--from', '2026-03-16T07:00', '--to', '2026-03-16'];
    const said: string[] = [];
    const run = (more: readonly string[], ended = work()) =>
      exportCommand([folder, ...args, ...more], ended, (text) => void said.push(text));
    await expect(run([])).rejects.toThrow(/--to is not after --from/);
    args[7] = '2026-03-16T08:00+01:00';
    await expect(run(['--tables', 'stops,sizes'])).rejects.toThrow(/“sizes” is none of the tables/);
    await expect(run(['--format', 'xlsx'])).rejects.toThrow(/csv or parquet/);
    await expect(run(['--tables', 'changes'], work(/^Signal changes/))).rejects.toThrow();
    expect(readdirSync(dirname(folder))).toEqual([]);
    await run(['--tables', 'stops,runs,changes']);
    expect(readdirSync(folder)).toEqual(['changes.csv', 'definitions.json', 'runs.csv', 'stops.csv']);
    const [from, to] = [monday + HOUR, monday + 2 * HOUR];
    expect(rowsIn(folder, 'changes')).toEqual(rowsIn(await exported(from, to), 'changes'));
    expect(said).toContainEqual(`  stops.csv  ${rowsIn(folder, 'stops').length} rows`);
    await expect(run([])).rejects.toThrow(/is there already, and not empty/);
  });
});
