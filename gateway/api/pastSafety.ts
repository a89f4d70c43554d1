import type { Router } from 'express';
import { z } from 'zod';
import { findingsNow } from '../../model/fold/guards.ts';
import type { FoldState, OpenMatter } from '../../model/fold/state.ts';
import { type SafetyAsked, type SafetyPast, safetyPast } from '../../model/past/safetyPast.ts';
import { epochMs, HOUR, type Instant, type Span } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Records } from '../records/records.ts';
import { isoMoment } from './csvText.ts';
import type { Doors } from './past.ts';
import { askedOf, begunOf, periodQuery, recordsIn, text } from './pastAsked.ts';
import { safetyCsv } from './safetyCsv.ts';
import { createStandstills } from './standstills.ts';

const words = wordsIn('en').screen.past.safety.csv;
const safetyQuery = periodQuery.extend({
  /** Only uses of this device or guard are listed. */
  device: text,
  most: z.coerce.number().int().min(1).max(1000).default(40),
});

const MONTH = (31 * 24 * HOUR) as Span;
/** So far back it is looked for what a device did last, month by month. */
const MONTHS = 12;
/** Before what is looked at, so that what a guard read then is known. */
const MARGIN = (7 * 24 * HOUR) as Span;

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
  const since = sinceOf(records, live, asked, begun);
  const span = { from: (since - MARGIN) as Instant, to: asked.to };
  const of = recordsIn(records, live.line.id, span);
  const { state } = live.fold();
  const { findings, open } = findingsOf(live, recordsIn(records, live.line.id, asked)('finding'), asked);
  return {
    ...asked,
    since,
    begun,
    stops: of('stop'),
    presses: of('press'),
    guards: of('guard'),
    gaps: of('gap'),
    // what was found may be told long after the stretch
    entries: of('entry', { from: span.from, to: live.now() }),
    findings,
    open,
    olderFindings: state.openDropped,
    device: query.device,
    most: query.most,
  };
}

/** Not after `from`, and so far back that each device was used and tested since: a year at most. */
function sinceOf(
  records: Records,
  live: LiveLine,
  { from, to }: { readonly from: Instant; readonly to: Instant },
  begun: Instant,
): Instant {
  const { devices, guards } = live.line;
  const used = new Set<string>();
  const tested = new Set<string>();
  let since = Math.min(from, to - MONTH) as Instant;
  let span = { from: since, to };
  for (let month = 1; month < MONTHS && span.to > begun; month += 1) {
    const there = recordsIn(records, live.line.id, span);
    for (const { device, role } of there('press')) if (role !== 'during') used.add(devices[device]?.id ?? '');
    for (const { guard, open } of there('guard')) if (open) used.add(guard);
    for (const { entry } of there('entry')) if (entry.kind === 'tested') tested.add(entry.device);
    if ([...devices, ...guards].every(({ id }) => used.has(id) && tested.has(id))) break;
    span = { from: (span.from - MONTH) as Instant, to: span.from };
    since = span.from;
  }
  return since;
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
