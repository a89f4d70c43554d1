import { wordsIn } from '../../model/words/words.ts';
import type { Fault, Trouble } from './faults.ts';
import { valueAt } from './shapeFaults.ts';
import type { Path, Source } from './source.ts';

const words = wordsIn('en').gateway.binding;

/** One item of a list of sections, and where it stands. */
export interface Row {
  readonly path: Path;
  readonly value: Readonly<Record<string, unknown>>;
}

export function rowsOf(source: Source, ...path: Path): readonly Row[] {
  const list = valueAt(source.data, path);
  if (!Array.isArray(list)) return [];
  return list.flatMap((value: unknown, place) =>
    isSection(value) ? [{ path: [...path, place], value }] : [],
  );
}

export function isSection(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** The texts that stand under one key of a list's items. */
export function namesIn(rows: readonly Row[], key: string): readonly string[] {
  return rows.flatMap(({ value }) => (typeof value[key] === 'string' ? [value[key]] : []));
}

/** A number at a path; undefined when something else stands there. */
export function numberAt(source: Source, path: Path): number | undefined {
  const value = valueAt(source.data, path);
  return typeof value === 'number' ? value : undefined;
}

export function fault(source: Source, path: Path, trouble: Trouble): Fault {
  return { at: source.place(path), ...trouble };
}

/** Names that stand in a list more than once, told at the second. */
export function twiceIn(source: Source, rows: readonly Row[], key: string, noun: string): readonly Fault[] {
  const first = new Map<unknown, Path>();
  return rows.flatMap((row) => {
    const name = row.value[key];
    const path = [...row.path, key];
    if (typeof name !== 'string' && typeof name !== 'number') return [];
    const before = first.get(name);
    if (before === undefined) {
      first.set(name, path);
      return [];
    }
    return [fault(source, path, words.twice(noun, String(name), source.place(before).line))];
  });
}
