import type { EpochMs } from '../../model/units/units.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Letter } from './outboxStore.ts';

/** Puts on the tape what has become of a letter; asked again it may stand there twice, and counts once. */
export async function recordLetter(live: LiveLine, letter: Letter, now: number): Promise<void> {
  const { message, person, way, state, tries, id } = letter;
  const { notice, round, step } = message;
  await live.enter({
    id: `told-${id}-${state}-${tries}`,
    at: Math.round(now) as EpochMs,
    author: { kind: 'itself' },
    ...{ kind: 'noticeTold', notice, person, way, round, step, failed: state === 'dead' },
  });
}
