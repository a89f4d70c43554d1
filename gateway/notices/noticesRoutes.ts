import express, { type Router } from 'express';
import type { z } from 'zod';
import type { ShutOff } from '../../model/notices/shutOff.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { Gate } from '../people/gate.ts';
import { conflict, notFound } from '../people/refusals.ts';
import type { Notices, WaysOut } from './notices.ts';
import type { Pages } from './pages.ts';
import { pushRoutes } from './ways/pushRoutes.ts';
import { againBody, letterRowOf, type outboxAnswer, outboxQuery, waysAnswerOf } from './noticesSchemas.ts';

const words = wordsIn('en').ways.again;

export interface NoticesDoors {
  /** Undefined where there is no file of ways. */
  readonly notices: WaysOut['notices'];
  readonly gate: Gate;
  readonly pages: Pages;
  /** Whose access has ended. */
  readonly shutOff: () => ShutOff;
  readonly read: <Shape>(schema: z.ZodType<Shape>, value: unknown) => Shape;
}

/** `/notices`: what is on its way to people, what did not arrive, and by which ways it can go. */
export function noticesRoutes({ notices, gate, pages, shutOff, read }: NoticesDoors): Router {
  const router = express.Router();
  router.get('/outbox', (request, response) => {
    const { state, most } = read(outboxQuery, request.query);
    const answer: z.infer<typeof outboxAnswer> = {
      running: notices() !== undefined,
      counts: notices()?.store.counts() ?? { waiting: 0, sending: 0, told: 0, dead: 0, withdrawn: 0 },
      letters: notices()?.store.newest(most, state).map(letterRowOf) ?? [],
    };
    response.json(answer);
  });
  router.use('/push', pushRoutes({ push: () => notices()?.push, gate, read }));
  router.get('/ways', (_request, response) => {
    const { ways, push, faults = [] } = notices() ?? {};
    const wrong = new Set(faults.flatMap((fault) => fault.ways));
    const reach = {
      shutOff: [...shutOff()],
      pages: pages.people(),
      mail: ways?.mail ? [...ways.addresses.keys()] : [],
      push: push?.subscriptions.people() ?? [],
      webhooks: ways?.webhooks.map(({ id }) => id).filter((id) => !wrong.has(id)) ?? [],
    };
    response.json(waysAnswerOf(ways, reach, faults));
  });
  router.post('/outbox/:letter/again', (request, response) => {
    gate.allow('noticeSettings', request.headers);
    read(againBody, request.body);
    tryAgain(notices(), request.params.letter);
    response.status(202).json({ ok: true });
  });
  return router;
}

function tryAgain(notices: Notices | undefined, id: string): void {
  switch (notices?.outbox.again(id) ?? 'unknown') {
    case 'again':
      return;
    case 'unknown':
      throw notFound({ what: words.unknown(id), why: words.unknownWhy, mend: words.unknownMend });
    case 'notDead':
      throw conflict({ what: words.notDead, why: words.notDeadWhy, mend: words.notDeadMend });
    case 'unwanted':
      throw conflict({ what: words.unwanted, why: words.unwantedWhy, mend: words.unwantedMend });
    case 'full':
      throw conflict({ what: words.full, why: words.fullWhy, mend: words.fullMend });
  }
}
