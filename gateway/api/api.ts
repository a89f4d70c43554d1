import { existsSync } from 'node:fs';
import { join } from 'node:path';
import express, { type Express, type NextFunction, type Request, type Response } from 'express';
import type { Logger } from 'pino';
import type { z } from 'zod';
import { LineError } from '../../model/trouble/trouble.ts';
import { epochMs } from '../../model/units/units.ts';
import { seenAt } from '../../model/view/seen.ts';
import { sheetsAhead } from '../../model/view/sheetsAhead.ts';
import { NOBODY_SHUT_OFF } from '../../model/notices/shutOff.ts';
import { wordsIn } from '../../model/words/words.ts';
import { TooManyThen } from '../live/linesThen.ts';
import type { LiveLine } from '../live/liveLine.ts';
import { createQuota } from '../live/quota.ts';
import { takeEntry } from '../live/takeEntry.ts';
import type { WaysOut } from '../notices/notices.ts';
import { lineNoticesRoutes } from '../notices/lineNoticesRoutes.ts';
import { noticesRoutes } from '../notices/noticesRoutes.ts';
import { Pages } from '../notices/pages.ts';
import { Trials } from '../notices/trial.ts';
import type { Tape } from '../tape/tape.ts';
import { unreadRows } from './unreadRows.ts';
import { type Entrance, plainEntrance } from '../tls/entrance.ts';
import { encryptionOf, guard } from '../tls/guard.ts';
import { createGate, type Gate } from '../people/gate.ts';
import type { People } from '../people/people.ts';
import { peopleRoutes, sessionRoutes } from '../people/peopleRoutes.ts';
import { notAllowed, Refused } from '../people/refusals.ts';
import { isOfThisSite, onlyReads } from '../people/sameSite.ts';
import { NotOnTape } from './asOf.ts';
import { EntryRefused, readEntry } from './entrySchema.ts';
import type { KnownHost } from './hostNames.ts';
import { exportRoutes } from '../export/exportRoutes.ts';
import type { ExportJobs } from '../export/jobs.ts';
import { figureDefinitions } from './figuresSchema.ts';
import { openApi } from './openApi.ts';
import { type PastParts, pastRoutes } from './past.ts';
import { readAs } from './reading.ts';
import { isBadAddress, requestWhy } from './requestWhy.ts';
import { changesQuery, type ServerRow, type SignalRow } from './schemas.ts';
import { tapeRoutes } from './tapeRoutes.ts';
import { asDescribed } from './viewSchema.ts';

const words = wordsIn('en').gateway;
const BODY_MOST = '16kb';
/** Entries over the API, all programs together. */
const ENTRIES = { burst: 60, perMinute: 120 };

export interface ApiParts {
  readonly lines: ReadonlyMap<string, LiveLine>;
  readonly tape: Tape;
  readonly now: () => number;
  /** What the intake knows of a signal: revised sampling and queue, trouble with its tag. */
  readonly signals: (line: string) => readonly SignalRow[];
  readonly servers: (line: string) => readonly ServerRow[];
  readonly past: PastParts;
  readonly known: KnownHost;
  /** How screens are to come in; in clear text from this machine unless said. */
  readonly entrance?: Entrance;
  /** Who has a number here; without them nobody can log in. */
  readonly people?: People | undefined;
  /** The ways out for notices; without them none goes out. */
  readonly notices?: WaysOut['notices'];
  /** Exports that are being made; without them none can be asked for. */
  readonly exports?: ExportJobs;
  /** Open pages that sound. */
  readonly pages?: Pages;
  /** Folder of the built dashboard. */
  readonly dashboard: string;
  readonly log: Pick<Logger, 'error'>;
}

/** The web side: what the lines do under `/api`, the dashboard everywhere else. */
export function createApi(parts: ApiParts): Express {
  const app = express();
  app.disable('x-powered-by');
  app.use(headers);
  app.use(guard(parts.entrance ?? plainEntrance));
  app.use(onlyKnownHosts(parts.known));
  app.use(onlyThisSite);
  app.use(express.json({ limit: BODY_MOST }));
  app.get('/healthz', (_request, response) => health(parts, response));
  app.use('/api', routes(parts));
  app.use(express.static(parts.dashboard, { index: false, maxAge: '1h' }));
  app.get('/{*splat}', (_request, response) => page(parts, response));
  app.use(nothingThere);
  app.use(troubleTo(parts.log));
  return app;
}

function routes({
  lines,
  tape,
  now,
  signals,
  servers,
  past,
  people,
  exports,
  notices = () => undefined,
  pages = new Pages(),
  entrance = plainEntrance,
}: ApiParts): express.Router {
  const router = express.Router();
  const gate = createGate(people);
  const quota = createQuota(ENTRIES, now);
  const shutOff = () => people?.shutOff() ?? NOBODY_SHUT_OFF;
  const takeOne = () => {
    if (!quota.take())
      throw new TooMany(words.tooManyEntries, {
        why: words.tooManyEntriesWhy,
        mend: words.tooManyEntriesMend,
      });
  };
  if (people) {
    router.use('/session', sessionRoutes({ people, gate, entrance }));
    router.use('/people', peopleRoutes({ people, gate }));
  }
  router.get('/encryption', (_request, response) => void response.json(encryptionOf(entrance)));
  router.use(onlyLookers(gate));
  router.get('/openapi.json', (_request, response) => void response.json(openApi()));
  router.get('/figures', (_request, response) => void response.json(figureDefinitions()));
  router.use('/notices', noticesRoutes({ notices, gate, read, pages, shutOff }));
  router.get('/lines', (_request, response) => {
    response.json(
      [...lines.values()].map(({ line }) => ({ id: line.id, name: line.name, product: line.product })),
    );
  });
  router.get(
    '/lines/:line/view',
    (request, response) => void response.json(asDescribed(lineOf(lines, request).view())),
  );
  router.get(
    '/lines/:line/orders',
    (request, response) => void response.json(lineOf(lines, request).view().orders),
  );
  router.get('/lines/:line/sheets/ahead', (request, response) => {
    const live = lineOf(lines, request);
    response.json(sheetsAhead(seenAt(live.fold(), live.now())));
  });
  router.get(
    '/lines/:line/signals',
    (request, response) => void response.json(signals(lineOf(lines, request).line.id)),
  );
  router.get(
    '/lines/:line/servers',
    (request, response) => void response.json(servers(lineOf(lines, request).line.id)),
  );
  router.get(
    '/lines/:line/unread',
    (request, response) => void response.json(unreadRows(tape, lineOf(lines, request).line.id)),
  );
  router.use(
    '/lines/:line/past',
    pastRoutes(past, {
      lineOf: (request) => lineOf(lines, request),
      read,
      tape,
      sign: takeOne,
      gate,
      symptoms: past.symptoms ?? (() => undefined),
    }),
  );
  router.use(
    '/lines/:line/notices',
    lineNoticesRoutes({
      records: past.records,
      lineOf: (request) => lineOf(lines, request),
      trials: new Trials({ notices, pages, shutOff, now }),
      gate,
      shutOff,
      read,
    }),
  );
  if (exports)
    router.use(
      '/lines/:line/exports',
      exportRoutes({ exports, lineOf: (request) => lineOf(lines, request), gate, read }),
    );
  router.use(
    '/lines/:line/tape',
    tapeRoutes({ tape, lineOf: (request) => lineOf(lines, request), read, nothing: nothingThere }),
  );
  router.get('/lines/:line/changes', async (request, response) => {
    const { line } = lineOf(lines, request);
    const { from, to } = read(changesQuery, request.query);
    const rows: unknown[] = [];
    const end = Math.min(to ?? from + 1000, tape.end(line.id));
    for await (const changes of tape.read(line.id, from, end)) {
      for (const { signal, at, received, status, value } of changes) {
        rows.push({
          signal: line.signals[signal]?.id,
          at: epochMs(at),
          ticks: at,
          received: epochMs(received),
          status,
          value,
        });
      }
    }
    response.json({ from, to: Math.max(from, end), end: tape.end(line.id), changes: rows });
  });
  router.post('/lines/:line/entries', async (request, response) => {
    takeOne();
    const live = lineOf(lines, request);
    const { entry } = readEntry({ line: live.line.id, entry: request.body as unknown }, now());
    const made = gate.entryBy(entry, request.headers);
    response.status(201).json(await takeEntry(live, made));
  });
  router.use(nothingThere);
  return router;
}

/** `ok` while every line is heard and recorded; a monitor of monitors needs no more. */
function health({ lines, tape }: ApiParts, response: Response): void {
  const rows = [...lines.values()].map((live) => {
    const { state } = live.fold();
    const heard = state.heardAt >= 0;
    const { length: unread } = tape.damages(live.line.id);
    return {
      id: live.line.id,
      dataAgeMs: heard ? Math.max(0, Math.round((live.now() - state.heardAt) / 10_000)) : null,
      goodCartons: state.shift.account.good,
      notRecorded: live.unrecorded(),
      ...(unread > 0 ? { unread } : {}),
    };
  });
  const { length } = rows.filter((row) => row.dataAgeMs === null || row.dataAgeMs > 60_000);
  const heard = length === 0 ? 'ok' : 'notHeard';
  response.json({ status: rows.some((row) => row.notRecorded) ? 'notRecorded' : heard, lines: rows });
}

function page({ dashboard }: ApiParts, response: Response): void {
  // by its folder: a dot in front of a folder further up is nothing that is hidden from a screen
  if (existsSync(join(dashboard, 'index.html'))) response.sendFile('index.html', { root: dashboard });
  else response.status(503).type('text').send(`${words.notBuilt}\n`);
}

/** Nothing from elsewhere is loaded, nothing inline is run, and no other site may frame or read a screen. */
function headers(_request: Request, response: Response, next: NextFunction): void {
  response.set({
    'Content-Security-Policy':
      "default-src 'self'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; connect-src 'self'; object-src 'none'; base-uri 'none'; frame-ancestors 'none'; form-action 'self'",
    'X-Content-Type-Options': 'nosniff',
    'Referrer-Policy': 'no-referrer',
    'Cross-Origin-Opener-Policy': 'same-origin',
    'Cross-Origin-Resource-Policy': 'same-origin',
  });
  next();
}

function onlyKnownHosts(known: KnownHost) {
  return ({ headers: { host } }: Request, _response: Response, next: NextFunction): void => {
    if (known(host)) return next();
    throw new UnknownHost(words.unknownHost(host ?? ''), {
      why: words.unknownHostWhy,
      mend: words.unknownHostMend,
    });
  };
}

/** A page of another site may change nothing here in the name of who is logged in. */
function onlyThisSite({ method, headers: sent }: Request, _response: Response, next: NextFunction): void {
  if (onlyReads(method) || isOfThisSite(sent)) return next();
  throw notAllowed(wordsIn('en').people.otherSite);
}

function onlyLookers(gate: Gate) {
  return (request: Request, _response: Response, next: NextFunction): void => {
    if (onlyReads(request.method))
      gate.allow(request.path.endsWith('.csv') ? 'export' : 'look', request.headers);
    next();
  };
}

class UnknownHost extends LineError {}
class NotFound extends LineError {}
class TooMany extends LineError {}
class NotUnderstood extends LineError {}

function nothingThere({ originalUrl }: Request): never {
  throw new NotFound(words.noSuchPath(originalUrl), {
    why: words.noSuchPathWhy,
    mend: words.noSuchPathMend,
  });
}

function lineOf(lines: ReadonlyMap<string, LiveLine>, request: Request): LiveLine {
  const id = String(request.params.line);
  const live = lines.get(id);
  if (!live)
    throw new NotFound(words.noSuchLine(id), { why: words.noSuchLineWhy, mend: words.noSuchLineMend });
  return live;
}

function read<Shape>(schema: z.ZodType<Shape>, value: unknown): Shape {
  const result = readAs(schema, value);
  if (result.ok) return result.data;
  throw new NotUnderstood(words.badQuery, { why: result.why, mend: words.badQueryMend });
}

/** Trouble a person can mend is told in three sentences; a mistake of our own is logged, and not told in detail. */
function troubleTo(log: ApiParts['log']) {
  // express knows a handler of errors by its four parameters
  return (error: unknown, request: Request, response: Response, next: NextFunction): void => {
    if (response.headersSent) return next(error);
    const status = statusOf(error);
    if (status === 500) log.error({ err: error }, words.ownMistake);
    response.status(status).json({ ok: false, ...toldOf(error, status, request.method) });
    return undefined;
  };
}

function statusOf(error: unknown): number {
  if (error instanceof Refused) return error.status;
  if (error instanceof UnknownHost) return 421; // misdirected request, RFC 9110
  if (error instanceof NotFound) return 404;
  if (error instanceof TooMany || error instanceof TooManyThen) return 429;
  if (error instanceof NotUnderstood || error instanceof NotOnTape || error instanceof EntryRefused)
    return 400;
  // what is left is trouble with the tape, such as a disk that is full
  if (error instanceof LineError) return 503;
  const { status = 500 } = error as { status?: number };
  return status >= 400 && status < 500 ? status : 500;
}

function toldOf(
  error: unknown,
  status: number,
  method: string,
): { trouble: string; why: string; mend: string } {
  if (error instanceof LineError) return { trouble: error.message, why: error.why, mend: error.mend };
  if (status < 500 && (method !== 'POST' || isBadAddress(error)))
    return { trouble: words.badQuery, why: requestWhy(error), mend: words.badQueryMend };
  if (status < 500) return { trouble: words.badEntry, why: requestWhy(error), mend: words.badEntryMend };
  return { trouble: words.ownMistake, why: words.ownMistakeWhy, mend: words.ownMistakeMend };
}
