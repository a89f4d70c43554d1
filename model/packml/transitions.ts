import type { PackmlState } from './packml.ts';

type Move = readonly [from: PackmlState, to: PackmlState];

/** States in which the machine runs or could, the parent "Running" of OPC 30050. */
const running: readonly PackmlState[] = [
  'Starting',
  'Idle',
  'Suspended',
  'Execute',
  'Holding',
  'Held',
  'Unholding',
  'Suspending',
  'Unsuspending',
  'Resetting',
  'Completing',
  'Complete',
];
/** All states but aborting and aborted, the parent "Cleared". */
const cleared: readonly PackmlState[] = [...running, 'Clearing', 'Stopped', 'Stopping'];

const within: readonly Move[] = [
  ['Resetting', 'Idle'],
  ['Idle', 'Starting'],
  ['Starting', 'Execute'],
  ['Execute', 'Suspending'],
  ['Suspending', 'Suspended'],
  ['Suspended', 'Unsuspending'],
  ['Unsuspending', 'Execute'],
  ['Execute', 'Holding'],
  ['Holding', 'Held'],
  ['Held', 'Unholding'],
  ['Unholding', 'Execute'],
  ['Execute', 'Completing'],
  ['Completing', 'Complete'],
  ['Complete', 'Resetting'],
  ['Starting', 'Holding'],
  ['Unsuspending', 'Holding'],
  ['Suspended', 'Holding'],
  ['Suspending', 'Holding'],
  ['Unholding', 'Holding'],
  ['Stopping', 'Stopped'],
  ['Clearing', 'Stopped'],
  ['Aborting', 'Aborted'],
  ['Aborted', 'Clearing'],
  ['Stopped', 'Resetting'],
];

/** Every single move from state to state that PackML allows (OPC 30050, its state machines' transitions). */
export const transitions: readonly Move[] = [
  ...within,
  ...running.map((from): Move => [from, 'Stopping']),
  ...cleared.map((from): Move => [from, 'Aborting']),
];

/** States that end by themselves, so that a sampled stream may miss them. */
const acting: ReadonlySet<PackmlState> = new Set([
  'Clearing',
  'Starting',
  'Stopping',
  'Aborting',
  'Holding',
  'Unholding',
  'Suspending',
  'Unsuspending',
  'Resetting',
  'Completing',
]);

/** Whether one state may be seen right after another: by one move, or over acting states too short to be seen. */
export function mayBeSeenAfter(from: PackmlState, to: PackmlState): boolean {
  const reached = new Set<PackmlState>();
  const open = [from];
  for (let state = open.pop(); state !== undefined; state = open.pop()) {
    for (const [source, target] of transitions) {
      if (source !== state || reached.has(target)) continue;
      if (target === to) return true;
      reached.add(target);
      if (acting.has(target)) open.push(target);
    }
  }
  return false;
}
