import { setImmediate } from 'node:timers/promises';
import { targetTenths } from '../../model/fold/target.ts';
import { budgetOf } from '../../model/notices/budget.ts';
import { FIRST_SETTINGS, type NoticeSettings } from '../../model/notices/settings.ts';
import { NOBODY_SHUT_OFF, type ShutOff } from '../../model/notices/shutOff.ts';
import type { Tried } from '../../model/notices/tried.ts';
import { type JudgedLook, type JudgedRun, triedRows } from '../../model/notices/triedRows.ts';
import { after, type Instant, minutes, type Span } from '../../model/units/units.ts';
import type { StopsAsked } from '../../model/watch/repeated.ts';
import { KeptPart } from '../../model/watch/repeatedKept.ts';
import { isBackToNormal, judgeStops } from '../../model/watch/repeatedStops.ts';
import { begunOf, gapsIn, recordsIn } from '../api/pastAsked.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Records } from '../records/records.ts';
import { noticesIn } from './noticesPast.ts';
import {
  grownBy,
  hoursOf,
  pastOf,
  type RunWithStops,
  runsWithStops,
  stopsAsked,
  talliesIn,
} from './stationEvidence.ts';
import { triedKindsOf } from './triedKinds.ts';

/** Budgets that are held beside the one in use: one false notice in so many shifts of the line. */
const BUDGETS = [1, 5, 10, 20, 50] as const;
const SHIFT_MINUTES = 480;

/**
 * What settings would have done in so many days: every stop of every station judged again, by what was known then. The gateway
 * does what else is to be done between every few of them.
 */
export async function triedOf(
  records: Records,
  live: LiveLine,
  days: number,
  { shutOff = NOBODY_SHUT_OFF, gone = NEVER_GONE, drafted }: TriedParts = {},
): Promise<Tried> {
  const { index, state } = live.fold();
  const settings = drafted ?? state.noticeSettings?.settings ?? FIRST_SETTINGS;
  const to = after(live.now(), 1 as Span);
  const begun = begunOf(records, live, { to });
  const from = Math.max(begun, to - minutes(days * 24 * 60)) as Instant;
  const runs = runsWithStops(records, live, to, begun);
  // all of them before the first is judged: records may change meanwhile, and what they change is forgotten even half judged
  const toJudge = runs.flatMap((run, place) =>
    run.to <= from ? [] : [toJudgeOf(records, live, runs.slice(0, place + 1), run.to < to)],
  );
  const judged: { readonly run: RunWithStops; readonly judged: readonly JudgedRun[] }[] = [];
  for (const one of toJudge) {
    one.known.looks ??= await judgedRuns(records, live, one);
    judged.push({ run: one.runs.at(-1)!, judged: one.known.looks });
    await setImmediate();
    gone.throwIfAborted();
  }
  const raised = noticesIn(records, live, days);
  const { when } = settings;
  const inUse = when.stops.falseOnceInShifts;
  const of = recordsIn(records, index.line.id, { from, to });
  const unseen = gapsIn(records, live, { from, to })
    .filter(({ kind }) => kind === 'unknown')
    .reduce((sum, gap) => sum + Math.min(gap.to, to) - Math.max(gap.from, from), 0);
  const rows = triedRows({
    ...{ from, to, inUse, raised, runs: judged.flatMap((one) => one.judged) },
    shifts: of('shift').filter(({ shift }) => shift !== null && shift.from >= from).length,
    seen: (to - from - unseen) as Span,
    budgets: [...new Set([...BUDGETS, inUse])],
    levelOf: (budget) => budgetOf(budget, index.line.stations.length, when.rejects.on).stopsOnceInShifts,
  });
  const ofKinds = await triedKindsOf(records, live, {
    ...{ from, to, settings, raised, shutOff, gone, runs: judged },
  });
  return { ...rows, ofKinds };
}

export interface TriedParts {
  readonly shutOff?: ShutOff;
  /** Nobody waits for the answer any more. */
  readonly gone?: AbortSignal;
  /** Settings that nobody has saved, as if they were in use. */
  readonly drafted?: NoticeSettings | undefined;
}

const NEVER_GONE = new AbortController().signal;

interface ToJudge {
  /** The newest is judged by the others. */
  readonly runs: readonly RunWithStops[];
  readonly cartonsPerShift: number;
  /** What came of it, once it was judged. */
  readonly known: { looks?: readonly JudgedRun[] };
}

/** A run that is over is judged once, until a record of it or of its past changes. */
function toJudgeOf(
  records: Records,
  live: LiveLine,
  runs: readonly RunWithStops[],
  isOver: boolean,
): ToJudge {
  const { index, state } = live.fold();
  const run = runs.at(-1)!;
  const cartonsPerShift = (SHIFT_MINUTES * targetTenths({ index, state: { ...state, size: run.size } })) / 10;
  if (!isOver) return { runs, cartonsPerShift, known: {} };
  const past = pastOf(runs);
  const key = `tried ${run.from} ${run.to} ${past.length} ${past[0]?.from} ${cartonsPerShift}`;
  const known = records.remember(index.line.id, key, (run.to + 1) as Instant, (): ToJudge['known'] => ({}));
  return { runs, cartonsPerShift, known };
}

/** The newest of some runs, station by station, at each of its stops as it was then. */
async function judgedRuns(
  records: Records,
  live: LiveLine,
  { runs, cartonsPerShift }: ToJudge,
): Promise<readonly JudgedRun[]> {
  const { stations } = live.fold().index.line;
  const rejects = await grownSlowly(records, live, runs.at(-1)!);
  const judged: JudgedRun[] = [];
  for (const { id } of stations) {
    await setImmediate();
    const kept = new KeptPart();
    const asked = stopsAsked(runs, id, { after: 0 as Instant, cartonsPerShift, rejects, kept });
    const looks = asked ? await looksOf(asked, stations.length) : [];
    if (looks.length > 0) judged.push({ station: id, looks });
  }
  return judged;
}

/** Not remembered by the hour: the run is looked at this once. */
async function grownSlowly(
  records: Records,
  live: LiveLine,
  run: RunWithStops,
): Promise<ReturnType<typeof grownBy>> {
  const points: (readonly number[])[] = [];
  for (const hour of hoursOf(run)) {
    points.push(...talliesIn(records, live, hour));
    await setImmediate();
  }
  return grownBy(records, live, run, points);
}

/** So many stops are judged at once, a few milliseconds at most. */
const AT_ONCE = 8;

async function looksOf(asked: StopsAsked, stations: number): Promise<JudgedRun['looks']> {
  const looks: JudgedLook[] = [];
  for (const [place, stop] of asked.recent.entries()) {
    if (place % AT_ONCE === AT_ONCE - 1) await setImmediate();
    const then: StopsAsked = {
      ...asked,
      recent: asked.recent.slice(0, place + 1),
      nowCartons: stop.cartons,
      rejects: asked.rejects?.filter(({ cartons }) => cartons <= stop.cartons),
    };
    const said = judgeStops(then);
    if (said.kind !== 'judged') return [];
    looks.push({
      at: stop.at,
      onceInShifts: said.onceInShifts / stations,
      rested: place > 0 && isBackToNormal({ ...then, recent: asked.recent.slice(0, place) }),
    });
  }
  return looks;
}
