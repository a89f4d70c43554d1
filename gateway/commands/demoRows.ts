import type { Readable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import type { Entry } from '../../model/entries/entries.ts';
import type { Change, Value } from '../../model/signals/signals.ts';
import { GOOD } from '../../model/status/status.ts';
import { epochMs, type Instant } from '../../model/units/units.ts';
import type { Bound } from '../binding/binding.ts';

/** The simulated line is another program, known by its command line and its standard output alone. */
export const simulator = fileURLToPath(new URL('../../simulator/main.ts', import.meta.url));

/** How many changes of the past are handed on at once. */
const CHUNK = 20_000;

type HistoryRow =
  | { readonly t: number; readonly n: string; readonly v: Value; readonly s?: number }
  | { readonly t: number; readonly link: boolean }
  | { readonly t: number; readonly said: Noted }
  | { readonly ready: string };

/** What a setter of the simulated line wrote down. */
type Noted =
  | {
      readonly kind: 'number';
      readonly station: string;
      readonly number: string;
      readonly value: number;
      readonly how: 'typed' | 'confirmed' | 'readBack';
    }
  | { readonly kind: 'step'; readonly step: string; readonly approval: boolean };

/** Where the line keeps what the simulator calls by a tag. */
export interface Places {
  readonly tags: ReadonlyMap<string, number>;
  readonly link: number;
  readonly entry: number;
  /** At whose panel its setters write. */
  readonly position: string;
}

export function placesOf(bound: Bound): Places {
  const tags = new Map([...bound.tags].map(([signal, { tag }]) => [tag, signal]));
  const { signals, loading } = bound.line;
  return {
    tags,
    link: signals.findIndex((signal) => signal.role === 'link'),
    entry: signals.findLastIndex((signal) => signal.role === 'entry'),
    position: loading.positions[0]?.id ?? '',
  };
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

function changeOf(row: Exclude<HistoryRow, { ready: string }>, places: Places): Change | undefined {
  const at = row.t as Instant;
  const { tags, link } = places;
  if ('said' in row) {
    const value = JSON.stringify(entryOf(row.said, at, places.position));
    return { signal: places.entry, at, received: at, status: GOOD, value };
  }
  if ('link' in row) return { signal: link, at, received: at, status: GOOD, value: row.link };
  const signal = tags.get(row.n);
  return signal === undefined ? undefined : { signal, at, received: at, status: row.s ?? GOOD, value: row.v };
}

/** As if it had been entered at the panel then; what needs a person, by a setter's number. */
function entryOf(said: Noted, at: Instant, position: string): Entry {
  const name = said.kind === 'number' ? said.number : said.step;
  const head = {
    id: `noted-${at.toString(36)}-${name.replace(/[^\w.-]/g, '-')}${said.kind === 'number' && said.how === 'readBack' ? '-again' : ''}`,
    at: epochMs(at),
    author: { kind: 'position', position },
  } as const;
  if (said.kind === 'step') {
    const { step, approval } = said;
    if (!approval) return { ...head, kind: 'stepDone', step, well: true };
    return { ...head, author: { kind: 'person', number: SETTER }, kind: 'stepApproved', step, well: true };
  }
  const { station, number: adjustment, value, how } = said;
  if (how !== 'confirmed') return { ...head, kind: 'reading', station, adjustment, value, how };
  return { ...head, kind: 'asBook', station, settings: [{ adjustment, value }] };
}

/** No name belongs to it. */
const SETTER = '12';
