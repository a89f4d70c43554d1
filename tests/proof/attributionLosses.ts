import { type Instant, minutes, seconds } from '../../model/units/units.ts';
import type { PlcFact, TagWrite } from '../../simulator/machine/plc.ts';
import { stream, uniform } from '../../simulator/machine/random.ts';

/**
 * Twice in an hour, for up to six minutes, nothing is heard; at its end every tag that was written meanwhile is told
 * as it is then. Not where the PLC itself falls silent about then, so that one gap is not taken for another.
 */
export function lose(
  facts: readonly PlcFact[],
  { seed, from }: { readonly seed: number; readonly from: Instant },
) {
  const draw = stream(seed, `losses ${from}`);
  let kept = facts;
  for (const [low, high] of [
    [3, 25],
    [30, 55],
  ] as const) {
    const begin = (from + minutes(1) * uniform(draw, low, high)) as Instant;
    kept = without(
      kept,
      Math.round(begin) as Instant,
      Math.round(begin + seconds(uniform(draw, 15, 360))) as Instant,
    );
  }
  return kept;
}

function without(facts: readonly PlcFact[], begin: Instant, end: Instant): readonly PlcFact[] {
  const unheard = facts.filter(({ at }) => at >= begin && at < end);
  if (facts.some((fact) => 'link' in fact && Math.abs(fact.at - begin) < minutes(10))) return facts;
  const last = new Map<string, TagWrite>();
  for (const fact of unheard) if ('tag' in fact) last.set(fact.tag, { ...fact, at: end });
  return [
    ...facts.filter(({ at }) => at < begin),
    { at: begin, link: false },
    ...last.values(),
    { at: end, link: true },
    ...facts.filter(({ at }) => at >= end),
  ];
}
