import express, { type Request, type Response } from 'express';
import type { z } from 'zod';
import type { PastOrder, PastOverview, PastStatus } from '../../model/past/overview.ts';
import { stationRef } from '../../model/past/past.ts';
import type { SymptomKnowledge } from '../../model/diagnosis/symptoms.ts';
import { signalMeanings } from '../../model/past/signalSheets.ts';
import type { RecordBodies } from '../../model/records/records.ts';
import { epochMs } from '../../model/units/units.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { LiveLine } from '../live/liveLine.ts';
import { LinesThen } from '../live/linesThen.ts';
import type { Records } from '../records/records.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import type { Tape } from '../tape/tape.ts';
import type { Gate } from '../people/gate.ts';
import { onlyNow, type PastRead, pastOf } from './asOf.ts';
import { attributedRoutes } from './pastAttributed.ts';
import { reportRoutes } from './pastReportRoutes.ts';
import { balanceRoutes } from './pastBalance.ts';
import { entryRoutes } from './pastEntries.ts';
import { maintenanceRoutes } from './pastMaintenance.ts';
import { diagnosisRoutes } from './pastDiagnosis.ts';
import { figureRoutes } from './pastFigures.ts';
import { safetyRoutes } from './pastSafety.ts';
import { setPointRoutes } from './pastSetPoints.ts';
import { stationRoutes } from './pastStationRoutes.ts';
import { changeoversOf, changeoversQuery } from './pastChangeovers.ts';
import { comparedRoutes } from './pastCompared.ts';
import { courseRoutes } from './pastCourse.ts';
import { stopRoutes } from './pastStops.ts';

export interface PastParts {
  readonly records: Records;
  /** How far the past is made. */
  readonly status: (line: string) => PastStatus;
  /** What people know of a line's symptoms; left out where no file says it. */
  readonly symptoms?: (line: string) => SymptomKnowledge | undefined;
  /** Ends what goes on in the background. */
  readonly cancel: (line: string) => void;
}

/** What all of it gets from the rest of the API. */
export interface PastSurroundings {
  readonly lineOf: (request: Request) => LiveLine;
  readonly read: <Shape>(schema: z.ZodType<Shape>, value: unknown) => Shape;
  readonly tape: Tape;
  /** Refuses where entries come too fast. */
  readonly sign: () => void;
  /** What people know of a machine's symptoms; undefined where no file says it. */
  readonly symptoms: (line: string) => SymptomKnowledge | undefined;
  /** Refuses what may not be done by who asks. */
  readonly gate: Gate;
}

/** What each of the routes gets. */
export interface Doors extends Pick<PastSurroundings, 'read' | 'sign' | 'symptoms' | 'gate'> {
  /** What a question is answered from: of now, or as of the position that it names. */
  readonly past: (request: Request, response: Response) => Promise<PastRead>;
  /** The line for what is done, which a question as of then cannot do. */
  readonly onlyNow: (request: Request) => LiveLine;
}

/** Shifts and orders that can be chosen by name. */
const SHIFTS_LISTED = 60;
const ORDERS_LISTED = 40;

/** The past of a line, from its records: what screens and other programs ask for. */
export function pastRoutes(
  { records, status, cancel }: PastParts,
  { lineOf, tape, ...surroundings }: PastSurroundings,
): express.Router {
  const { read, gate } = surroundings;
  const linesThen = new LinesThen(tape);
  const past: Doors['past'] = (request, response) =>
    pastOf({ records, tape, linesThen, lineOf, read }, request, response);
  const doors: Doors = {
    ...surroundings,
    past,
    onlyNow: (request) => onlyNow({ lineOf, read }, request),
  };
  const router = express.Router({ mergeParams: true });
  router.get('/', async (request, response) => {
    const { records, live } = await past(request, response);
    response.json(overviewOf(records, live, status(live.line.id)));
  });
  router.post('/cancel', (request, response) => {
    const { line } = doors.onlyNow(request);
    gate.allow('endMaking', request.headers);
    cancel(line.id);
    response.status(202).json({ ok: true });
  });
  router.get('/changeovers', async (request, response) => {
    const { records, live } = await past(request, response);
    response.json(changeoversOf(records, live, read(changeoversQuery, request.query)));
  });
  router.get('/signals', async (request, response) => {
    const { live } = await past(request, response);
    response.json(signalMeanings(live.fold().index));
  });
  courseRoutes(router, doors);
  comparedRoutes(router, doors);
  stopRoutes(router, doors);
  safetyRoutes(router, doors);
  stationRoutes(router, doors);
  figureRoutes(router, doors);
  balanceRoutes(router, doors);
  reportRoutes(router, doors, { records, status });
  attributedRoutes(router, doors);
  entryRoutes(router, doors);
  maintenanceRoutes(router, doors);
  setPointRoutes(router, doors);
  diagnosisRoutes(router, doors);
  return router;
}

function overviewOf(records: RecordsRead, live: LineRead, past: PastStatus): PastOverview {
  const { index, state } = live.fold();
  const { line } = live;
  const ended = records
    .newest(line.id, 'shift', SHIFTS_LISTED)
    .flatMap((record) => (record.shift ? [record.shift] : []));
  const { shift } = state.shift;
  const begun = records.first(line.id);
  return {
    past,
    begun: begun === undefined ? null : epochMs(begun),
    now: epochMs(live.now()),
    zone: line.zone,
    shifts: [...ended, ...(shift ? [shift] : [])].map(({ rule, name, from, to }) => ({
      rule,
      name,
      from: epochMs(from),
      to: epochMs(to),
    })),
    sizes: line.sizes.map(({ id, name }) => ({ id, name })),
    stations: line.stations.map(({ id }) => stationRef(index, id)!),
    orders: ordersOf(records.newest(line.id, 'order', ORDERS_LISTED)),
  };
}

/** One that came again, as after a clearance of something else, is listed where it ran last. */
function ordersOf(began: readonly RecordBodies['order'][]): readonly PastOrder[] {
  const runs = began.map(({ order, at }, place) => {
    const next = began[place + 1]?.at;
    return { number: order, from: epochMs(at), to: next === undefined ? undefined : epochMs(next) };
  });
  return runs.filter(({ number }, place) => runs.findLastIndex((run) => run.number === number) === place);
}
