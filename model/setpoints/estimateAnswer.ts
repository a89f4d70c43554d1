import type { AdjustmentEstimate, CostAt, EstimateAsked, SettingMark, Span } from './estimate.ts';
import { added } from './estimateChain.ts';
import type { Drawn } from './estimateColumns.ts';
import type { Evidence, Scale } from './estimateEvidence.ts';
import { sureness, togetherWith, tried, type Tried } from './estimateSure.ts';
import { teaches } from './estimateTeaches.ts';
import { WEIGHTS } from './estimateWeights.ts';

/** A number that is followed stands about it by so many widths, by eyes and by lots. */
export const followedBlur = () => WEIGHTS.followedWith ** 2 + WEIGHTS.lotMoves ** 2;
/** Mean distance of a normal number from its mean, in standard deviations. */
const MEAN_DISTANCE = Math.sqrt(2 / Math.PI);
/** No number is recommended farther than this beyond what was tried, in widths, and no cost drawn. */
const BEYOND = 1;
const DRAWN_BEYOND = 0.5;
const GRID_MOST = 160;
const COST_MOST = 41;

export function readChain(
  asked: EstimateAsked,
  evidence: Evidence,
  chain: readonly Drawn[],
): readonly AdjustmentEstimate[] {
  const seen = evidence.scales.map((_, place) => tried(asked.stretches, place));
  const best = evidence.scales.map((scale, place) => leastAt(scale, place, seen[place]!, chain));
  return evidence.scales.map((scale, place): AdjustmentEstimate => {
    const own = seen[place]!;
    const together = togetherWith(asked, place);
    const range = rangeOf(scale, place, chain);
    const sure = sureness({ scale, tried: own, range, recommended: best[place]!, together });
    const says = sure !== 'cannotSay' && sure !== 'neverVaried';
    return {
      number: scale.facts.number,
      recommended: sure === 'cannotSay' ? undefined : says ? best[place]! : own.marks[0]?.at,
      range90: says ? range : undefined,
      ranWell: ranWell(own, best[place]!),
      sure,
      ...{ runs: own.runs, settings: own.marks.length, lots: own.lots, marks: own.marks },
      cost: costs({ asked, evidence, chain, best, place, tried: own }),
      togetherWith: together,
      teaches: teaches({ scale, place, tried: own, recommended: best[place]!, chain, sure, together }),
      besideBook: says ? besideBook(scale, place, chain) : undefined,
    };
  });
}

export function onStep({ min, max, step }: Scale['facts'], value: number): number {
  const bounded = Math.min(max, Math.max(min, value));
  const on = Math.round(bounded / step) * step;
  const inside = on > max ? on - step : on < min ? on + step : on;
  return Number(inside.toFixed(6));
}

/** Numbers of the scale from so far below to so far above what was tried, no more than so many. */
function grid(
  { facts, width, middle }: Scale,
  { marks }: Tried,
  beyond: number,
  most: number,
): readonly number[] {
  const places = marks.length > 0 ? marks.map(({ at }) => at) : [middle];
  const from = onStep(facts, Math.min(...places) - beyond * width);
  const to = onStep(facts, Math.max(...places) + beyond * width);
  const steps = Math.round((to - from) / facts.step);
  const by = Math.max(1, Math.ceil(steps / (most - 1)));
  const numbers: number[] = [];
  for (let step = 0; step <= steps; step += by) numbers.push(onStep(facts, from + step * facts.step));
  return numbers;
}

/** The number of the least expected loss: not where it is likeliest best, as being off to one side may cost more. */
function leastAt(scale: Scale, place: number, seen: Tried, chain: readonly Drawn[]): number {
  let least = Infinity;
  let best = onStep(scale.facts, scale.middle);
  for (const number of grid(scale, seen, BEYOND, GRID_MOST)) {
    let sum = 0;
    for (const drawn of chain) sum += Math.exp(drawn.logLevel) * addedAt(scale, place, drawn, number);
    if (sum < least) [least, best] = [sum, number];
  }
  return best;
}

/** What a number that is followed adds to one, in one draw. */
export function addedAt({ middle, width }: Scale, place: number, drawn: Drawn, number: number): number {
  const off = (number - middle) / width - drawn.best[place]!;
  return added(off, followedBlur(), drawn.logSize[place]!, drawn.tilt[place]!);
}

/** Where a draw is best for a number that is followed, in widths: away from the side that costs more. */
export function bestFollowed(drawn: Drawn, place: number): number {
  return drawn.best[place]! - MEAN_DISTANCE * Math.sqrt(followedBlur()) * drawn.tilt[place]!;
}

function rangeOf(scale: Scale, place: number, chain: readonly Drawn[]): Span {
  const sorted = chain.map((drawn) => bestFollowed(drawn, place)).sort((a, b) => a - b);
  const at = (share: number) => sorted[Math.round(share * (sorted.length - 1))]!;
  const half = at(0.5);
  const number = (share: number) =>
    onStep(scale.facts, scale.middle + scale.width * (half + WEIGHTS.rangeTimes * (at(share) - half)));
  return { from: number(0.05), to: number(0.95) };
}

function besideBook({ facts, middle, width }: Scale, place: number, chain: readonly Drawn[]) {
  if (facts.book === undefined) return undefined;
  const bests = chain.map((drawn) => bestFollowed(drawn, place));
  const mean = bests.reduce((sum, one) => sum + one, 0) / bests.length;
  const variance = bests.reduce((sum, one) => sum + (one - mean) ** 2, 0) / bests.length;
  return { offset: middle + width * mean - facts.book, spread: width * Math.sqrt(variance) };
}

/** Beside the setting that lies nearest to what is recommended, as long as none is worse than usual by more than chance brings. */
function ranWell({ marks, usual }: Tried, recommended: number): Span | undefined {
  const well = marks.map((mark) => isWell(mark, usual));
  let nearest = -1;
  marks.forEach(({ at }, place) => {
    const closer = nearest < 0 || Math.abs(at - recommended) < Math.abs(marks[nearest]!.at - recommended);
    if (well[place] && closer) nearest = place;
  });
  if (nearest < 0) return undefined;
  let from = nearest;
  while (from > 0 && well[from - 1]) from -= 1;
  let to = nearest;
  while (to < marks.length - 1 && well[to + 1]) to += 1;
  return { from: marks[from]!.at, to: marks[to]!.at };
}

/** A few runs say little: as if two usual ones had been beside them. */
function isWell({ runs, rejectsPerThousand }: SettingMark, usual: number): boolean {
  return (runs * rejectsPerThousand + 2 * usual) / (runs + 2) <= 1.1 * usual;
}

interface CostAsked {
  readonly asked: EstimateAsked;
  readonly evidence: Evidence;
  readonly chain: readonly Drawn[];
  readonly best: readonly number[];
  readonly place: number;
  readonly tried: Tried;
}

function costs({ asked, evidence, chain, best, place, tried: seen }: CostAsked): readonly CostAt[] {
  const { scales } = evidence;
  const { rejects, stops } = shares(asked);
  const drawn = chain.filter((_, at) => at % 2 === 0);
  const others = drawn.map((one) =>
    scales.reduce(
      (sum, scale, other) => (other === place ? sum : sum + addedAt(scale, other, one, best[other]!)),
      1,
    ),
  );
  return grid(scales[place]!, seen, DRAWN_BEYOND, COST_MOST).map((at) => {
    const risks = drawn.map(
      (one, which) =>
        1000 * Math.exp(one.logLevel) * (others[which]! + addedAt(scales[place]!, place, one, at)),
    );
    const mean = risks.reduce((sum, risk) => sum + risk, 0) / risks.length;
    risks.sort((a, b) => a - b);
    const lost = rejects * asked.lostPerReject + stops * asked.lostPerStop;
    return {
      at,
      rejectsPerThousand: rejects * mean,
      low: rejects * risks[Math.round(0.05 * (risks.length - 1))]!,
      high: rejects * risks[Math.round(0.95 * (risks.length - 1))]!,
      stopsPerThousand: stops * mean,
      lostPerRun: (asked.cartonsPerRun / 1000) * mean * lost,
    };
  });
}

/** Of what goes wrong at the station, how much are rejects and how much stops. */
function shares({ stretches }: EstimateAsked): { readonly rejects: number; readonly stops: number } {
  const spoiled = stretches.reduce((sum, one) => sum + one.spoiled, 0);
  const stops = stretches.reduce((sum, one) => sum + one.stops, 0);
  const all = spoiled + stops;
  return all > 0 ? { rejects: spoiled / all, stops: stops / all } : { rejects: 1, stops: 0 };
}
