import { LineError } from '../../model/trouble/trouble.ts';
import { HOUR, MINUTE, SECOND, type Span } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { Fault, FaultKind } from './faults.ts';

const words = wordsIn('en').simulator.faults;

/** A place in a sentence: a word as it stands, or a field and how it is written. */
type Place = string | { readonly field: string; readonly as: keyof typeof readers };

const lasts = ['for', { field: 'lasts', as: 'span' }] as const;
const on = { field: 'on', as: 'name' } as const;

/** Cartons before its end at which a counter is near it. */
const NEAR = 3;
/** Fields of which nothing or less than nothing makes no sense. */
const positive: ReadonlySet<string> = new Set(['lasts', 'left', 'size', 'lag', 'to', 'every', 'items']);

/** How each fault is written after its time. Of two with the same beginning the longer is tried first. */
const sentences: readonly {
  readonly kind: FaultKind;
  readonly places: readonly Place[];
  /** What the sentence says by its words alone. */
  readonly says?: Readonly<Record<string, boolean | number>>;
}[] = [
  { kind: 'cut', places: ['link', 'cut', ...lasts] },
  { kind: 'dark', places: ['link', 'dark', ...lasts] },
  { kind: 'killed', places: ['server', 'killed', ...lasts] },
  { kind: 'reissued', places: ['server', 'killed', 'with', 'the', 'same', 'ids', ...lasts] },
  { kind: 'download', places: ['program', 'downloaded', ...lasts] },
  { kind: 'frozen', places: ['program', 'still', ...lasts] },
  { kind: 'still', places: ['heartbeat', 'still', ...lasts] },
  { kind: 'reset', places: ['counter', on, 'reset'] },
  { kind: 'corrected', places: ['counter', on, 'corrected', 'by', { field: 'by', as: 'count' }] },
  { kind: 'set', places: ['counter', on, 'set', 'to', { field: 'to', as: 'count' }] },
  { kind: 'rollover', places: ['counter', on, 'near', 'its', 'end'], says: { left: NEAR } },
  {
    kind: 'rollover',
    places: ['counter', on, { field: 'left', as: 'count' }, 'before', 'its', 'end'],
  },
  { kind: 'bad', places: ['value', on, 'bad', 'with', 'value', ...lasts], says: { withValue: true } },
  { kind: 'bad', places: ['value', on, 'bad', ...lasts], says: { withValue: false } },
  { kind: 'pulse', places: ['button', on, 'pressed', ...lasts] },
  { kind: 'late', places: ['tag', on, 'late', 'by', { field: 'lag', as: 'span' }] },
  { kind: 'skewed', places: ['tag', on, 'skewed', 'by', { field: 'by', as: 'span' }] },
  { kind: 'stampless', places: ['stamps', 'missing', ...lasts] },
  { kind: 'stepped', places: ['clock', 'stepped', 'by', { field: 'by', as: 'span' }] },
  { kind: 'local', places: ['clock', 'local'] },
  {
    kind: 'queue',
    places: ['queues', 'of', { field: 'size', as: 'count' }, 'silent', ...lasts],
    says: { silent: true },
  },
  {
    kind: 'queue',
    places: ['queues', 'of', { field: 'size', as: 'count' }, ...lasts],
    says: { silent: false },
  },
  { kind: 'sampled', places: ['values', 'sampled', 'every', { field: 'every', as: 'span' }, ...lasts] },
  { kind: 'limited', places: ['no', 'more', 'than', { field: 'items', as: 'count' }, 'items', ...lasts] },
  { kind: 'unheard', places: ['keep-alive', 'before', 'dark', ...lasts] },
  { kind: 'empty', places: ['answers', 'empty', ...lasts] },
  { kind: 'refused', places: ['certificate', 'refused', ...lasts] },
  { kind: 'twice', places: ['messages', 'twice', ...lasts] },
  { kind: 'mixed', places: ['messages', 'mixed', ...lasts] },
];

const units: Readonly<Record<string, number>> = { ms: SECOND / 1000, s: SECOND, min: MINUTE, h: HOUR };

/** Reads one field from the beginning of the words; undefined where they do not say it. */
const readers = {
  name: ([text]: readonly string[]) =>
    text !== undefined && /^[\w.-]+$/.test(text) ? { value: text, taken: 1 } : undefined,
  count: ([text = '']: readonly string[]) =>
    /^-?\d{1,9}$/.test(text) ? { value: Number(text), taken: 1 } : undefined,
  span: ([amount = '', unit = '']: readonly string[]) =>
    /^-?\d{1,9}$/.test(amount) && Object.hasOwn(units, unit)
      ? { value: Number(amount) * units[unit]!, taken: 2 }
      : undefined,
};

/**
 * Reads faults from text, one a line: `0:12:30 link cut for 70 s`. The time is hours:minutes:seconds after the start;
 * what follows a # is a remark. Throws one `LineError` that names every line it does not understand.
 */
export function readFaults(text: string): readonly Fault[] {
  const wrong: number[] = [];
  const faults = text.split('\n').flatMap((line, place): readonly Fault[] => {
    const said = line.replace(/#.*/, '').trim();
    if (said === '') return [];
    const fault = readFault(said);
    if (!fault) wrong.push(place + 1);
    return fault ? [fault] : [];
  });
  if (wrong.length > 0) {
    throw new LineError(words.notUnderstood(wrong), {
      why: words.notUnderstoodWhy,
      mend: words.notUnderstoodMend(sentences.map(({ places }) => places.map(placeText).join(' '))),
    });
  }
  return faults.sort((a, b) => a.at - b.at);
}

/** Faults as `readFaults` reads them. */
export function faultsText(faults: readonly Fault[]): string {
  return faults.map((fault) => `${timeText(fault.at)} ${sentenceOf(fault)}\n`).join('');
}

function readFault(said: string): Fault | undefined {
  const [time = '', ...rest] = said.split(/\s+/);
  const clock = /^(\d{1,4}):([0-5]\d):([0-5]\d)(?:\.(\d{3}))?$/.exec(time);
  if (!clock) return undefined;
  const [hours = 0, minutes = 0, seconds = 0, ms = 0] = clock.slice(1).map((part) => Number(part ?? 0));
  const at = (hours * HOUR + minutes * MINUTE + seconds * SECOND + (ms * SECOND) / 1000) as Span;
  for (const { kind, places, says } of sentences) {
    const fields = readPlaces(places, rest);
    if (fields) return { at, kind, ...fields, ...says } as unknown as Fault;
  }
  return undefined;
}

function readPlaces(places: readonly Place[], said: readonly string[]): object | undefined {
  const fields: Record<string, unknown> = {};
  let rest = said;
  for (const place of places) {
    if (typeof place === 'string') {
      if (rest[0] !== place) return undefined;
      rest = rest.slice(1);
      continue;
    }
    const read = readers[place.as](rest);
    if (!read || (positive.has(place.field) && Number(read.value) <= 0)) return undefined;
    fields[place.field] = read.value;
    rest = rest.slice(read.taken);
  }
  return rest.length === 0 ? fields : undefined;
}

function sentenceOf(fault: Fault): string {
  const fields = fault as unknown as Readonly<Record<string, string | number | boolean>>;
  const sentence = sentences.find(
    ({ kind, says = {} }) =>
      kind === fault.kind && Object.entries(says).every(([field, value]) => fields[field] === value),
  )!;
  const said = (place: Place) =>
    typeof place === 'string'
      ? place
      : place.as === 'span'
        ? spanText(fields[place.field] as Span)
        : String(fields[place.field]);
  return sentence.places.map(said).join(' ');
}

/** In the largest unit that says it without a fraction. */
function spanText(span: Span): string {
  const [unit, ticks] = Object.entries(units)
    .reverse()
    .find(([, size]) => span % size === 0) ?? ['ms', SECOND / 1000];
  return `${span / ticks} ${unit}`;
}

function timeText(at: Span): string {
  const ms = Math.round(at / (SECOND / 1000));
  const two = (n: number) => String(n).padStart(2, '0');
  const rest = ms % 1000 === 0 ? '' : `.${String(ms % 1000).padStart(3, '0')}`;
  const seconds = Math.floor(ms / 1000);
  return `${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}${rest}`;
}

function placeText(place: Place): string {
  return typeof place === 'string' ? place : words.field[place.as];
}
