import { type Condition, noticeKey } from '../notices/condition.ts';
import type { NoticeRules } from '../notices/settings.ts';
import type { JudgedRun } from '../notices/triedRows.ts';
import { after, epochMs, type Instant, seconds } from '../units/units.ts';
import type { Held } from './heldThen.ts';
import { isCalled, type PlainStop } from './plainRule.ts';

/** A run that is over or goes on, with what its stations did in it. */
export interface RunThen {
  readonly to: Instant;
  readonly size: string;
  readonly judged: readonly JudgedRun[];
  /** First tries of each station, in order; `end` is null while the line stands. */
  readonly stops: readonly StationStop[];
}

export interface StationStop extends PlainStop {
  readonly id: string;
  readonly station: string;
  readonly end: Instant | null;
}

/** What is said of a station at one of its stops. */
interface Call {
  readonly stop: StationStop;
  readonly facts: Condition['facts'];
  /** The call before it was over by then. */
  readonly anew: boolean;
}

/** [NT1] When stations were beyond their own normal by so rare a chance, in shifts, or met the plain rule. */
export function stopsHeld(run: RunThen, rules: NoticeRules, leastOnceInShifts: number): readonly Held[] {
  const ofRules = rules.stops.on ? run.judged : [];
  const stations = [...new Set(run.stops.map(({ station }) => station))];
  return [
    ...ofRules.flatMap((judged) => heldBy(run, rules, 'stops', byOwnNormal(run, judged, leastOnceInShifts))),
    ...(rules.stopsCounted.on ? stations : []).flatMap((station) =>
      heldBy(run, rules, 'stopsCounted', byPlainRule(run, rules, station)),
    ),
  ];
}

/** [NC1] From the end of the grace on, or of the stop where that was sooner, until it is over, or the run. */
function heldBy(
  { to, size }: RunThen,
  rules: NoticeRules,
  kind: 'stops' | 'stopsCounted',
  calls: readonly Call[],
): readonly Held[] {
  return calls.flatMap(({ stop, facts, anew }, place): readonly Held[] => {
    const { at, end, station, id } = stop;
    const grace = after(at, seconds(rules.stops.graceSeconds));
    const from = anew ? (Math.min(end ?? grace, grace) as Instant) : at;
    const next = calls[place + 1];
    // a moment apart, so that it is seen to have been over
    const until = next ? ((next.stop.at - (next.anew ? 1 : 0)) as Instant) : to;
    const condition: Condition = {
      ...{ key: noticeKey(kind, station), level: rules.levels[kind], facts },
      ...{ since: at, station, size, stop: id, look: [] },
    };
    return from < until ? [{ condition, from, to: until }] : [];
  });
}

function byOwnNormal({ stops }: RunThen, { station, looks }: JudgedRun, least: number): readonly Call[] {
  const own = new Map(stops.filter((stop) => stop.station === station).map((stop) => [stop.at, stop]));
  const calls: Call[] = [];
  let called = false;
  for (const { at, onceInShifts, rested } of looks) {
    const anew = !called || rested;
    called = (called && !rested) || onceInShifts >= least;
    const stop = own.get(at);
    if (!called || !stop) continue;
    const facts = {
      kind: 'stops',
      ...{ stops: 0, cartons: 0, from: epochMs(at), usualCartons: 0 },
      onceInShifts: Math.max(onceInShifts, least),
    } as const;
    calls.push({ stop, facts, anew });
  }
  return calls;
}

/** Stops before it was over are not held against the station again. */
function byPlainRule(
  { stops }: RunThen,
  { stopsCounted: rule }: NoticeRules,
  station: string,
): readonly Call[] {
  const calls: Call[] = [];
  let kept: StationStop[] = [];
  let called = false;
  for (const stop of stops) {
    if (stop.station !== station) continue;
    const { ran, cartons } = stop;
    if (called && !isCalled(rule, { stops: kept, ran, cartons })) {
      called = false;
      kept = [];
    }
    // of more than the rule asks for the newest decide
    kept = [...kept, stop].slice(-rule.stops);
    const met = isCalled(rule, { stops: kept, ran, cartons });
    if (!met) continue;
    const facts = { kind: 'stopsCounted', stops: met.stops, from: epochMs(met.since) } as const;
    calls.push({ stop, facts, anew: !called });
    called = true;
  }
  return calls;
}
