import type { Author } from '../../model/entries/entries.ts';
import { words } from '../app/words.ts';
import { usePart } from '../store/use.tsx';

/** Says who did something: a number, a place at the line, a kind of screen. */
export function useWhoSaid(): (author: Author) => string {
  const loading = usePart('loading');
  return (author) =>
    words.screen.notices.who(author, (id) => loading.find((one) => one.id === id)?.name ?? id);
}
