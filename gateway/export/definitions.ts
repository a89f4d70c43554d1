import { MODEL_VERSION } from '../../model/fold/version.ts';
import type { ExportTable } from '../../model/export/columns.ts';
import type { ExportFormat } from '../../model/export/job.ts';
import { columnsOf } from '../../model/export/tables.ts';
import { epochMs } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import { isoMoment } from '../api/csvText.ts';
import type { ExportSource, Period } from './source.ts';

const words = wordsIn('en').exporting;

export interface DefinitionsAsked {
  readonly source: ExportSource;
  readonly period: Period;
  readonly format: ExportFormat;
  /** Milliseconds since 1970. */
  readonly now: number;
}

/** What whoever gets the files has to know of all of them. */
export function definitionsOf({ source, period, format, now }: DefinitionsAsked) {
  const { index, stored, version, records } = source;
  const { line } = index;
  const edition = records.edition(line.id);
  const iso = (at: Period['from']) => isoMoment(epochMs(at), line.zone);
  return {
    kind: 'scoreline export',
    line: { id: line.id, name: line.name, product: line.product },
    zone: line.zone,
    from: iso(period.from),
    to: iso(period.to),
    fromTicks: period.from,
    toTicks: period.to,
    made: isoMoment(now, line.zone),
    format,
    modelVersion: MODEL_VERSION,
    version,
    /** Positions of the tape: it was read from its beginning up to this end. */
    tape: { begin: stored.begin, end: stored.end },
    /** Derived tables are made from the tape up to this position, by this version. */
    derived: edition ? { upTo: edition.position, version: edition.version } : null,
    notes: [
      words.about.period,
      words.about.missing,
      words.about.unread,
      words.about[format],
      words.about.people,
    ],
  };
}

export function tableDefinition(table: ExportTable, source: ExportSource, file: string) {
  const columns = columnsOf(table, source.index).map(({ name, kind, unit, definition }) => ({
    name,
    kind,
    unit: unit ?? null,
    definition,
  }));
  return { file, about: words.tables[table].about, columns };
}
