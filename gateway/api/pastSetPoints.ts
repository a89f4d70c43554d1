import { createHash } from 'node:crypto';
import type { Response, Router } from 'express';
import { z } from 'zod';
import { type OpenedAsked, setPointOpened } from '../../model/past/setPointOpened.ts';
import { type RowsAsked, setPointsPast } from '../../model/past/setPointRows.ts';
import type { Learned, SetPointOpened, SetPointsPast } from '../../model/past/setPointsPast.ts';
import { actingOn } from '../../model/past/settledCounts.ts';
import { bookSubject } from '../../model/records/subjects.ts';
import { type LearnedAsked, learnedAt } from '../../model/setpoints/learned.ts';
import type { Instant } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import type { Doors } from './past.ts';
import { text } from './pastAsked.ts';
import { type SetPointEvidence, setPointEvidence } from './setPointEvidence.ts';

const words = wordsIn('en').screen.past.stations.notFound;

export const setPointsQuery = z.object({ size: text });

/** Approvals of one number that are shown. */
const APPROVALS_MOST = 200;

/** `/setpoints`: the book of a size; `/setpoints/NUMBER`: one adjustment of it, with all it stands on. */
export function setPointRoutes(router: Router, { past, read }: Doors): void {
  router.get('/setpoints', async (request, response) => {
    const { records, live } = await past(request, response);
    const { size } = read(setPointsQuery, request.query);
    const found = await setPointsOf(records, live, size);
    if (found) response.json(found);
    else refuse(response, words.size(size ?? ''));
  });
  router.get('/setpoints/:adjustment', async (request, response) => {
    const { records, live } = await past(request, response);
    const { size } = read(setPointsQuery, request.query);
    const { adjustment } = request.params;
    const found = await setPointOf(records, live, adjustment, size);
    if (found) response.json(found);
    else refuse(response, words.adjustment(adjustment));
  });
}

/** Undefined where the line has no such size. */
export async function setPointsOf(
  records: RecordsRead,
  live: LineRead,
  wished: string | undefined,
): Promise<SetPointsPast | undefined> {
  const size = sizeOf(live, wished);
  if (size === undefined) return undefined;
  return setPointsPast(await rowsAsked(records, live, size, setPointEvidence(records, live, size)));
}

/** Undefined where the line has no such adjustment or size. */
export async function setPointOf(
  records: RecordsRead,
  live: LineRead,
  number: string,
  wished: string | undefined,
): Promise<SetPointOpened | undefined> {
  const size = sizeOf(live, wished);
  const { adjustments } = live.line;
  const adjustment = adjustments.find((one) => one.number === number);
  if (size === undefined || !adjustment) return undefined;
  const evidence = setPointEvidence(records, live, size);
  const row = setPointsPast(await rowsAsked(records, live, size, evidence)).rows.find(
    (one) => one.number === number,
  )!;
  const asked: OpenedAsked = {
    row,
    state: live.fold().state,
    approvals: records.newestOf(
      { line: live.line.id, kind: 'entry', subject: bookSubject(size, number) },
      live.now(),
      APPROVALS_MOST,
    ),
    counts: evidence.countsAt(adjustment.station),
    place: actingOn(adjustments, adjustment.station).indexOf(adjustment),
  };
  return setPointOpened(asked);
}

/** The one that was asked for, else the one that runs, else the first of the line. */
function sizeOf(live: LineRead, wished: string | undefined): string | undefined {
  const { sizes } = live.line;
  if (wished !== undefined) return sizes.find(({ id }) => id === wished)?.id;
  return live.fold().state.size ?? sizes[0]?.id;
}

async function rowsAsked(
  records: RecordsRead,
  live: LineRead,
  size: string,
  evidence: SetPointEvidence,
): Promise<RowsAsked> {
  const { index, state } = live.fold();
  const { line } = live;
  const counts = evidence.countsAt(line.stations.at(-1)?.id ?? '');
  return {
    index,
    state,
    size,
    runs: evidence.runs,
    learned: await learnedBy(records, live, size, evidence),
    approved: (adjustment) =>
      records
        .newestOf({ line: line.id, kind: 'entry', subject: bookSubject(size, adjustment) }, live.now(), 1)
        .at(-1),
    counts,
  };
}

/** What the whole runs taught. An estimate takes a while, and is worked out once for all who ask the same of the same runs. */
export async function learnedBy(
  records: RecordsRead,
  live: LineRead,
  size: string,
  evidence: SetPointEvidence,
): Promise<ReadonlyMap<string, Learned>> {
  const { index, state } = live.fold();
  const evidences = new Map([[size, evidence]]);
  const countsAt = (of: string, station: string) => {
    const found = evidences.get(of) ?? setPointEvidence(records, live, of);
    evidences.set(of, found);
    return found.countsAt(station);
  };
  const asked: LearnedAsked = {
    index,
    datums: state.datums,
    size,
    countsAt,
    now: live.now(),
    remember: (question, make) =>
      records.remember(live.line.id, `estimate ${digestOf(question)}`, NEVER_AMENDED, make),
  };
  const learned: (readonly [string, Learned])[] = [];
  for (const { id } of live.line.stations) {
    learned.push(...learnedAt(asked, id));
    // the line goes on meanwhile: what arrived is recorded and shown between two stations
    await new Promise((resolve) => setImmediate(resolve));
  }
  return new Map(learned);
}

/** All that an estimate stands on is in what is asked. */
const NEVER_AMENDED = 0 as Instant;

function digestOf(asked: unknown): string {
  return createHash('sha256').update(JSON.stringify(asked)).digest('base64');
}

function refuse(response: Response, trouble: string): void {
  response.status(404).json({ ok: false, trouble, why: words.why, mend: words.mend });
}
