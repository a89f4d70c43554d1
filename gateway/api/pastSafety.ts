import type { Router } from 'express';
import { z } from 'zod';
import { findingsNow } from '../../model/fold/guards.ts';
import type { FoldState, OpenMatter } from '../../model/fold/state.ts';
import type { Line } from '../../model/line/line.ts';
import type { PastAsked } from '../../model/past/past.ts';
import { type SafetyAsked, type SafetyPast, safetyPast } from '../../model/past/safetyPast.ts';
import type { UseRecords } from '../../model/past/uses.ts';
import type { RecordBodies } from '../../model/records/records.ts';
import { findingSubject, testedSubject } from '../../model/records/subjects.ts';
import { epochMs, HOUR, type Instant } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import { isoMoment } from './csvText.ts';
import type { Doors } from './past.ts';
import { askedOf, begunOf, periodQuery, recordsIn, text } from './pastAsked.ts';
import { safetyCsv } from './safetyCsv.ts';
import { guardBefore, usesBefore } from './pastUses.ts';
import { createStandstills } from './standstills.ts';

const words = wordsIn('en').screen.past.safety.csv;
export const safetyQuery = periodQuery.extend({
  /** Only uses of this device or guard are listed. */
  device: text,
  most: z.coerce.number().int().min(1).max(1000).default(40),
});

/**
 * Around a use or a finding, so that what came before it is known, and the stop that came of it. From whole hours on, as
 * what each device did last before them is worked out once.
 */
const AROUND = HOUR;

/** `/safety` for the screen, `/safety.csv` for a file that other programs read. */
export function safetyRoutes(router: Router, { past, read }: Doors): void {
  const standstills = createStandstills();
  router.get('/safety', async (request, response) => {
    const found = await past(request, response);
    const { records, live } = found;
    const asked = safetyAsked(records, live, read(safetyQuery, request.query));
    const told = safetyPast({ ...asked, standstills: await standstills(found, asked) });
    // what the line itself no longer remembers can be answered no more
    const answerable = new Set(live.fold().state.presses.map(({ id }) => id));
    const list = told.list.map((use) => (answerable.has(use.id) ? use : { ...use, candidates: [] }));
    response.json({ ...told, list } satisfies SafetyPast);
  });
  router.get('/safety.csv', async (request, response) => {
    const { records, live } = await past(request, response);
    const { from, to } = read(periodQuery, request.query);
    const asked = safetyAsked(records, live, { from, to, device: undefined, most: 1 });
    const date = (at: Instant) => isoMoment(epochMs(at), live.line.zone).slice(0, 10);
    response
      .attachment(words.file(live.line.id, date(asked.from), date(asked.to)))
      .type('text/csv')
      .send(safetyCsv({ ...asked, standstills: new Map() }));
  });
}

export function safetyAsked(
  records: RecordsRead,
  live: LineRead,
  query: z.infer<typeof safetyQuery>,
): Omit<SafetyAsked, 'standstills'> {
  const asked = askedOf(records, live, query);
  const begun = begunOf(records, live, asked);
  const since = (asked.from - (asked.from % HOUR) - AROUND) as Instant;
  const { state } = live.fold();
  const { findings, open } = findingsOf(live, recordsIn(records, live.line.id, asked)('finding'), asked);
  return {
    ...asked,
    since,
    begun,
    earlier: usesBefore(records, asked.index, since),
    ...usesAsked(records, live.line, { since, to: asked.to }, findings),
    entries: entriesAsked(records, live, asked, findings),
    findings,
    open,
    olderFindings: state.openDropped,
    device: query.device,
    most: query.most,
  };
}

/** Records from `since` on, how each guard was read before that, and what lies around older findings. */
function usesAsked(
  records: RecordsRead,
  line: Line,
  { since, to }: { readonly since: Instant; readonly to: Instant },
  findings: readonly OpenMatter[],
): UseRecords {
  const of = recordsIn(records, line.id, { from: since, to });
  const older = findings
    .filter(({ at }) => at < since)
    .map((finding) => {
      const reach = Math.max(AROUND, (finding.to ?? to) - finding.at);
      const [from, until] = [finding.at - reach, Math.min(to, (finding.to ?? to) + reach)];
      return recordsIn(records, line.id, { from: from as Instant, to: until as Instant });
    });
  return {
    presses: of('press'),
    guards: [...line.guards.flatMap(({ id }) => guardBefore(records, line.id, id, since)), ...of('guard')],
    stops: inOrder(
      [...older.flatMap((some) => some('stop')), ...of('stop')],
      ({ begin }) => begin,
      ({ id }) => id,
    ),
    gaps: inOrder(
      [...older.flatMap((some) => some('gap')), ...of('gap')],
      ({ from }) => from,
      ({ kind }) => kind,
    ),
  };
}

/** Those of the stretch, the last test of each device before its end, and what a person said of each finding, however late. */
function entriesAsked(
  records: RecordsRead,
  live: LineRead,
  asked: PastAsked,
  findings: readonly OpenMatter[],
): readonly RecordBodies['entry'][] {
  const { id, devices, guards } = live.line;
  const last = (subject: string, before: Instant) =>
    records.newestOf({ line: id, kind: 'entry', subject }, before, 1);
  return inOrder(
    [
      ...[...devices, ...guards].flatMap((one) => last(testedSubject(one.id), asked.to)),
      ...findings.flatMap((finding) => last(findingSubject(finding.id), live.now())),
      ...recordsIn(records, id, asked)('entry'),
    ],
    ({ at }) => at,
    ({ entry }) => entry.id,
  );
}

/** The oldest first, each once. */
function inOrder<One>(
  all: readonly One[],
  at: (one: One) => number,
  id: (one: One) => string,
): readonly One[] {
  const once = new Map(all.map((one) => [`${at(one)} ${id(one)}`, one]));
  return [...once.values()].sort((a, b) => at(a) - at(b));
}

/** Those of the stretch, those from before it that nobody has closed, and what still lasts. */
function findingsOf(
  live: LineRead,
  kept: readonly OpenMatter[],
  { to }: { readonly to: Instant },
): { readonly findings: readonly OpenMatter[]; readonly open: ReadonlySet<string> } {
  const { index, state } = live.fold();
  // nothing is stepped: it is only worked out what would be found now
  const lasting = findingsNow({ index, state: state as FoldState, emit: () => {} }, live.now());
  const byId = new Map(
    [...kept, ...state.open, ...lasting]
      .filter(({ at }) => at < to)
      .map((finding) => [finding.id, finding] as const),
  );
  return { findings: [...byId.values()], open: new Set(state.open.map(({ id }) => id)) };
}
