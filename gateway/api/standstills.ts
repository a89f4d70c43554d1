import type { SafetyAsked } from '../../model/past/safetyPast.ts';
import { type Standstill, standstillOf, standstillsAsked } from '../../model/past/standstill.ts';
import { usesOf } from '../../model/past/uses.ts';
import { minutes } from '../../model/units/units.ts';
import { stretchOf } from '../tape/stretch.ts';
import type { PastRead } from './asOf.ts';

/** Kept at most, the oldest leave first: to find one on the tape takes long enough. */
const KEPT_MOST = 500;
/** One that is younger may still lack what comes late. */
const SETTLED = minutes(5);

/** Looks up on the tape how long the machine went on after each device stopped it last, and keeps what it found. */
export function createStandstills() {
  const kept = new Map<string, Standstill | undefined>();
  return async (
    { live, tape, asOf }: PastRead,
    asked: Omit<SafetyAsked, 'standstills'>,
  ): Promise<ReadonlyMap<string, Standstill>> => {
    const found = new Map<string, Standstill>();
    for (const one of standstillsAsked(usesOf(asked.index, asked), asked)) {
      const key = `${live.line.id} ${asOf ?? 'now'} ${one.of} ${one.at}`;
      if (!kept.has(key)) {
        const { changes, whole } = await stretchOf(tape, live.line, one);
        kept.set(key, whole ? standstillOf(asked.index, one, changes) : undefined);
        if (kept.size > KEPT_MOST) kept.delete(kept.keys().next().value!);
      }
      const standstill = kept.get(key);
      if (standstill) found.set(one.of, standstill);
      if (one.at > live.now() - SETTLED) kept.delete(key);
    }
    return found;
  };
}
