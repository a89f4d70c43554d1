import type { FoldState, OpenMatter } from './state.ts';
import type { Stepping } from './stepping.ts';

/** Findings kept open at most; the oldest leave first, and are counted. */
const FINDINGS_KEPT = 100;
/** By this name a person closes all that were counted only. */
export const OLDER_FINDINGS = 'older';

/** [PS5] Kept until a person closes it; what the list has no room for is counted. */
export function keepFinding({ state, emit }: Stepping, finding: OpenMatter): void {
  emit({ kind: 'FindingKept', at: state.at, finding });
  state.open.push(finding);
  if (state.open.length <= FINDINGS_KEPT) return;
  state.openDropped += state.open.length - FINDINGS_KEPT;
  state.open.splice(0, state.open.length - FINDINGS_KEPT);
}

/** [PS5] A person closed it: the entry on the tape says who and when, and the open list goes on without it. */
export function closeFinding(state: FoldState, id: string): void {
  if (id === OLDER_FINDINGS) state.openDropped = 0;
  else state.open = state.open.filter((finding) => finding.id !== id);
}
