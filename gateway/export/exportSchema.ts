import { z } from 'zod';
import { EXPORT_TABLES } from '../../model/export/columns.ts';
import { EXPORT_FORMATS, EXPORT_STATES } from '../../model/export/job.ts';
import { wordsIn } from '../../model/words/words.ts';
import { answer, inPath, json, line } from '../api/openApiParts.ts';
import { asMoment } from '../api/pastAsked.ts';

const words = wordsIn('en').exporting;
const described = words.jobs.describe;

/** What is wanted: half open, by line time. */
export const exportBody = z
  .strictObject({
    from: asMoment,
    to: asMoment,
    tables: z.array(z.enum(EXPORT_TABLES)).min(1).max(EXPORT_TABLES.length),
    format: z.enum(EXPORT_FORMATS),
  })
  .refine(({ from, to }) => to > from, words.form.noPeriod)
  .refine(({ tables }) => new Set(tables).size === tables.length, words.jobs.tableTwice);

export const exportRow = z.strictObject({
  id: z.string(),
  state: z.enum(EXPORT_STATES),
  from: z.number(),
  to: z.number(),
  tables: z.array(z.enum(EXPORT_TABLES)),
  format: z.enum(EXPORT_FORMATS),
  begun: z.number().describe('milliseconds since 1970'),
  table: z.enum(EXPORT_TABLES).nullable(),
  rows: z.number(),
  share: z.number().min(0).max(1),
  bytes: z.number(),
  trouble: z.strictObject({ what: z.string(), why: z.string(), mend: z.string() }).nullable(),
});

/** Exports, by address. */
export function exportPaths(): Readonly<Record<string, unknown>> {
  const exports = '/api/lines/{line}/exports';
  const one = { parameters: [line, inPath('export')] };
  const zip = { 'application/zip': { schema: { type: 'string', format: 'binary' } } };
  return {
    [exports]: {
      get: { ...answer(described.list, z.array(exportRow)), parameters: [line] },
      post: {
        ...answer(described.start, exportRow, '201'),
        parameters: [line],
        requestBody: { required: true, content: json(exportBody) },
      },
    },
    [`${exports}/{export}`]: { get: { ...answer(described.one, exportRow), ...one } },
    [`${exports}/{export}/cancel`]: {
      post: { ...answer(described.cancel, z.strictObject({ ok: z.literal(true) })), ...one },
    },
    [`${exports}/{export}/file`]: {
      get: {
        ...answer(described.file, z.unknown()),
        responses: { '200': { description: described.file, content: zip } },
        ...one,
      },
    },
  };
}
