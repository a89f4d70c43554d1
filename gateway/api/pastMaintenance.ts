import type { Router } from 'express';
import type { z } from 'zod';
import type { DoneRow } from '../../model/past/donePast.ts';
import { lastDays, type MaintenancePast, maintenanceStations } from '../../model/past/maintenancePast.ts';
import { seenTime } from '../../model/past/past.ts';
import { timeCells } from '../../model/past/timeCells.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Records } from '../records/records.ts';
import type { Doors } from './past.ts';
import { askedOf, begunOf, gapsIn, periodQuery, recordsIn, text } from './pastAsked.ts';
import { doneOf } from './pastDone.ts';
import { worseOf } from './pastNormal.ts';

export const doneQuery = periodQuery.extend({ station: text });

/** Days that Maintenance looks back on, today's with them. */
const DAYS = 30;

/** `/maintenance`: stations over the last days, and what was done; `/done`: what was done alone, also of one station. */
export function maintenanceRoutes(router: Router, records: Records, { lineOf, read }: Doors): void {
  router.get('/maintenance', (request, response) => {
    response.json(maintenanceOf(records, lineOf(request)));
  });
  router.get('/done', (request, response) => {
    response.json(doneIn(records, lineOf(request), read(doneQuery, request.query)));
  });
}

export function maintenanceOf(records: Records, live: LiveLine): MaintenancePast {
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
  records: Records,
  live: LiveLine,
  { station, ...query }: z.infer<typeof doneQuery>,
): readonly DoneRow[] {
  return doneOf(records, live, askedOf(records, live, query), station);
}
