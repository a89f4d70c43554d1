import { rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { clockMoment } from '../../model/export/clockText.ts';
import { EXPORT_TABLES, type ExportTable } from '../../model/export/columns.ts';
import { EXPORT_FORMATS, type ExportFormat } from '../../model/export/job.ts';
import { type Instant, instantFromMs } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import { makeFolder, refuseUnlessFree } from '../backup/unfinished.ts';
import { readLineFile } from '../binding/binding.ts';
import { exportTables, fileName } from '../export/export.ts';
import { folderParcel } from '../export/folderParcel.ts';
import { storedSource } from '../export/storedSource.ts';
import { badOption } from './badOption.ts';
import { readCommandLine } from './commandArguments.ts';
import type { Command } from './commands.ts';
import { checkFolder } from './dataFolder.ts';
import { demoLineFile } from './demo.ts';

const words = wordsIn('en').exporting;
const text = { type: 'string' } as const;
const options = {
  from: text,
  to: text,
  tables: text,
  format: text,
  line: text,
  data: text,
  help: { type: 'boolean' },
} as const;

/**
 * `npm start -- export FOLDER`. A folder, not an archive: whoever is at a command line goes on with the files, and a large one need
 * not be packed and unpacked.
 */
export const exportCommand: Command = async (args, work, say) => {
  const { values, places } = readCommandLine(args, options, 1);
  if (values.help) return say(words.usage.replace('TABLES', EXPORT_TABLES.join(', ')));
  const [place] = places;
  if (place === undefined || place.trim() === '') throw badOption(words.oneFolder);
  const tables = tablesOf(values.tables);
  const format = formatOf(values.format ?? 'csv');
  const lineFile = values.line === undefined ? undefined : resolve(values.line);
  const data = resolve(values.data ?? (lineFile === undefined ? 'data/demo' : 'data'));
  const { line } = await readLineFile(lineFile ?? demoLineFile);
  const from = momentOf('--from', values.from, line.zone) ?? (0 as Instant);
  const to = momentOf('--to', values.to, line.zone);
  if (to !== undefined && to <= from) throw badOption(words.emptyPeriod);
  checkFolder({ line: lineFile, data });
  const folder = resolve(place);
  refuseUnlessFree(folder);
  const rows = await makeFolder(
    folder,
    async (unfinished) => {
      const scratch = join(unfinished, 'records');
      const derived = tables.some((table) => table !== 'changes');
      const source = await storedSource({ data, line, scratch, derived, work });
      try {
        const period = { from, to: to ?? ((source.until + 1) as Instant) };
        return await exportTables(
          { source, period, format, tables, now: Date.now() },
          folderParcel(unfinished),
          {
            stopping: work.stopping,
            progress: (table, _rows, share) => work.progress(words.tables[table].name, share),
          },
        );
      } finally {
        source.close();
        rmSync(scratch, { recursive: true, force: true });
      }
    },
    0o755,
  );
  say(words.made(folder));
  for (const [table, count] of rows) say(words.madeTable(fileName(table, format), count));
};

/** Changes are many: they come when they are asked for. */
function tablesOf(said: string | undefined): readonly ExportTable[] {
  if (said === undefined) return EXPORT_TABLES.filter((table) => table !== 'changes');
  return said.split(',').map((name) => {
    const table = EXPORT_TABLES.find((known) => known === name.trim());
    if (table === undefined) throw badOption(words.badTable(name, EXPORT_TABLES));
    return table;
  });
}

function formatOf(said: string): ExportFormat {
  const format = EXPORT_FORMATS.find((known) => known === said);
  if (format === undefined) throw badOption(words.badFormat(said));
  return format;
}

/** A date or time of day without a zone is by the line's clock. */
function momentOf(option: string, said: string | undefined, zone: string): Instant | undefined {
  if (said === undefined) return undefined;
  const ms =
    clockMoment(said, zone) ?? (/T.*(Z|[+-]\d{2}:\d{2})$/.test(said) ? Date.parse(said) : Number.NaN);
  if (Number.isNaN(ms)) throw badOption(words.badMoment(option, said));
  return instantFromMs(ms);
}
