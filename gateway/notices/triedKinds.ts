import { setImmediate } from 'node:timers/promises';
import { loosest } from '../../model/notices/budget.ts';
import { NOTICE_KINDS, type NoticeKind, type NoticeRecord } from '../../model/notices/notice.ts';
import type { NoticeSettings } from '../../model/notices/settings.ts';
import type { ShutOff } from '../../model/notices/shutOff.ts';
import type { TriedKinds, TriedSaid, UntoldWhy } from '../../model/notices/triedKinds.ts';
import type { JudgedRun } from '../../model/notices/triedRows.ts';
import type { FoldState, ShiftRecord } from '../../model/fold/state.ts';
import { crewChanges, targetChanges, targetThen } from '../../model/past/crewAt.ts';
import { testsOf } from '../../model/past/devicesPast.ts';
import { CREW, TARGET, testedSubject } from '../../model/records/subjects.ts';
import { after, HOUR, type Instant, type Span } from '../../model/units/units.ts';
import { type RunThen, stopsHeld } from '../../model/watch/heldStops.ts';
import { lostHeld, type OutputAsked, rateHeld } from '../../model/watch/heldOutput.ts';
import { heldThen } from '../../model/watch/heldThen.ts';
import { triedSweep } from '../../model/watch/triedSweep.ts';
import { gapsIn, recordsIn } from '../api/pastAsked.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Records } from '../records/records.ts';
import { recentStops, type RunWithStops } from './stationEvidence.ts';

/** Changeovers of so long before the days looked at tell how long one usually takes. */
const CHANGEOVERS_BEFORE = (60 * 24 * HOUR) as Span;
/** Tests of one device that are looked at, the newest. */
const TESTS_MOST = 200;
/** And of what was said of crews and of targets. */
const SAID_MOST = 200;
/** After so long the gateway does what else is to be done. */
const TURN_MS = 5;

export interface TriedKindsAsked {
  readonly from: Instant;
  readonly to: Instant;
  readonly settings: NoticeSettings;
  /** Runs of these days, the oldest first. */
  readonly runs: readonly { readonly run: RunWithStops; readonly judged: readonly JudgedRun[] }[];
  /** Notices that were really raised in them. */
  readonly raised: readonly Readonly<NoticeRecord>[];
  readonly shutOff: ShutOff;
  /** Nobody waits for the answer any more. */
  readonly gone: AbortSignal;
}

/** [NT1] What settings would have told in these days, and whom; gives way to the line every few milliseconds. */
export async function triedKindsOf(
  records: Records,
  live: LiveLine,
  asked: TriedKindsAsked,
): Promise<TriedKinds> {
  const { from, to, settings, gone, shutOff, raised } = asked;
  const { index, state } = live.fold();
  const { when: rules, who } = settings;
  const hasCrewTag = index.line.signals.some(({ role }) => role === 'crew');
  const isUntold = (kind: NoticeKind) => kind in UNTOLD && (kind !== 'rate' || hasCrewTag);
  const least = loosest(rules, who, index.line.stations.length).stopsOnceInShifts;
  const of = recordsIn(records, index.line.id, { from, to });
  const gaps = gapsIn(records, live, { from, to });
  const presses = of('press').filter(({ pressed }) => pressed >= from);
  const findings = of('finding').filter(({ at }) => at >= from);
  const stops = asked.runs.flatMap(({ run }) => run.stops);
  const changeovers = of('changeover', { from: after(from, -CHANGEOVERS_BEFORE as Span), to });
  await setImmediate();
  const tests = [];
  for (const { id } of [...index.line.devices, ...index.line.guards]) {
    const subject = testedSubject(id);
    tests.push(...records.newestOf({ line: index.line.id, kind: 'entry', subject }, to, TESTS_MOST));
    await setImmediate();
  }
  const held = [
    ...heldThen({
      ...{ index, rules, from, to, presses, stops, findings, gaps, changeovers },
      tests: testsOf(tests.toSorted((a, b) => a.at - b.at)),
      recordedSince: records.first(index.line.id) ?? to,
    }),
  ];
  const output: OutputAsked = {
    ...{ index, rules, to, changeovers },
    shifts: [...of('shift'), shiftNow(state)],
    pauses: stops
      .filter((stop) => stop.class === 'pause')
      .map(({ begin, end }) => ({ from: begin, to: end ?? to })),
    targetAt: targetsOf(records, live, asked),
  };
  for (const one of asked.runs) {
    gone.throwIfAborted();
    held.push(...stopsHeld(runThen(live, one), rules, least));
    await setImmediate();
  }
  held.push(...lostHeld(output));
  if (!isUntold('rate')) held.push(...(await gently(rateHeld(output), gone)));
  const swept = await gently(triedSweep({ index, settings, shutOff, from, held, gaps }), gone);
  const saidOf = (kind: NoticeKind): TriedSaid => {
    if (kind !== 'many' && !rules[kind].on) return { kind: 'off' };
    const why = from >= to ? 'noRecords' : isUntold(kind) ? UNTOLD[kind] : undefined;
    if (why !== undefined) return { kind: 'untold', why };
    return { kind: 'counted', notices: swept.notices.get(kind) ?? 0, joined: swept.joined.get(kind) ?? 0 };
  };
  return {
    kinds: NOTICE_KINDS.map((kind) => ({
      kind,
      said: saidOf(kind),
      raised: raised.filter((notice) => notice.kind === kind).length,
    })).filter(({ kind, raised: really }) => kind !== 'many' || really > 0 || swept.notices.has(kind)),
    people: [...swept.told].map(([person, notices]) => ({ person, notices })),
    nobody: swept.nobody,
  };
}

/** What would have to be known of each moment, and is not recorded. */
const UNTOLD: Readonly<Partial<Record<NoticeKind, UntoldWhy>>> = {
  rejects: 'rejects',
  loose: 'loose',
  rate: 'crewTag',
  server: 'server',
  disk: 'disk',
  clock: 'clock',
};

/** The shift that goes on, apart from the fold that counts on in it. */
function shiftNow({ shift }: Readonly<FoldState>): ShiftRecord {
  return { ...shift, minutes: [...shift.minutes], gaps: [...shift.gaps] };
}

/** What was to be made a minute at a moment, by the size that ran, who loaded and the targets said by then. */
function targetsOf(
  records: Records,
  live: LiveLine,
  { to, runs }: Pick<TriedKindsAsked, 'to' | 'runs'>,
): OutputAsked['targetAt'] {
  const { index } = live.fold();
  const said = <Kind extends 'entry' | 'order'>(kind: Kind, subject: string) =>
    records.newestOf({ line: index.line.id, kind, subject }, to, SAID_MOST);
  const changes = [
    ...crewChanges(index, said('entry', CREW), said('order', CREW)),
    ...targetChanges(said('entry', TARGET)),
  ];
  return (at) => {
    const size = runs.findLast(({ run }) => run.from <= at)?.run.size ?? null;
    return targetThen(index, changes, size, at).perMinute;
  };
}

/** Stops of a run as its stations had them; how long the line had run by each is summed from stop to stop. */
function runThen(live: LiveLine, { run, judged }: TriedKindsAsked['runs'][number]): RunThen {
  const ran = new Map<string, { readonly ran: Span; readonly end: Instant | null }>();
  let stood = 0;
  for (const { id, begin, end } of run.stops) {
    ran.set(id, { ran: Math.max(0, begin - run.from - stood) as Span, end });
    stood += (end ?? begin) - begin;
  }
  const stops = live.line.stations.flatMap(({ id: station }) =>
    recentStops(run, station, 0 as Instant).map((stop) => ({ ...stop, ...ran.get(stop.id)!, station })),
  );
  return { to: run.to, size: run.size, judged, stops };
}

async function gently<Made>(work: Generator<unknown, Made>, gone: AbortSignal): Promise<Made> {
  for (let began = performance.now(); ; ) {
    const next = work.next();
    if (next.done) return next.value;
    if (performance.now() - began < TURN_MS) continue;
    await setImmediate();
    gone.throwIfAborted();
    began = performance.now();
  }
}
