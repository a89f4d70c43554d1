import type { EstimateAsked, SettingMark, SettledStretch, Span, Sureness } from './estimate.ts';
import type { Scale } from './estimateEvidence.ts';

/** What was tried of one adjustment. */
export interface Tried {
  readonly runs: number;
  readonly lots: number;
  /** By setting, ascending. */
  readonly marks: readonly SettingMark[];
  /** Rejects of the station in a thousand, in all stretches in which it is known where the adjustment stood. */
  readonly usual: number;
}

export function tried(stretches: readonly SettledStretch[], place: number): Tried {
  const known = stretches.filter(({ settings, cartons }) => settings[place] && cartons > 0);
  const perThousand = (some: readonly SettledStretch[]) =>
    (1000 * some.reduce((sum, one) => sum + one.spoiled, 0)) /
    some.reduce((sum, one) => sum + one.cartons, 0);
  const values = [...new Set(known.map(({ settings }) => settings[place]!.value))].sort((a, b) => a - b);
  const marks = values.map((at) => {
    const here = known.filter(({ settings }) => settings[place]!.value === at);
    return { at, runs: new Set(here.map(({ run }) => run)).size, rejectsPerThousand: perThousand(here) };
  });
  return {
    runs: new Set(known.map(({ run }) => run)).size,
    lots: new Set(known.flatMap(({ lot }) => lot ?? [])).size,
    marks,
    usual: known.length > 0 ? perThousand(known) : 0,
  };
}

export interface SureAsked {
  readonly scale: Scale;
  readonly tried: Tried;
  readonly range: Span;
  readonly recommended: number;
  readonly together: readonly string[];
}

/** Runs, settings, how long the range may be and by how much it may go beyond what was tried (in widths), runs on each side. */
const SURE = { runs: 12, settings: 4, widths: 1.2, beyond: 0, side: 2 } as const;
const FAIRLY = { runs: 7, settings: 3, widths: 2, beyond: 0.3, side: 1 } as const;
const LEAST_RUNS = 3;

/** [SB4] By runs, by distinct settings, and by whether both sides were tried; never by cartons. */
export function sureness({
  scale,
  tried: { runs, marks },
  range,
  recommended,
  together,
}: SureAsked): Sureness {
  if (runs < LEAST_RUNS) return 'cannotSay';
  if (marks.length < 2) return 'neverVaried';
  const sides = [
    marks.filter(({ at }) => at < recommended).reduce((sum, one) => sum + one.runs, 0),
    marks.filter(({ at }) => at > recommended).reduce((sum, one) => sum + one.runs, 0),
  ];
  const widths = (range.to - range.from) / scale.width;
  const beyond = Math.max(marks[0]!.at - range.from, range.to - marks.at(-1)!.at) / scale.width;
  const is = (level: typeof SURE | typeof FAIRLY) =>
    runs >= level.runs &&
    marks.length >= level.settings &&
    widths <= level.widths &&
    beyond <= level.beyond + 1e-9 &&
    Math.min(...sides) >= level.side &&
    together.length === 0;
  return is(SURE) ? 'sure' : is(FAIRLY) ? 'fairlySure' : 'thin';
}

const TOGETHER_LEAST = 4;
/** A correlation that is at least this, seen from its far side in one of twenty cases. */
const TOGETHER = 0.6;
const FAR_SIDE = 1.645;

/** [SB5] Adjustments that moved with this one: as their settings are read with errors, they lie about a line, and not on it. */
export function togetherWith({ adjustments, stretches }: EstimateAsked, place: number): readonly string[] {
  return adjustments.flatMap(({ number }, other) => {
    if (other === place) return [];
    const pairs = stretches.flatMap(({ settings }) => {
      const [one, two] = [settings[place], settings[other]];
      return one && two ? [[one.value, two.value] as const] : [];
    });
    const distinct = new Set(pairs.map((pair) => pair.join(' '))).size;
    return distinct >= TOGETHER_LEAST && leastCorrelation(pairs) >= TOGETHER ? [number] : [];
  });
}

/** The lower limit of a correlation, whatever its sign, by Fisher's transformation (1921). */
function leastCorrelation(pairs: readonly (readonly [number, number])[]): number {
  if (pairs.length <= 3) return 0;
  const seen = Math.min(1 - 1e-9, Math.abs(correlation(pairs)));
  return Math.tanh(Math.atanh(seen) - FAR_SIDE / Math.sqrt(pairs.length - 3));
}

function correlation(pairs: readonly (readonly [number, number])[]): number {
  const mean = (of: 0 | 1) => pairs.reduce((sum, pair) => sum + pair[of], 0) / pairs.length;
  const [one, two] = [mean(0), mean(1)];
  const product = (a: 0 | 1, b: 0 | 1) =>
    pairs.reduce((sum, pair) => sum + (pair[a] - (a ? two : one)) * (pair[b] - (b ? two : one)), 0);
  const spread = Math.sqrt(product(0, 0) * product(1, 1));
  return spread > 0 ? product(0, 1) / spread : 0;
}
