import type { LineEvent } from './events.ts';
import type { LineIndex } from './lineIndex.ts';
import type { FoldState } from './state.ts';

/** What every rule of the fold works on: the line's definition, its state, and where to tell what happened. */
export interface Stepping {
  readonly index: LineIndex;
  readonly state: FoldState;
  readonly emit: (event: LineEvent) => void;
}
