import type { SeenTime } from '../../model/past/past.ts';
import { words } from '../app/words.ts';
import type { Numbered } from '../figures/pieces.ts';

const { past } = words.screen;

/** Which numbers are figures in what is said of how much of a stretch was seen. */
export function seenNumbers({ from, to, unknown }: SeenTime): readonly Numbered[] {
  return [
    ['notSeen', past.past(unknown)],
    ['seenOf', past.past(to - from)],
  ];
}
