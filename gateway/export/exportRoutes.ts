import express, { type Request, type Router } from 'express';
import type { z } from 'zod';
import { instantFromMs } from '../../model/units/units.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Gate } from '../people/gate.ts';
import { exportBody } from './exportSchema.ts';
import type { ExportJobs } from './jobs.ts';

export interface ExportDoors {
  readonly exports: ExportJobs;
  readonly lineOf: (request: Request) => LiveLine;
  readonly gate: Gate;
  readonly read: <Shape>(schema: z.ZodType<Shape>, value: unknown) => Shape;
}

/** `/exports` of a line: started, looked at, ended and fetched. */
export function exportRoutes({ exports, lineOf, gate, read }: ExportDoors): Router {
  const router = express.Router({ mergeParams: true });
  router.use((request, _response, next) => {
    gate.allow('export', request.headers);
    next();
  });
  router.get('/', (request, response) => void response.json(exports.list(lineOf(request).line.id)));
  router.post('/', (request, response) => {
    const { from, to, ...ask } = read(exportBody, request.body);
    const period = { from: instantFromMs(from), to: instantFromMs(to) };
    response.status(201).json(exports.start(lineOf(request), { ...ask, period }));
  });
  router.get(
    '/:export',
    (request, response) => void response.json(exports.row(lineOf(request).line.id, request.params.export)),
  );
  router.post('/:export/cancel', async (request, response) => {
    await exports.cancel(lineOf(request).line.id, request.params.export);
    response.json({ ok: true });
  });
  router.get('/:export/file', (request, response) => {
    const { folder, stored, name } = exports.file(lineOf(request).line.id, request.params.export);
    response.attachment(name).sendFile(stored, { root: folder, cacheControl: false });
  });
  return router;
}
