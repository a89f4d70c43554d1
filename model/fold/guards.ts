import type { Signal } from '../signals/signals.ts';
import { between, type Instant } from '../units/units.ts';
import { active } from './lineIndex.ts';
import { RUN_ON } from './presses.ts';
import type { Stepping } from './stepping.ts';

/** Findings kept until a person closes them; the oldest leave first. */
const MATTERS_KEPT = 100;

/** [PS5] A guard reads open or closed. */
export function guardMoved(stepping: Stepping, signal: Signal, open: boolean, at: Instant): void {
  const { state, index } = stepping;
  const before = state.values[signal.index]!;
  if (before !== null && active(signal, before) === open) return;
  const guard = index.line.guards.find((candidate) => candidate.id === signal.of);
  if (!guard) return;
  if (before !== null) {
    state.happenings.push({
      at,
      kind: open ? 'guardOpened' : 'guardClosed',
      name: guard.name,
      station: null,
    });
  }
  stepping.emit({ kind: 'GuardMoved', at, guard: guard.id, open });
  if (!open && before !== null) closeWhileRunning(stepping, signal, at);
}

/** The line left or returned to production: what is open now was, or begins to be, open while it runs. */
export function productionMoved(stepping: Stepping, at: Instant): void {
  if (stepping.state.producing) return;
  for (const signal of stepping.index.line.signals) {
    if (signal.role !== 'guard') continue;
    const value = stepping.state.values[signal.index]!;
    if (active(signal, value)) closeWhileRunning(stepping, signal, at, true);
  }
}

/** Since when a guard has read open while the line produces; undefined when it does not. */
export function openWhileRunning(stepping: Stepping, signal: Signal): Instant | undefined {
  const { state } = stepping;
  const value = state.values[signal.index] ?? null;
  if (!state.producing || value === null || !active(signal, value) || enabled(stepping)) return undefined;
  const opened = state.ats[signal.index]!;
  return Math.max(opened, state.since) as Instant;
}

function closeWhileRunning(stepping: Stepping, signal: Signal, at: Instant, justStopped = false): void {
  const { state } = stepping;
  if ((!state.producing && !justStopped) || enabled(stepping)) return;
  const opened = state.ats[signal.index]!;
  const ranSince = justStopped ? state.ranSince : state.since;
  const from = Math.max(opened, ranSince) as Instant;
  if (between(from, at) <= RUN_ON) return;
  state.open.push({
    id: `${signal.of}-${from.toString(36)}`,
    kind: 'guardOpenRunning',
    of: signal.of ?? '',
    at: from,
    to: at,
  });
  if (state.open.length > MATTERS_KEPT) state.open.shift();
}

function enabled(stepping: Stepping): boolean {
  const { state, index } = stepping;
  return index.line.signals.some(
    (signal) => signal.role === 'enabling' && active(signal, state.values[signal.index] ?? null),
  );
}
