import type { Instant } from '../units/units.ts';
import { logSum } from './course.ts';
import { evidenceOf, type Evidence } from './evidence.ts';
import {
  actingOn,
  type Cause,
  causeKey,
  type Explanation,
  explanationsOf,
  othersAt,
} from './explanations.ts';
import { joined } from './moves.ts';
import { looksTell, type ReadFirst, readFirstOf } from './readFirst.ts';
import type { Side, SymptomKnowledge } from './symptoms.ts';
import type { Move, Troubled } from './troubled.ts';
import { type Scene, sceneOf } from './scene.ts';
import { weigh, type Weighed } from './weighing.ts';

/** What may explain a station's trouble. All chances and that of "don't know" add up to 1. */
export interface Diagnosis {
  readonly station: string;
  /** The likeliest first. */
  readonly causes: readonly RankedCause[];
  readonly dontKnow: {
    readonly chance: number;
    /** That nothing is wrong, and it was only such a day. */
    readonly nothing: number;
    /** That it is something the file does not name. */
    readonly somethingElse: number;
  };
  /** Which is said first: the likeliest cause, or that nobody can tell. */
  readonly says: 'cause' | 'dontKnow';
  /** The scales of which a reading would tell most, the best first. */
  readonly readFirst: readonly ReadFirst[];
  /** What one more person would tell who says how spoiled cartons look, in bits. */
  readonly looksTell: number;
  /** What has to be explained. */
  readonly trouble: {
    readonly since: Instant;
    readonly seen: number;
    readonly usual: number;
    readonly cartons: number;
  };
}

export interface RankedCause {
  readonly cause: Extract<Cause, { kind: 'adjustment' | 'other' }>;
  readonly chance: number;
  /** The likelier side of an adjustment, and how likely if it is this one. */
  readonly side: { readonly is: Side; readonly chance: number } | undefined;
  /** The likeliest way in which it came, how likely if it is this one, and the happening that began it. */
  readonly how: {
    readonly is: Explanation['how'];
    readonly chance: number;
    readonly at: Instant | undefined;
  };
  /** What speaks for it and against it, the strongest first. */
  readonly evidence: readonly Evidence[];
  /** Its moves in the run, the newest first, whatever they speak for. */
  readonly moves: readonly Move[];
}

/**
 * [DG1] Which of what acts on a station explains its rejects and stops, and how likely. Undefined where there is nothing to go by:
 * no carton was seen, or nothing is usual.
 */
export function diagnose(troubled: Troubled, knowledge: SymptomKnowledge): Diagnosis | undefined {
  const acting = actingOn(troubled, knowledge);
  const others = othersAt(troubled, knowledge);
  if (!troubled.cells.some(({ cartons }) => cartons > 0)) return undefined;
  const scene = sceneOf(troubled, acting, others);
  if (!(scene.usual > 0)) return undefined;
  const weighed = weigh(scene, explanationsOf(scene.troubled, acting, others));
  const chances = chancesOf(weighed);
  const causes = rankedCauses(scene, weighed, chances);
  const of = (kind: Cause['kind']) =>
    weighed.reduce(
      (sum, { explanation }, nth) => (explanation.cause.kind === kind ? sum + chances[nth]! : sum),
      0,
    );
  const [nothing, somethingElse] = [of('chance'), of('somethingElse')];
  const chance = nothing + somethingElse;
  return {
    station: troubled.station,
    causes,
    dontKnow: { chance, nothing, somethingElse },
    says: (causes[0]?.chance ?? 0) > chance ? 'cause' : 'dontKnow',
    readFirst: readFirstOf(scene, weighed, chances),
    looksTell: looksTell(scene, weighed, chances),
    trouble: troubleOf(scene),
  };
}

function chancesOf(weighed: readonly Weighed[]): readonly number[] {
  const logs = weighed.map(({ log }) => log);
  const all = logSum(logs);
  return logs.map((log) => Math.exp(log - all));
}

function rankedCauses(
  scene: Scene,
  weighed: readonly Weighed[],
  chances: readonly number[],
): readonly RankedCause[] {
  const places = new Map<string, number[]>();
  for (const [place, { explanation }] of weighed.entries()) {
    const key = causeKey(explanation.cause);
    places.set(key, [...(places.get(key) ?? []), place]);
  }
  return [...places.values()]
    .flatMap((own) => {
      const { cause } = weighed[own[0]!]!.explanation;
      return cause.kind === 'adjustment' || cause.kind === 'other'
        ? [rankedOf(scene, { weighed, chances, own, cause })]
        : [];
    })
    .sort((a, b) => b.chance - a.chance);
}

interface Ranking {
  readonly weighed: readonly Weighed[];
  readonly chances: readonly number[];
  readonly own: readonly number[];
  readonly cause: RankedCause['cause'];
}

function rankedOf(scene: Scene, { weighed, chances, own, cause }: Ranking): RankedCause {
  const sum = (is: (explanation: Explanation) => boolean) =>
    own.reduce((total, place) => (is(weighed[place]!.explanation) ? total + chances[place]! : total), 0);
  const chance = sum(() => true);
  const lead = weighed[own.reduce((best, place) => (chances[place]! > chances[best]! ? place : best))]!;
  const { side, how } = lead.explanation;
  const part = (of: number) => (chance > 0 ? of / chance : 0);
  const known = scene.acting.find(
    ({ signs }) => cause.kind === 'adjustment' && signs.number === cause.number,
  );
  return {
    cause,
    chance,
    side: side && { is: side, chance: part(sum((one) => one.side === side)) },
    how: { is: how, chance: part(sum((one) => one.how === how)), at: lead.beginning?.at },
    evidence: evidenceOf(scene, lead, weighed),
    moves: joined(known?.known.moves ?? []).toReversed(),
  };
}

function troubleOf({ troubled: { cells }, course, first }: Scene): Diagnosis['trouble'] {
  const sum = (of: readonly number[]) => of.slice(first).reduce((total, one) => total + one, 0);
  return {
    since: cells[first]!.from,
    seen: sum(course.seen),
    usual: sum(course.usual),
    cartons: sum(cells.map(({ cartons }) => cartons)),
  };
}
