import type { Moment } from '../store/moment.ts';
import { useMoment, usePart } from '../store/use.tsx';
import type { Tone } from '../type/line.tsx';
import { type Said, saidOf } from './state.ts';
import { type Told, useTold } from './told.ts';

/** What the head says now, and what it was said with. */
export function useSaid(): { readonly said: Said; readonly moment: Moment; readonly told: Told } {
  const head = usePart('head');
  const rate = usePart('rate');
  const sight = usePart('sight');
  const moment = useMoment();
  const told = useTold(moment);
  return { said: saidOf(head, { head, rate, sight }, moment, told), moment, told };
}

/** What words are written with on the ground that the head has then. */
export const TONES: { readonly [look in Said['look']]: Tone } = {
  rest: 'ink',
  abnormal: 'onAbnormal',
  emergency: 'onEmergency',
  unseen: 'ink',
};
