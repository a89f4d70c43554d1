import type { Response, Router } from 'express';
import { wordsIn } from '../../model/words/words.ts';
import type { Records } from '../records/records.ts';
import type { Doors } from './past.ts';
import { aroundOf, aroundQuery } from './pastAround.ts';
import { stationOf, stationQuery, stationsQuery, stationsToldOf } from './pastStations.ts';

const words = wordsIn('en').screen.past.stations.notFound;

/** What Stations asks: all of them, one of them, and what the tape holds around a stop. */
export function stationRoutes(router: Router, records: Records, { lineOf, read, tape }: Doors): void {
  router.get('/stations', (request, response) => {
    response.json(stationsToldOf(records, lineOf(request), read(stationsQuery, request.query)));
  });
  router.get('/stations/:station', (request, response) => {
    const { station } = request.params;
    const found = stationOf(records, lineOf(request), station, read(stationQuery, request.query));
    if (found) response.json(found);
    else refuse(response, words.station(station));
  });
  router.get('/around', async (request, response) => {
    const query = read(aroundQuery, request.query);
    const found = await aroundOf({ records, tape }, lineOf(request), query);
    if (found) response.json(found);
    else refuse(response, words.stop(query.stop));
  });
}

function refuse(response: Response, trouble: string): void {
  response.status(404).json({ ok: false, trouble, why: words.why, mend: words.mend });
}
