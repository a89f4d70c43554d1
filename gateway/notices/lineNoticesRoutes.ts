import express, { type Request, type Response, type Router } from 'express';
import type { z } from 'zod';
import type { NoticeRecord } from '../../model/notices/notice.ts';
import { FIRST_SETTINGS, type NoticeSettings } from '../../model/notices/settings.ts';
import type { ShutOff } from '../../model/notices/shutOff.ts';
import { epochMs } from '../../model/units/units.ts';
import { noticeView } from '../../model/view/noticesView.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Gate } from '../people/gate.ts';
import { notFound } from '../people/refusals.ts';
import type { Records } from '../records/records.ts';
import { DAYS, daysQuery, type NoticeList, type SettingsTold, triedBody } from './lineNoticesSchema.ts';
import { noticesIn } from './noticesPast.ts';
import { trialBody, type Trials } from './trial.ts';
import { triedOf } from './tried.ts';

const words = wordsIn('en').notices.refused;

/** So many that have ended are listed at most. */
const ENDED_MOST = 200;
/** A notice is looked for so many days back. */
const LOOKED_FOR_DAYS = 366;

export interface LineNoticesDoors {
  readonly records: Records;
  readonly lineOf: (request: Request) => LiveLine;
  readonly gate: Gate;
  readonly trials: Trials;
  /** Numbers of people whose access has ended. */
  readonly shutOff: () => ShutOff;
  readonly read: <Shape>(schema: z.ZodType<Shape>, value: unknown) => Shape;
}

/** `/lines/ID/notices`: what is open, what has ended in thirty days, the settings, and what they would have done. */
export function lineNoticesRoutes({
  records,
  lineOf,
  gate,
  trials,
  shutOff,
  read,
}: LineNoticesDoors): Router {
  const router = express.Router({ mergeParams: true });
  const tryOn = async (request: Request, response: Response, drafted: NoticeSettings | undefined) => {
    const { days } = read(daysQuery, request.query);
    const left = new AbortController();
    response.once('close', () => left.abort());
    const parts = { shutOff: shutOff(), gone: left.signal, drafted };
    try {
      response.json(await triedOf(records, lineOf(request), days, parts));
    } catch (error) {
      // whoever asked is gone, and the rest was left undone for that
      if (!left.signal.aborted) throw error;
    }
  };
  router.get('/', (request, response) => void response.json(listOf(records, lineOf(request), shutOff())));
  router.get('/one/:notice', (request, response) => {
    response.json(oneOf(records, lineOf(request), String(request.params.notice), shutOff()));
  });
  router.get('/settings', (request, response) => {
    const { noticeSettings } = lineOf(request).fold().state;
    const { settings = FIRST_SETTINGS, at, by, why } = noticeSettings ?? {};
    const named = settings.who.recipients.map(({ person }) => person);
    const told: SettingsTold = {
      ...{ settings, at: at === undefined ? undefined : epochMs(at), by, why },
      shutOff: named.filter((person) => shutOff().has(person)),
    };
    response.json(told);
  });
  router.get('/tried', (request, response) => tryOn(request, response, undefined));
  // what somebody drafts is theirs to try who may save it
  router.post('/tried', (request, response) => {
    gate.allow('noticeSettings', request.headers);
    return tryOn(request, response, read(triedBody, request.body).settings);
  });
  // for whoever sees to notices, and for each person to themselves
  router.post('/trial', async (request, response) => {
    const to = read(trialBody, request.body);
    const asker = gate.asker(request.headers);
    const isOwn = asker !== undefined && !asker.provisional && asker.number === to.person;
    if (!isOwn) gate.allow('noticeSettings', request.headers);
    const here = `${request.protocol}://${request.get('host')}/`;
    response.json(await trials.send(to, lineOf(request).line, here));
  });
  return router;
}

function listOf(records: Records, live: LiveLine, shutOff: ShutOff): NoticeList {
  const { index, state } = live.fold();
  const all = noticesIn(records, live, DAYS);
  const view = (notice: NoticeRecord) => noticeView(index, state, notice, { now: live.now(), shutOff });
  const ended = all.filter((notice) => notice.ended !== null);
  const said = ended.flatMap(({ ended: end }) => (end?.said ? [end.said] : []));
  return {
    days: DAYS,
    open: state.notices
      .filter((notice) => notice.ended === null)
      .map(view)
      .reverse(),
    ended: ended
      .toSorted((a, b) => b.ended!.at - a.ended!.at)
      .slice(0, ENDED_MOST)
      .map(view),
    counts: {
      raised: all.length,
      found: said.filter(({ found }) => found !== 'nothing').length,
      nothing: said.filter(({ found }) => found === 'nothing').length,
      unsaid: ended.filter(({ ended: end }) => end!.said === null && end!.how !== 'never').length,
      never: ended.filter(({ ended: end }) => end!.how === 'never').length,
    },
  };
}

function oneOf(records: Records, live: LiveLine, id: string, shutOff: ShutOff) {
  const { index, state } = live.fold();
  const notice =
    state.notices.find((one) => one.id === id) ??
    noticesIn(records, live, LOOKED_FOR_DAYS).find((one) => one.id === id);
  if (!notice) throw notFound(words.unknown(id));
  return noticeView(index, state, notice, { now: live.now(), shutOff });
}
