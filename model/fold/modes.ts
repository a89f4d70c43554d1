import type { Stepping } from './stepping.ts';

/** [PR2] Only what is made in produce mode is production; a mode that is not known, or has no tag, is taken as produce. */
export function isProduceMode(stepping: Stepping): boolean {
  const { state, index } = stepping;
  if (index.modeSignal < 0 || state.values[index.modeSignal] === null) return true;
  return index.modes.get(state.values[index.modeSignal] as number) === 'produce';
}
