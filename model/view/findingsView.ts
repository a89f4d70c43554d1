import { OLDER_FINDINGS } from '../fold/findings.ts';
import { findingsNow } from '../fold/guards.ts';
import type { FoldState, OpenMatter } from '../fold/state.ts';
import { millis } from '../units/units.ts';
import { ms, type Seen } from './seen.ts';
import type { Matter } from './matter.ts';

/** [PS5] What ran on with a guard open or a device pressed: what still does first, then the newest that nobody closed. */
export function findingsView(seen: Seen): Matter[] {
  const { state, index, until } = seen;
  const now = findingsNow({ index, state: state as FoldState, emit: () => {} }, until);
  const older: Matter = { kind: 'olderFindings', count: state.openDropped, id: OLDER_FINDINGS };
  return [
    ...now.map((finding) => matterOf(seen, finding)),
    ...state.open.map((finding) => matterOf(seen, finding)).reverse(),
    ...(state.openDropped > 0 ? [older] : []),
  ];
}

function matterOf({ index: { line } }: Seen, finding: OpenMatter): Matter {
  const { kind, id, of } = finding;
  const at = ms(finding.at);
  const lasted = finding.to === null ? undefined : millis(finding.spent);
  const name = (list: readonly { readonly id: string; readonly name: string }[]) =>
    list.find((one) => one.id === of)?.name ?? of;
  return kind === 'guardOpenRunning'
    ? { kind, guard: name(line.guards), at, lasted, id }
    : { kind, device: name(line.devices), at, lasted, id };
}
