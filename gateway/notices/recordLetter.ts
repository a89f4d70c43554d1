import { unwanted } from '../../model/notices/unwanted.ts';
import type { ShutOff } from '../../model/notices/shutOff.ts';
import type { ToldWhy } from '../../model/notices/notice.ts';
import { type EpochMs, epochMs } from '../../model/units/units.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Unwanted } from './outbox.ts';
import type { Letter, WithdrawnWhy } from './outboxStore.ts';

/** Puts on the tape what has become of a letter; asked again it may stand there twice, and counts once. */
export async function recordLetter(live: LiveLine, letter: Letter, now: number): Promise<void> {
  const { message, person, way, state, tries, id } = letter;
  const { notice, round, step } = message;
  const why = whyOf(letter);
  await live.enter({
    id: `told-${id}-${state}-${tries}`,
    at: Math.round(now) as EpochMs,
    author: { kind: 'itself' },
    ...{ kind: 'noticeTold', notice, person, way, round, step },
    // what may have arrived is not counted as not sent
    failed: state === 'dead' || why === 'withdrawn',
    ...(why === undefined ? {} : { why }),
  });
}

function whyOf({ state, perhaps }: Letter): ToldWhy | undefined {
  if (state !== 'withdrawn') return undefined;
  return perhaps ? 'perhaps' : 'withdrawn';
}

/** [NR3] Why a letter that waits is wanted no more, by where its notice stands now; of one that is held no more nobody knows. */
export function unwantedNow(
  live: LiveLine,
  { line, notice: id, person, round }: Unwanted,
  shutOff: ShutOff,
): WithdrawnWhy | undefined {
  if (line !== live.line.id) return undefined;
  const notice = live.fold().state.notices.find((one) => one.id === id);
  const found = notice && unwanted(notice, { person, round }, shutOff);
  return found && { ...found, at: found.at === null ? null : epochMs(found.at) };
}
