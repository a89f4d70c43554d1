import type { Readable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import type { Change, Value } from '../../model/signals/signals.ts';
import { GOOD } from '../../model/status/status.ts';
import type { Instant } from '../../model/units/units.ts';
import type { Bound } from '../binding/binding.ts';

/** The simulated line is another program, known by its command line and its standard output alone. */
export const simulator = fileURLToPath(new URL('../../simulator/main.ts', import.meta.url));

/** How many changes of the past are handed on at once. */
const CHUNK = 20_000;

type HistoryRow =
  | { readonly t: number; readonly n: string; readonly v: Value; readonly s?: number }
  | { readonly t: number; readonly link: boolean }
  | { readonly ready: string };

/** Where the line keeps what the simulator calls by a tag. */
export interface Places {
  readonly tags: ReadonlyMap<string, number>;
  readonly link: number;
}

export function placesOf(bound: Bound): Places {
  const tags = new Map([...bound.tags].map(([signal, { tag }]) => [tag, signal]));
  return { tags, link: bound.line.signals.findIndex((signal) => signal.role === 'link') };
}

/** The past that a simulator tells on its standard output, in pieces; with the last of them where its server is ready. */
export async function* changesIn(
  output: Readable,
  places: Places,
): AsyncGenerator<{ readonly changes: readonly Change[]; readonly ready?: string }> {
  let changes: Change[] = [];
  let rest = '';
  for await (const text of output.setEncoding('utf8')) {
    const lines = (rest + String(text)).split('\n');
    rest = lines.pop()!;
    for (const line of lines) {
      const row = JSON.parse(line) as HistoryRow;
      if ('ready' in row) {
        yield { changes, ready: row.ready };
        return;
      }
      const change = changeOf(row, places);
      if (change) changes.push(change);
    }
    if (changes.length < CHUNK) continue;
    yield { changes };
    changes = [];
  }
}

function changeOf(row: Exclude<HistoryRow, { ready: string }>, { tags, link }: Places): Change | undefined {
  const at = row.t as Instant;
  if ('link' in row) return { signal: link, at, received: at, status: GOOD, value: row.link };
  const signal = tags.get(row.n);
  return signal === undefined ? undefined : { signal, at, received: at, status: row.s ?? GOOD, value: row.v };
}
