import { setImmediate } from 'node:timers/promises';
import type { Change } from '../../model/signals/signals.ts';

/** An import writes when it has gathered so many changes: several segments, one durable commit. */
const AT_ONCE = 50_000;

/** Gathers chunks into pieces that are worth a durable commit each, and lets other work have its turn between them. */
export async function inPieces(
  chunks: AsyncIterable<readonly Change[]> | Iterable<readonly Change[]>,
  write: (changes: readonly Change[]) => void,
): Promise<void> {
  let gathered: Change[] = [];
  for await (const changes of chunks) {
    for (const change of changes) gathered.push(change);
    if (gathered.length < AT_ONCE) continue;
    write(gathered);
    gathered = [];
    await setImmediate();
  }
  write(gathered);
}
