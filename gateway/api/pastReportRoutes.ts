import type { Response, Router } from 'express';
import { reportDifferences } from '../../model/report/reportDifferences.ts';
import type { ReportAnswer } from '../../model/report/report.ts';
import type { ReportPeriod } from '../../model/report/reportPeriod.ts';
import type { PastStatus } from '../../model/past/overview.ts';
import { epochMs } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Records } from '../records/records.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import { isoMoment } from './csvText.ts';
import type { Doors, PastParts } from './past.ts';
import { periodAsked, reportOf, type ReportQuery } from './pastReport.ts';
import { markOf, signaturesOf, signedOf, SIGNATURES_MOST } from './pastSigned.ts';
import { reportCsv } from './reportCsv.ts';
import { reportQuery, signing } from './reportSchema.ts';

const words = wordsIn('en').screen.past.report;

interface Trouble {
  readonly what: string;
  readonly why: string;
  readonly mend: string;
}

/** `/report` for the screen and paper, `/report.csv` for a file, and the signing of it. */
export function reportRoutes(
  router: Router,
  { past, onlyNow, read, sign, gate }: Doors,
  { records, status }: Pick<PastParts, 'records' | 'status'>,
): void {
  router.get('/report', async (request, response) => {
    const { records, live } = await past(request, response);
    const found = periodOr404(records, live, read(reportQuery, request.query), response);
    if (found) response.json(answerOf(records, live, found));
  });
  router.get('/report.csv', async (request, response) => {
    const { records, live } = await past(request, response);
    const period = periodOr404(records, live, read(reportQuery, request.query), response);
    if (!period) return;
    const { now, signed } = answerOf(records, live, period);
    const date = isoMoment(epochMs(period.from), live.line.zone).slice(0, 10);
    response
      .attachment(words.file(live.line.id, period.kind, date))
      .type('text/csv')
      .send(reportCsv(signed?.report ?? now, signed?.report ? signed.signatures : []));
  });
  router.post('/report', async (request, response) => {
    sign();
    const live = onlyNow(request);
    const period = periodOr404(records, live, read(reportQuery, request.query), response);
    if (!period) return;
    const { id, person, as, words: said, read: mark } = read(signing, request.body);
    gate.allow('sign', request.headers, person);
    const { now, mark: markNow, signed } = answerOf(records, live, period);
    const own = signaturesOf(records, live, period.key).find((entry) => entry.id === id);
    if (own) return void response.status(201).json({ ok: true, position: live.position() });
    const trouble =
      notToSign({ records, live, past: status(live.line.id) }, period, now) ??
      (live.fold().state.entryIds.includes(id) ? words.refused.idTaken : undefined) ??
      ((signed?.mark ?? markNow) === mark ? undefined : words.refused.readAnew) ??
      ((signed?.signatures.length ?? 0) >= SIGNATURES_MOST ? words.refused.signedEnough : undefined);
    if (trouble) return refuse(response, 409, trouble);
    const first = signed?.signatures[0];
    const position = await live.enter({
      id,
      at: epochMs(live.now()),
      author: { kind: 'person', number: person },
      kind: 'signed',
      of: period.key,
      person,
      as,
      ...(said === undefined ? {} : { words: said }),
      ...(first === undefined ? { page: JSON.stringify(now) } : { first: first.id }),
    });
    response.status(201).json({ ok: true, position });
  });
}

/** Why a page is not to be signed: its time is not over, nobody saw any of it, or its records are not what the tape says. */
function notToSign(
  { records, live, past }: { readonly records: Records; readonly live: LiveLine; readonly past: PastStatus },
  period: ReportPeriod,
  now: ReportAnswer['now'],
): Trouble | undefined {
  if (period.goesOn) return words.refused.notOver;
  const edition = records.edition(live.line.id);
  const making = past.kind === 'history' || past.kind === 'records' || past.kind === 'failed';
  if (making || edition?.version !== live.version || live.recordsDue()) return words.refused.beingMade;
  const seen = now.figures.find(({ id }) => id === 'coverage')?.value;
  const made = now.figures.find(({ id }) => id === 'good')?.value;
  return (seen ?? 0) > 0 || made !== undefined ? undefined : words.refused.nobodySaw;
}

function periodOr404(
  records: RecordsRead,
  live: LineRead,
  query: ReportQuery,
  response: Response,
): ReportPeriod | undefined {
  const period = periodAsked(records, live, query);
  if (!period) refuse(response, 404, { ...words.nothing, what: words.nothing.what(query.kind) });
  return period;
}

function refuse(response: Response, status: number, { what, why, mend }: Trouble): void {
  response.status(status).json({ ok: false, trouble: what, why, mend });
}

function answerOf(records: RecordsRead, live: LineRead, period: ReportPeriod): ReportAnswer {
  const now = reportOf(records, live, period);
  const signed = signedOf(records, live, period.key);
  const nothing = { figures: [], parts: [], why: undefined };
  return {
    now,
    mark: markOf(now),
    signed,
    since: signed?.report ? reportDifferences(signed.report, now) : nothing,
  };
}
