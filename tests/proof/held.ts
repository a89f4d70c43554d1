import { held, type HeldRun, LOOKS } from '../../model/past/held.ts';
import type { Instant } from '../../model/units/units.ts';
import { fastRuns } from '../../simulator/fast/fast.ts';
import { batched, stationIds } from './fastEvidence.ts';
import { families } from './normal.ts';

/** Changes at every station of one simulated line, of which none changed anything: of how many it was said that they did. */
export interface HeldRow {
  readonly proof: 'held';
  readonly levels: keyof typeof families;
  /** Made at any time, or after the worst run of the last few, as people do. */
  readonly made: (typeof MADE)[number];
  readonly measure: 'stops' | 'rejects';
  /** Of what came after so much is left: 1 where the change did nothing. */
  readonly left: number;
  readonly seed: number;
  readonly changes: number;
  readonly fewer: number;
  readonly more: number;
  /** The rows together are asked by `held.test.ts`; one row says nothing by itself. */
  readonly equal: true;
}

export const MADE = ['anyTime', 'afterTheWorst'] as const;
export const HELD_SEEDS = 8;
const LEFT = [1, 0.3] as const;
/** Runs before a change, and after it. */
const BEFORE = 20;
const AFTER = 3 * LOOKS.at(-1)!;
const RUNS = 360;
const WORST_OF = 5;

export function* heldProof(): Generator<HeldRow> {
  for (const levels of Object.keys(families) as (keyof typeof families)[])
    for (let seed = 1; seed <= HELD_SEEDS; seed += 1) yield* heldRows(levels, seed);
}

export function heldRows(levels: keyof typeof families, seed: number): readonly HeldRow[] {
  const runs = runsOf(levels, seed);
  return (['stops', 'rejects'] as const).flatMap((measure) =>
    MADE.flatMap((made) =>
      LEFT.map((left): HeldRow => {
        const sums = { changes: 0, fewer: 0, more: 0 };
        const draw = drawsFrom(seed * 7919 + LEFT.indexOf(left));
        for (const station of stationIds) {
          const own = runs.map((run): HeldRun => ({ ...run, ...run[measure].get(station)! }));
          for (let place = BEFORE; place + AFTER < own.length; place += 40)
            judge(own, made === 'anyTime' ? place : afterWorst(own, place), { measure, left, draw, sums });
        }
        return { proof: 'held', levels, made, measure, left, seed, ...sums, equal: true };
      }),
    ),
  );
}

interface Judging {
  readonly measure: HeldRow['measure'];
  readonly left: number;
  readonly draw: () => number;
  readonly sums: { changes: number; fewer: number; more: number };
}

/** What is said at any look counts, as on a screen that is looked at each day. */
function judge(own: readonly HeldRun[], place: number, { measure, left, draw, sums }: Judging): void {
  const before = own.slice(place - BEFORE, place + 1);
  const after = own.slice(place + 1, place + 1 + AFTER).map((run) => thinned(run, left, draw));
  // made while the run at `place` ran
  const at = ((own[place]!.from + own[place]!.to) / 2) as Instant;
  // between its looks the answer stays as it was: what is said at any of them counts
  const sizes = new Set(before.slice(0, -2).map(({ size }) => size));
  const alike = after.flatMap(({ size }, nth) => (sizes.has(size) ? [nth + 1] : []));
  const verdicts = LOOKS.map((look) => alike[look - 1] ?? 0).map(
    (looked) => held({ measure, at, runs: [...before, ...after.slice(0, looked)], others: [] }).verdict,
  );
  sums.changes += 1;
  if (verdicts.includes('fewer')) sums.fewer += 1;
  if (verdicts.includes('more')) sums.more += 1;
}

/** The run after which somebody would do something: the worst of the last few, by its rate. */
function afterWorst(own: readonly HeldRun[], place: number): number {
  const last = own.slice(place - WORST_OF + 1, place + 1);
  const rates = last.map(({ count, of }) => count / Math.max(1, of));
  return place - WORST_OF + 1 + rates.indexOf(Math.max(...rates));
}

function thinned(run: HeldRun, left: number, draw: () => number): HeldRun {
  if (left === 1) return run;
  let count = 0;
  for (let one = 0; one < run.count; one += 1) if (draw() < left) count += 1;
  return { ...run, count };
}

function runsOf(levels: keyof typeof families, seed: number) {
  const told = [];
  for (const run of fastRuns({ seed: 23_000 + seed, levels: families[levels] })) {
    const { size, from, to, all } = batched(run);
    told.push({
      ...{ size, crew: null, lot: null, stops: all.stops, rejects: all.rejects },
      ...{ from: Math.round(from * 1000) as Instant, to: Math.round(to * 1000) as Instant },
    });
    if (told.length >= RUNS) break;
  }
  return told;
}

function drawsFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 4_294_967_296;
  };
}
