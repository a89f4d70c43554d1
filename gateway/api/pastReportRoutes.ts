import type { Response, Router } from 'express';
import type { Entry } from '../../model/entries/entries.ts';
import type { RecordBodies } from '../../model/records/records.ts';
import { signedSubject } from '../../model/records/subjects.ts';
import type { Report, ReportAnswer, SignedReport } from '../../model/report/report.ts';
import { reportDifferences } from '../../model/report/reportDifferences.ts';
import { reportKey } from '../../model/report/reportParts.ts';
import type { ReportPeriod } from '../../model/report/reportPeriod.ts';
import { epochMs, type Instant } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Records } from '../records/records.ts';
import { isoMoment } from './csvText.ts';
import type { Doors } from './past.ts';
import { periodAsked, reportOf, type ReportQuery } from './pastReport.ts';
import { reportCsv } from './reportCsv.ts';
import { reportQuery, signing } from './reportSchema.ts';

const words = wordsIn('en').screen.past.report;
/** Signatures under one report, at most. */
const SIGNATURES_MOST = 20;

type Signed = Entry & { kind: 'signed' };

/** `/report` for the screen and paper, `/report.csv` for a file, and the signing of it. */
export function reportRoutes(router: Router, records: Records, { lineOf, read, sign, gate }: Doors): void {
  router.get('/report', (request, response) => {
    const live = lineOf(request);
    const found = periodOr404(records, live, read(reportQuery, request.query), response);
    if (found) response.json(answerOf(records, live, found));
  });
  router.get('/report.csv', (request, response) => {
    const live = lineOf(request);
    const period = periodOr404(records, live, read(reportQuery, request.query), response);
    if (!period) return;
    const { now, signed } = answerOf(records, live, period);
    const date = isoMoment(epochMs(period.from), live.line.zone).slice(0, 10);
    response
      .attachment(words.file(live.line.id, period.kind, date))
      .type('text/csv')
      .send(reportCsv(signed?.report ?? now, signed?.signatures ?? []));
  });
  router.post('/report', async (request, response) => {
    sign();
    const live = lineOf(request);
    const period = periodOr404(records, live, read(reportQuery, request.query), response);
    if (!period) return;
    const { id, person, as, words: said } = read(signing, request.body);
    gate.allow('sign', request.headers, person);
    const now = reportOf(records, live, period);
    if (now.goesOn) return refuse(response, 409, { ...words.notOver });
    const of = reportKey(period.kind, period.from, period.filter);
    const first = signaturesOf(records, live, of).find(({ page }) => page !== undefined);
    const position = await live.enter({
      id,
      at: epochMs(live.now()),
      author: { kind: 'person', number: person },
      kind: 'signed',
      of,
      person,
      as,
      ...(said === undefined ? {} : { words: said }),
      ...(first === undefined ? { page: JSON.stringify(now) } : { first: first.id }),
    });
    response.status(201).json({ ok: true, position });
  });
}

function periodOr404(
  records: Records,
  live: LiveLine,
  query: ReportQuery,
  response: Response,
): ReportPeriod | undefined {
  const period = periodAsked(records, live, query);
  if (!period) refuse(response, 404, { ...words.nothing, what: words.nothing.what(query.kind) });
  return period;
}

function refuse(
  response: Response,
  status: number,
  { what, why, mend }: { readonly what: string; readonly why: string; readonly mend: string },
): void {
  response.status(status).json({ ok: false, trouble: what, why, mend });
}

function answerOf(records: Records, live: LiveLine, period: ReportPeriod): ReportAnswer {
  const now = reportOf(records, live, period);
  const signed = signedOf(records, live, reportKey(period.kind, period.from, period.filter));
  return { now, signed, since: signed ? reportDifferences(signed.report, now) : [] };
}

/** The page that was signed first, and all who signed it. */
function signedOf(records: Records, live: LiveLine, of: string): SignedReport | undefined {
  const entries = signaturesOf(records, live, of);
  const page = entries.find((entry) => entry.page !== undefined)?.page;
  if (page === undefined) return undefined;
  return {
    report: JSON.parse(page) as Report,
    signatures: entries.map(({ id, at, person, as, words: said }) => ({ id, at, person, as, words: said })),
  };
}

/** The oldest first. */
function signaturesOf(records: Records, live: LiveLine, of: string): readonly Signed[] {
  const after = (live.now() + 1) as Instant;
  return records
    .newestOf({ line: live.line.id, kind: 'entry', subject: signedSubject(of) }, after, SIGNATURES_MOST)
    .flatMap(({ entry }: RecordBodies['entry']) => (entry.kind === 'signed' ? [entry] : []));
}
