import type { z } from 'zod';
import { wordsIn } from '../../model/words/words.ts';
import type { Fault } from './faults.ts';
import { type Kind, type LineFile, lineFile } from './schema.ts';
import type { Path, Source } from './source.ts';
import { likely } from './spelling.ts';

const words = wordsIn('en').gateway.binding;

/** The file with every value of the right kind, or all that is wrong with its shape, each at its place. */
export function readShape(source: Source): { readonly file?: LineFile; readonly faults: readonly Fault[] } {
  if (source.data === null || source.data === undefined)
    return { faults: [{ at: source.place([]), ...words.empty }] };
  const read = lineFile.safeParse(source.data);
  if (read.success) return { file: read.data, faults: [] };
  return { faults: read.error.issues.flatMap((issue) => faultsOf(source, issue)) };
}

/** The value at a path of plain data; undefined where there is none. */
export function valueAt(data: unknown, path: Path): unknown {
  let value = data;
  for (const key of path) {
    if (value === null || typeof value !== 'object' || !Object.hasOwn(value, key)) return undefined;
    value = (value as Record<string | number, unknown>)[key];
  }
  return value;
}

/** What one refusal of a schema says, each at its place: for any file that is read like this. */
export function faultsOf(source: Source, issue: z.core.$ZodIssue): Fault[] {
  const path = issue.path as Path;
  if (issue.code === 'unrecognized_keys') {
    const known = issue.message.split(' ');
    return issue.keys.map((key) => ({
      at: source.keyPlace([...path, key]),
      ...words.unknownKey(key, likely(key, known), known),
    }));
  }
  if (issue.code === 'invalid_key') {
    const kind = (issue.issues[0]?.message ?? 'wholeKey') as Kind;
    const key = String(path.at(-1));
    return [{ at: source.keyPlace(path), ...words.badValue(label(path.slice(0, -1)), key, kind) }];
  }
  if (path.length === 0) return [{ at: source.place([]), ...words.notALine }];
  const value = valueAt(source.data, path);
  const key = label(path);
  if (value === undefined) return [{ at: source.place(path), ...words.missing(key, owner(source, path)) }];
  if (value === null) return [{ at: source.place(path), ...words.noValue(key) }];
  if (issue.code === 'invalid_value' && issue.message === 'choice') {
    const choices = issue.values.map(String);
    return [
      {
        at: source.place(path),
        ...words.badChoice(key, shown(value), likely(shown(value), choices), choices),
      },
    ];
  }
  return [{ at: source.place(path), ...words.badValue(key, shown(value), issue.message as Kind) }];
}

/** How a person finds the value: its key, or its place in the list. */
function label(path: Path): string {
  const last = path.at(-1);
  if (last === undefined) return '';
  if (typeof last === 'number') return words.item(label(path.slice(0, -1)), last + 1);
  return /^-?\d+$/.test(last) ? words.entry(label(path.slice(0, -1)), last) : last;
}

/** What the missing key belongs to, by its id where it has one. */
function owner(source: Source, path: Path): string {
  const around = path.slice(0, -1);
  const id = valueAt(source.data, [...around, 'id']) ?? valueAt(source.data, [...around, 'role']);
  return typeof id === 'string' ? id : label(around);
}

function shown(value: unknown): string {
  return typeof value === 'object' ? '' : String(value).slice(0, 60);
}
