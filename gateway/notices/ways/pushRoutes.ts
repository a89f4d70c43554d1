import express, { type Request, type Router } from 'express';
import type { z } from 'zod';
import { wordsIn } from '../../../model/words/words.ts';
import type { Gate } from '../../people/gate.ts';
import type { Push } from '../../people/people.ts';
import { conflict, notAllowed, notFound } from '../../people/refusals.ts';
import { subscriptionId } from '../../people/subscriptions.ts';
import { type PushAnswer, subscriptionBody } from './pushSchemas.ts';
import { areKeys, isServed, type PushSettings } from './pushSettings.ts';

const words = wordsIn('en').push;

export interface PushDoors {
  /** Undefined where the file of ways has no push, or there are no people. */
  readonly push: () => OpenPush | undefined;
  readonly gate: Gate;
  readonly read: <Shape>(schema: z.ZodType<Shape>, value: unknown) => Shape;
}

/** Push as it is set up: what browsers subscribe with, and where they are kept. */
export interface OpenPush {
  readonly settings: PushSettings;
  readonly publicKey: string;
  readonly subscriptions: Push;
}

/** `/notices/push`: one's own browsers that take notices. */
export function pushRoutes({ push, gate, read }: PushDoors): Router {
  const router = express.Router();
  const asker = (request: Request) => {
    const who = gate.asker(request.headers);
    return who === undefined || who.provisional ? undefined : who.number;
  };
  const own = (request: Request) => {
    const open = push();
    if (!open) throw conflict(words.off);
    const number = asker(request);
    if (number === undefined) throw notAllowed(words.needsOwn);
    return { push: open, number };
  };
  router.use((_request, response, next) => {
    response.set('Cache-Control', 'no-store');
    next();
  });
  router.get('/', (request, response) => {
    const number = asker(request);
    const open = push();
    const told: PushAnswer = {
      running: open !== undefined,
      key: open?.publicKey ?? null,
      own: open && number !== undefined ? [...open.subscriptions.rows(number)] : null,
    };
    response.json(told);
  });
  router.post('/', (request, response) => {
    const { push: open, number } = own(request);
    const { endpoint, keys } = read(subscriptionBody, request.body);
    if (!isServed(endpoint, open.settings)) throw conflict(words.otherService(hostOf(endpoint)));
    if (!areKeys(keys)) throw conflict(words.badKeys);
    open.subscriptions.add(number, { endpoint, ...keys });
    response.status(201).json({ ok: true, id: subscriptionId(endpoint) });
  });
  router.delete('/:id', (request, response) => {
    const { push: open, number } = own(request);
    if (!open.subscriptions.remove(number, request.params.id)) throw notFound(words.unknown);
    response.json({ ok: true });
  });
  return router;
}

/** Never the path: it is what makes the address a secret. */
function hostOf(endpoint: string): string {
  return URL.canParse(endpoint) ? new URL(endpoint).host : '';
}
