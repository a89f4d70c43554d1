import type { Response, Router } from 'express';
import { wordsIn } from '../../model/words/words.ts';
import type { Doors } from './past.ts';
import { aroundOf, aroundQuery } from './pastAround.ts';
import { stationOf, stationQuery, stationsQuery, stationsToldOf } from './pastStations.ts';

const words = wordsIn('en').screen.past.stations.notFound;

/** What Stations asks: all of them, one of them, and what the tape holds around a stop. */
export function stationRoutes(router: Router, { past, read }: Doors): void {
  router.get('/stations', async (request, response) => {
    const { records, live } = await past(request, response);
    response.json(stationsToldOf(records, live, read(stationsQuery, request.query)));
  });
  router.get('/stations/:station', async (request, response) => {
    const { station } = request.params;
    const { records, live } = await past(request, response);
    const found = stationOf(records, live, station, read(stationQuery, request.query));
    if (found) response.json(found);
    else refuse(response, words.station(station));
  });
  router.get('/around', async (request, response) => {
    const query = read(aroundQuery, request.query);
    const found = await aroundOf(await past(request, response), query);
    if (found) response.json(found);
    else refuse(response, words.stop(query.stop));
  });
}

function refuse(response: Response, trouble: string): void {
  response.status(404).json({ ok: false, trouble, why: words.why, mend: words.mend });
}
