import type { Judgement, StationEvidence, WorseAnswer } from './evidence.ts';
import { rejectsOfRun, stopsOfRun } from './sinceChangeover.ts';
import { driftOfRun } from './slowDrift.ts';

/** What the rules say of a station in the newest run of a size: those that can be asked there, in this order. */
export function worseThanNormal(evidence: StationEvidence): readonly WorseAnswer[] {
  return judgements(evidence).map(({ answer }) => answer);
}

/** The same with what each rule said at every look of the run so far. */
export function judgements(evidence: StationEvidence): readonly Judgement[] {
  const all = [rejectsOfRun(evidence), driftOfRun(evidence), stopsOfRun(evidence)];
  return all.flatMap((judgement) => (judgement ? [judgement] : []));
}
