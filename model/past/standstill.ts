import type { LineIndex } from '../fold/lineIndex.ts';
import { type Change, byLineTime } from '../signals/signals.ts';
import { severity } from '../status/status.ts';
import {
  between,
  type EpochMs,
  epochMs,
  type Instant,
  type Millis,
  millis,
  type Span,
  seconds,
} from '../units/units.ts';
import type { Use } from './uses.ts';

/**
 * How long the machine was seen to go on after it was stopped: the last cycle that was counted came so long after, and a
 * cycle took `cycle` before. Indicative: what moves without finishing a cycle is not counted. It is no stopping-time test.
 */
export interface Standstill {
  /** When it was stopped so. */
  readonly at: EpochMs;
  /** 0 where no cycle was counted any more. */
  readonly last: Millis;
  readonly cycle: Millis;
}

/** What has to be read to see it: changes of a stretch of line time. */
export interface StandstillAsked {
  /** Id of the device or guard. */
  readonly of: string;
  readonly at: Instant;
  readonly from: Instant;
  readonly to: Instant;
}

/** Cycles are looked at from so long before; later than so long after, what moves is no running down any more. */
const BEFORE = seconds(15);
const AFTER = seconds(15);
/** Fewer cycles before do not tell how long one took. */
const CYCLES_LEAST = 3;

/** Of each device and guard the newest use in [from, to) that stopped a machine that ran. */
export function standstillsAsked(
  uses: readonly Use[],
  { from, to }: { readonly from: Instant; readonly to: Instant },
): readonly StandstillAsked[] {
  const newest = new Map<string, Use>();
  for (const use of uses)
    if (use.role === 'caused' && use.owned && use.at >= from && use.at < to) newest.set(use.of, use);
  return [...newest.values()].map(({ of, at, released, restarted }) => ({
    of,
    at,
    from: (at - BEFORE) as Instant,
    to: Math.min(at + AFTER, released ?? Infinity, restarted ?? Infinity) as Instant,
  }));
}

/** Undefined where it was not seen: no cycles are bound, or too few were counted before. */
export function standstillOf(
  { cycleSignal }: Pick<LineIndex, 'cycleSignal'>,
  { at, from, to }: StandstillAsked,
  changes: readonly Change[],
): Standstill | undefined {
  if (cycleSignal < 0) return undefined;
  const told = changes
    .filter((change) => change.signal === cycleSignal && change.at >= from && change.at < to)
    .sort(byLineTime);
  if (told.some(({ status }) => severity(status) === 'bad')) return undefined;
  const moved = told.filter(({ value }, place) => place > 0 && value !== told[place - 1]!.value);
  const before = moved.filter((change) => change.at <= at);
  const [first, newest] = [before[0], before.at(-1)];
  if (!first || !newest || before.length <= CYCLES_LEAST) return undefined;
  const counted = Number(newest.value) - Number(first.value);
  if (counted < CYCLES_LEAST) return undefined;
  const last = moved.findLast((change) => change.at > at);
  return {
    at: epochMs(at),
    last: last ? millis(between(at, last.at)) : (0 as Millis),
    cycle: millis(Math.round(between(first.at, newest.at) / counted) as Span),
  };
}
