import { setImmediate } from 'node:timers/promises';
import { targetTenths } from '../../model/fold/target.ts';
import { budgetOf } from '../../model/notices/budget.ts';
import { FIRST_SETTINGS } from '../../model/notices/settings.ts';
import type { Tried } from '../../model/notices/tried.ts';
import { type JudgedRun, triedRows } from '../../model/notices/triedRows.ts';
import { after, type Instant, minutes, type Span } from '../../model/units/units.ts';
import type { StopsAsked } from '../../model/watch/repeated.ts';
import { isBackToNormal, judgeStops } from '../../model/watch/repeatedStops.ts';
import { begunOf, gapsIn, recordsIn } from '../api/pastAsked.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Records } from '../records/records.ts';
import { noticesIn } from './noticesPast.ts';
import { rejectsGrown, type RunWithStops, runsWithStops, stopsAsked } from './stationEvidence.ts';

/** Budgets that are held beside the one in use: one false notice in so many shifts of the line. */
const BUDGETS = [1, 5, 10, 20, 50] as const;
const SHIFT_MINUTES = 480;

/** What settings would have done in so many days: every stop of every station judged again, by what was known then. Gives way between runs. */
export async function triedOf(records: Records, live: LiveLine, days: number): Promise<Tried> {
  const { index, state } = live.fold();
  const to = after(live.now(), 1 as Span);
  const begun = begunOf(records, live, { to });
  const from = Math.max(begun, to - minutes(days * 24 * 60)) as Instant;
  const runs = runsWithStops(records, live, to, begun);
  const judged: JudgedRun[] = [];
  for (const [place, run] of runs.entries()) {
    if (run.to <= from) continue;
    judged.push(...judgedRuns(records, live, runs.slice(0, place + 1)));
    await setImmediate();
  }
  const { when } = state.noticeSettings?.settings ?? FIRST_SETTINGS;
  const inUse = when.stops.falseOnceInShifts;
  const of = recordsIn(records, index.line.id, { from, to });
  const unseen = gapsIn(records, live, { from, to })
    .filter(({ kind }) => kind === 'unknown')
    .reduce((sum, gap) => sum + Math.min(gap.to, to) - Math.max(gap.from, from), 0);
  return triedRows({
    ...{ from, to, inUse, runs: judged },
    shifts: of('shift').filter(({ shift }) => shift !== null && shift.from >= from).length,
    seen: (to - from - unseen) as Span,
    budgets: [...new Set([...BUDGETS, inUse])],
    levelOf: (budget) => budgetOf(budget, index.line.stations.length, when.rejects.on).stopsOnceInShifts,
    raised: noticesIn(records, live, days),
  });
}

/** The newest of some runs, station by station, at each of its stops as it was then. */
function judgedRuns(records: Records, live: LiveLine, runs: readonly RunWithStops[]): readonly JudgedRun[] {
  const { index, state } = live.fold();
  const run = runs.at(-1)!;
  const rejects = rejectsGrown(records, live, run);
  const cartonsPerShift = (SHIFT_MINUTES * targetTenths({ index, state: { ...state, size: run.size } })) / 10;
  return index.line.stations.flatMap(({ id }): readonly JudgedRun[] => {
    const asked = stopsAsked(runs, id, { after: 0 as Instant, cartonsPerShift, rejects });
    const looks = asked && asked.recent.length > 0 ? looksOf(asked, index.line.stations.length) : [];
    return looks.length > 0 ? [{ station: id, looks }] : [];
  });
}

function looksOf(asked: StopsAsked, stations: number): JudgedRun['looks'] {
  return asked.recent.flatMap((stop, place) => {
    const then: StopsAsked = {
      ...asked,
      recent: asked.recent.slice(0, place + 1),
      nowCartons: stop.cartons,
      rejects: asked.rejects?.filter(({ cartons }) => cartons <= stop.cartons),
    };
    const before: StopsAsked = {
      ...then,
      recent: asked.recent.slice(0, place),
      rejects: then.rejects,
    };
    const said = judgeStops(then);
    if (said.kind !== 'judged') return [];
    return [
      {
        at: stop.at,
        onceInShifts: said.onceInShifts / stations,
        rested: place > 0 && isBackToNormal(before),
      },
    ];
  });
}
