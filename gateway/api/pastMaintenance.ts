import type { Router } from 'express';
import type { z } from 'zod';
import type { DoneRow } from '../../model/past/donePast.ts';
import { lastDays, type MaintenancePast, maintenanceStations } from '../../model/past/maintenancePast.ts';
import { seenTime } from '../../model/past/past.ts';
import { timeCells } from '../../model/past/timeCells.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import type { Doors } from './past.ts';
import { askedOf, begunOf, gapsIn, periodQuery, recordsIn, text } from './pastAsked.ts';
import { doneOf } from './pastDone.ts';
import { worseOf } from './pastNormal.ts';

export const doneQuery = periodQuery.extend({ station: text });

/** Days that Maintenance looks back on, today's with them. */
const DAYS = 30;

/** `/maintenance`: stations over the last days, and what was done; `/done`: what was done alone, also of one station. */
export function maintenanceRoutes(router: Router, { past, read }: Doors): void {
  router.get('/maintenance', async (request, response) => {
    const { records, live } = await past(request, response);
    response.json(maintenanceOf(records, live));
  });
  router.get('/done', async (request, response) => {
    const { records, live } = await past(request, response);
    response.json(doneIn(records, live, read(doneQuery, request.query)));
  });
}

export function maintenanceOf(records: RecordsRead, live: LineRead): MaintenancePast {
  const { index } = live.fold();
  const days = lastDays(live.now(), index.line.zone, DAYS);
  const stretch = { index, from: days[0]!, to: days.at(-1)! };
  const begun = begunOf(records, live, stretch);
  const gaps = gapsIn(records, live, stretch);
  const cells = timeCells(days.slice(0, -1), stretch.to, gaps, begun);
  const stops = recordsIn(records, index.line.id, stretch)('stop');
  return {
    seen: seenTime(stretch, gaps, begun),
    days: cells.map(({ from, unseen }) => ({ at: from, unseen })),
    stations: maintenanceStations(index, stops, days, worseOf(records, live, { ...stretch, begun })),
    done: doneOf(records, live, stretch, undefined),
  };
}

export function doneIn(
  records: RecordsRead,
  live: LineRead,
  { station, ...query }: z.infer<typeof doneQuery>,
): readonly DoneRow[] {
  return doneOf(records, live, askedOf(records, live, query), station);
}
