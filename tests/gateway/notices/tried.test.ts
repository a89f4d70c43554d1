import { describe, expect, it } from 'vitest';
import { begunOf } from '../../../gateway/api/pastAsked.ts';
import type { LiveLine } from '../../../gateway/live/liveLine.ts';
import { rejectsGrown, runsWithStops, stopsAsked } from '../../../gateway/notices/stationEvidence.ts';
import { triedOf } from '../../../gateway/notices/tried.ts';
import type { Records } from '../../../gateway/records/records.ts';
import type { StopRecord } from '../../../model/fold/state.ts';
import { targetTenths } from '../../../model/fold/target.ts';
import { budgetOf } from '../../../model/notices/budget.ts';
import { FIRST_SETTINGS } from '../../../model/notices/settings.ts';
import { type JudgedRun, triedRows } from '../../../model/notices/triedRows.ts';
import { after, epochMs, type Instant, type Span } from '../../../model/units/units.ts';
import type { StopsAsked } from '../../../model/watch/repeated.ts';
import { isBackToNormal, judgeStops } from '../../../model/watch/repeatedStops.ts';
import { line, runsWith, standing } from './jammed.ts';

/** Each stop judged by itself, from its run's beginning on: of what is remembered nothing is used. */
function judgedPlainly(records: Records, live: LiveLine): readonly JudgedRun[] {
  const { index, state } = live.fold();
  const to = after(live.now(), 1 as Span);
  const runs = runsWithStops(records, live, to, begunOf(records, live, { to }));
  return runs.flatMap((run, place) => {
    const rejects = rejectsGrown(records, live, run);
    const cartonsPerShift = 48 * targetTenths({ index, state: { ...state, size: run.size } });
    return line.stations.flatMap(({ id }): readonly JudgedRun[] => {
      const parts = { after: 0 as Instant, cartonsPerShift, rejects };
      const { kept: _kept, ...asked } = stopsAsked(runs.slice(0, place + 1), id, parts)!;
      const looks = asked.recent.flatMap((stop, last) => {
        const then: StopsAsked = {
          ...asked,
          recent: asked.recent.slice(0, last + 1),
          nowCartons: stop.cartons,
          rejects: asked.rejects?.filter(({ cartons }) => cartons <= stop.cartons),
        };
        const said = judgeStops(then);
        if (said.kind !== 'judged') return [];
        const rested = last > 0 && isBackToNormal({ ...then, recent: asked.recent.slice(0, last) });
        return [{ at: stop.at, onceInShifts: said.onceInShifts / line.stations.length, rested }];
      });
      return looks.length > 0 ? [{ station: id, looks }] : [];
    });
  });
}

function rowsPlainly(records: Records, live: LiveLine) {
  return triedRows({
    ...{ from: 0 as Instant, to: live.now(), seen: 0 as Span, shifts: 0, raised: [] },
    ...{ inUse: 5, budgets: [1, 5, 10, 20, 50], runs: judgedPlainly(records, live) },
    levelOf: (budget) =>
      budgetOf(budget, line.stations.length, FIRST_SETTINGS.when.rejects.on).stopsOnceInShifts,
  }).rows.map(({ notices, missed, later }) => ({ notices, missed, later }));
}

const rowsOf = async (records: Records, live: LiveLine) =>
  (await triedOf(records, live, 30)).rows.map(({ notices, missed, later }) => ({ notices, missed, later }));

function stopAt(records: Records, live: LiveLine, at: number): StopRecord {
  return records
    .ask({ line: line.id, kind: 'stop', from: 0 as Instant, to: live.now() })
    .find(({ begin }) => epochMs(begin) === at)!;
}

/** Questions for what was counted minute by minute, which is what judging a run begins with. */
function countingMinutes(records: Records): () => number {
  let asked = 0;
  const ask = records.ask.bind(records);
  Object.assign(records, {
    ask: (question: Parameters<Records['ask']>[0]) => {
      if (question.kind === 'minute') asked += 1;
      return ask(question);
    },
  });
  return () => asked;
}

describe('what other budgets would have done', () => {
  it('is what each stop comes to that is judged by itself, whatever was worked out of the stops before it', async () => {
    const { live, records } = await standing(runsWith(3, 2, 4, 3, 2, 12, 3, 40));
    const rows = await rowsOf(records, live);
    expect(rows[0]!.notices.length).toBeGreaterThan(2);
    expect(rows).toEqual(rowsPlainly(records, live));
  });

  it('gives way while a run of many stops is judged', async () => {
    const { live, records } = await standing(runsWith(3, 2, 4, 3, 120));
    let [turns, done] = [0, false];
    const turn = () => {
      turns += 1;
      if (!done) setImmediate(turn);
    };
    setImmediate(turn);
    await triedOf(records, live, 30);
    done = true;
    // ten runs, three stations in each; and at least every tenth of the stops
    expect(turns).toBeGreaterThan(10 + 30 + 12);
  });

  it('is worked out once of runs that are over, and anew when a record of theirs has become another', async () => {
    const { live, records } = await standing(runsWith(3, 2, 4, 3, 30, 2));
    const minutes = countingMinutes(records);
    const first = await rowsOf(records, live);
    const asked = minutes();
    expect(await rowsOf(records, live)).toEqual(first);
    // of the run that is on
    expect(minutes() - asked).toBe(1);
    const [called] = first[0]!.notices;
    const { id, begin: at } = stopAt(records, live, called!.at);
    records.write(records.edition(line.id)!, [{ kind: 'drop', of: 'stop', at, id }], 0);
    const anew = await rowsOf(records, live);
    expect(anew).not.toEqual(first);
    expect(anew).toEqual(rowsPlainly(records, live));
  });

  it('of a run whose records change while others are judged nothing is remembered', async () => {
    const { live, records } = await standing(runsWith(3, 2, 4, 3, 30, 2));
    const [called] = rowsPlainly(records, live)[0]!.notices;
    const { id, begin: at } = stopAt(records, live, called!.at);
    const meanwhile = triedOf(records, live, 30);
    records.write(records.edition(line.id)!, [{ kind: 'drop', of: 'stop', at, id }], 0);
    await meanwhile;
    const rows = await rowsOf(records, live);
    expect(rows[0]!.notices[0]).not.toEqual(called);
    expect(rows).toEqual(rowsPlainly(records, live));
  });
});
