import type { LineView } from '../../../model/view/view.ts';
import { changeover, justStarted, offShift, pause, quiet, starved } from './running.ts';
import { question, stopped } from './stopped.ts';
import { long, lost, pressed, released, stale } from './trouble.ts';

/** Every fixed view by its name: what screens are drawn from where no line runs. */
export const views = {
  changeover,
  justStarted,
  long,
  lost,
  offShift,
  pause,
  pressed,
  question,
  quiet,
  released,
  stale,
  starved,
  stopped,
} as const satisfies { readonly [name: string]: LineView };

export type ViewName = keyof typeof views;
