import type { Router } from 'express';
import { z } from 'zod';
import { findingsNow } from '../../model/fold/guards.ts';
import type { FoldState, OpenMatter } from '../../model/fold/state.ts';
import type { PastAsked } from '../../model/past/past.ts';
import { type SafetyAsked, type SafetyPast, safetyPast } from '../../model/past/safetyPast.ts';
import type { UseRecords } from '../../model/past/uses.ts';
import type { RecordBodies } from '../../model/records/records.ts';
import {
  closedSubject,
  findingSubject,
  openedSubject,
  pressSubject,
  testedSubject,
} from '../../model/records/subjects.ts';
import { epochMs, HOUR, type Instant } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Records } from '../records/records.ts';
import { isoMoment } from './csvText.ts';
import type { Doors } from './past.ts';
import { askedOf, begunOf, periodQuery, recordsIn, text } from './pastAsked.ts';
import { safetyCsv } from './safetyCsv.ts';
import { createStandstills } from './standstills.ts';

const words = wordsIn('en').screen.past.safety.csv;
export const safetyQuery = periodQuery.extend({
  /** Only uses of this device or guard are listed. */
  device: text,
  most: z.coerce.number().int().min(1).max(1000).default(40),
});

/** Around a use, so that what came before it is known, and the stop that came of it. */
const AROUND = HOUR;

/** `/safety` for the screen, `/safety.csv` for a file that other programs read. */
export function safetyRoutes(router: Router, records: Records, { lineOf, read, tape }: Doors): void {
  const standstills = createStandstills(tape);
  router.get('/safety', async (request, response) => {
    const live = lineOf(request);
    const asked = safetyAsked(records, live, read(safetyQuery, request.query));
    const past = safetyPast({ ...asked, standstills: await standstills(live, asked) });
    // what the line itself no longer remembers can be answered no more
    const answerable = new Set(live.fold().state.presses.map(({ id }) => id));
    const list = past.list.map((use) => (answerable.has(use.id) ? use : { ...use, candidates: [] }));
    response.json({ ...past, list } satisfies SafetyPast);
  });
  router.get('/safety.csv', (request, response) => {
    const live = lineOf(request);
    const { from, to } = read(periodQuery, request.query);
    const asked = safetyAsked(records, live, { from, to, device: undefined, most: 1 });
    const date = (at: Instant) => isoMoment(epochMs(at), live.line.zone).slice(0, 10);
    response
      .attachment(words.file(live.line.id, date(asked.from), date(asked.to)))
      .type('text/csv')
      .send(safetyCsv({ ...asked, standstills: new Map() }));
  });
}

function safetyAsked(
  records: Records,
  live: LiveLine,
  query: z.infer<typeof safetyQuery>,
): Omit<SafetyAsked, 'standstills'> {
  const asked = askedOf(live, query);
  const begun = begunOf(records, live, asked);
  const { state } = live.fold();
  const { findings, open } = findingsOf(live, recordsIn(records, live.line.id, asked)('finding'), asked);
  return {
    ...asked,
    since: begun,
    begun,
    ...usesAsked(records, live, asked),
    entries: entriesAsked(records, live, asked, findings),
    findings,
    open,
    olderFindings: state.openDropped,
    device: query.device,
    most: query.most,
  };
}

/** Records of the stretch, and of what each device and guard did last before it. */
function usesAsked(records: Records, live: LiveLine, { from, to }: PastAsked): UseRecords {
  const { devices, guards } = live.line;
  const of = recordsIn(records, live.line.id, { from: (from - AROUND) as Instant, to });
  const before = <Kind extends 'press' | 'guard'>(kind: Kind, subject: string) =>
    records.newestOf({ line: live.line.id, kind, subject }, (from - AROUND) as Instant, 1);
  const pressed = devices.flatMap((_device, place) =>
    [true, false].flatMap((ran) => before('press', pressSubject(place, ran))),
  );
  const opened = guards.flatMap(({ id }) =>
    [true, false].flatMap((ran) => before('guard', openedSubject(id, ran))),
  );
  // a guard is opened that was closed before; how it read when the stretch begins is told by its last move
  const closed = [
    ...opened,
    ...guards.map(({ id }) => ({ guard: id, at: (from - AROUND) as Instant })),
  ].flatMap(({ guard, at }) =>
    records.newestOf({ line: live.line.id, kind: 'guard', subject: closedSubject(guard) }, at, 1),
  );
  const near = [...pressed.map((press) => press.pressed), ...opened.map(({ at }) => at)].map((at) =>
    recordsIn(records, live.line.id, { from: (at - AROUND) as Instant, to: (at + AROUND) as Instant }),
  );
  return {
    presses: inOrder(
      [...pressed, ...of('press')],
      ({ pressed: at }) => at,
      ({ id }) => id,
    ),
    guards: inOrder(
      [...opened, ...closed, ...near.flatMap((some) => some('guard')), ...of('guard')],
      ({ at }) => at,
      ({ guard }) => guard,
    ),
    stops: inOrder(
      [...near.flatMap((some) => some('stop')), ...of('stop')],
      ({ begin }) => begin,
      ({ id }) => id,
    ),
    gaps: inOrder(
      [...near.flatMap((some) => some('gap')), ...of('gap')],
      (gap) => gap.from,
      ({ kind }) => kind,
    ),
  };
}

/** Those of the stretch, the last test of each device before its end, and what a person said of each finding, however late. */
function entriesAsked(
  records: Records,
  live: LiveLine,
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
  live: LiveLine,
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
