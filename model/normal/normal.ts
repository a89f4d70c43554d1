import type { Judgement, StationEvidence, WorseAnswer } from './evidence.ts';
import { KeptLimits } from './keptLimits.ts';
import { rejectsOfRun, stopsOfRun } from './sinceChangeover.ts';
import { driftOfRun } from './slowDrift.ts';

/** What the rules say of a station in the newest run of a size: those that can be asked there, in this order. `kept`: what earlier looks at the station left. */
export function worseThanNormal(evidence: StationEvidence, kept = new KeptLimits()): readonly WorseAnswer[] {
  return judgements(evidence, kept).map(({ answer }) => answer);
}

/** The same with what each rule said at every look of the run so far. */
export function judgements(evidence: StationEvidence, kept = new KeptLimits()): readonly Judgement[] {
  const all = [rejectsOfRun(evidence, kept), driftOfRun(evidence, kept), stopsOfRun(evidence, kept)];
  return all.flatMap((judgement) => (judgement ? [judgement] : []));
}
