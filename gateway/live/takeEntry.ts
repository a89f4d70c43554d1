import type { Entry } from '../../model/entries/entries.ts';
import type { EntryAnswer } from '../../model/view/protocol.ts';
import { asideOf } from '../../model/view/sheetAside.ts';
import type { LiveLine } from './liveLine.ts';

/** Takes an entry, and answers where it stands on the tape; [SH10] and where it is of a sheet that is not open. */
export async function takeEntry(
  live: Pick<LiveLine, 'enter' | 'fold'>,
  entry: Entry,
): Promise<Extract<EntryAnswer, { readonly ok: true }>> {
  const position = await live.enter(entry);
  const aside = asideOf(live.fold(), entry);
  return { ok: true, position, ...(aside ? { aside } : {}) };
}
