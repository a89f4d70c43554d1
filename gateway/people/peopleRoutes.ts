import express, { type NextFunction, type Request, type Response, type Router } from 'express';
import type { z } from 'zod';
import { readAs } from '../api/reading.ts';
import { guessAddress } from './address.ts';
import { dropToken, setToken, tokenOf } from './cookie.ts';
import type { Gate } from './gate.ts';
import type { People } from './people.ts';
import {
  addBody,
  adminBody,
  changeBody,
  logInBody,
  secretBody,
  type SessionAnswer,
  settingsBody,
} from './peopleSchemas.ts';
import { notAllowed, notUnderstood } from './refusals.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { Entrance } from '../tls/entrance.ts';

const words = wordsIn('en').people;

/** What these routes stand on. */
export interface PeopleDoors {
  readonly people: People;
  readonly gate: Gate;
}

export interface SessionDoors extends PeopleDoors {
  readonly entrance: Entrance;
}

/** `/session`: who am I, log in, log out, another secret of one's own. */
export function sessionRoutes({ people, gate, entrance }: SessionDoors): Router {
  const router = express.Router();
  const { logIn } = people;
  const addressOf = (request: Request) => guessAddress(entrance.came(request).address);
  const isEncrypted = (request: Request) => entrance.came(request).encrypted;
  router.use(notKept);
  router.get('/', (request, response) => void response.json(whoAmI(people, gate, request)));
  router.post('/', async (request, response) => {
    const trying = read(logInBody, request.body);
    const token = await logIn.withSecret({ ...trying, address: addressOf(request) });
    began(request, response, setToken(token, isEncrypted(request)), people);
  });
  router.post('/admin', async (request, response) => {
    const first = read(adminBody, request.body);
    const token = await logIn.asAdmin({ ...first, address: addressOf(request) });
    began(request, response, setToken(token, isEncrypted(request)), people);
  });
  router.put('/secret', async (request, response) => {
    const asker = gate.asker(request.headers);
    if (!asker) throw notAllowed(words.needsOwn);
    const { secret, next } = read(secretBody, request.body);
    const token = await logIn.changeSecret(asker, {
      secret,
      next,
      address: addressOf(request),
    });
    response.set('Set-Cookie', setToken(token, isEncrypted(request))).json({ ok: true });
  });
  router.post('/here', (request, response) => {
    const token = tokenOf(request.headers);
    if (token !== undefined && gate.asker(request.headers)) people.use(token);
    response.json({ ok: true });
  });
  router.delete('/', (request, response) => {
    const token = tokenOf(request.headers);
    if (token !== undefined) logIn.logOut(token);
    response.set('Set-Cookie', dropToken(isEncrypted(request))).json({ ok: true });
  });
  return router;
}

/** `/people`: for admins, and nobody else learns a name here. */
export function peopleRoutes({ people, gate }: PeopleDoors): Router {
  const router = express.Router();
  const { administration } = people;
  router.use(notKept);
  router.use((request, _response, next) => {
    gate.allow('people', request.headers);
    next();
  });
  router.get('/', (_request, response) => void response.json(administration.all()));
  router.post('/', async (request, response) => {
    const code = await administration.add(read(addBody, request.body));
    response.status(201).json({ ok: true, code });
  });
  router.get('/settings', (_request, response) => void response.json(administration.settings()));
  router.put('/settings', (request, response) => {
    administration.set(read(settingsBody, request.body));
    response.json({ ok: true });
  });
  router.patch('/:number', (request, response) => {
    administration.change(request.params.number, read(changeBody, request.body));
    response.json({ ok: true });
  });
  router.post('/:number/code', async (request, response) => {
    const code = await administration.newCode(request.params.number);
    response.status(201).json({ ok: true, code });
  });
  const ends = {
    name: administration.eraseName,
    sessions: administration.endSessions,
    held: administration.release,
  };
  for (const [what, end] of Object.entries(ends)) {
    router.delete(`/:number/${what}`, (request: Request<{ number: string }>, response: Response) => {
      end(request.params.number);
      response.json({ ok: true });
    });
  }
  return router;
}

/** Neither a browser nor a proxy keeps who is logged in, nor a name. */
function notKept(_request: Request, response: Response, next: NextFunction): void {
  response.set('Cache-Control', 'no-store');
  next();
}

function whoAmI(people: People, gate: Gate, { headers }: Request): SessionAnswer {
  const asker = gate.asker(headers);
  return {
    person: asker
      ? {
          number: asker.number,
          name: people.administration.name(asker.number) ?? null,
          roles: [...asker.roles],
          allRoles: [...people.administration.roles(asker.number)],
          by: asker.kind,
          mustChoose: asker.provisional,
          until: asker.until,
        }
      : null,
    people: gate.plant().people,
    may: [...gate.may(headers)],
  };
}

/** A log-in takes the place of the one that this browser had. */
function began(request: Request, response: Response, cookie: string, people: People): void {
  const before = tokenOf(request.headers);
  if (before !== undefined) people.logIn.logOut(before);
  response.status(201).set('Set-Cookie', cookie).json({ ok: true });
}

function read<Shape>(schema: z.ZodType<Shape>, value: unknown): Shape {
  const result = readAs(schema, value);
  if (!result.ok) throw notUnderstood(result.why);
  return result.data;
}
