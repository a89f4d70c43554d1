import { wordsIn } from '../../model/words/words.ts';
import { fault, isSection, namesIn, type Row, rowsOf, twiceIn } from './rows.ts';
import type { Fault } from './faults.ts';
import { valueAt } from './shapeFaults.ts';
import type { Path, Source } from './source.ts';
import { likely } from './spelling.ts';

const words = wordsIn('en').gateway.binding;

/** Names that stand twice, and names of things that the file does not describe. */
export function referenceFaults(source: Source): readonly Fault[] {
  return [...duplicates(source), ...references(source), ...sizesInBooks(source), ...deviceFaults(source)];
}

function duplicates(source: Source): Fault[] {
  const nouns = words.nouns;
  const lists: readonly (readonly [Path, string, string])[] = [
    [['servers'], 'id', nouns.server],
    [['machines'], 'id', nouns.machine],
    [['stations'], 'id', nouns.station],
    [['answers'], 'id', nouns.answer],
    [['sizes'], 'id', nouns.size],
    [['sizes'], 'code', nouns.code],
    [['loading', 'crews'], 'people', nouns.crew],
    [['loading', 'positions'], 'id', nouns.position],
    [['rejects'], 'id', nouns.reject],
    [['reasons'], 'number', nouns.reason],
    [['devices'], 'id', nouns.device],
    [['guards'], 'id', nouns.guard],
    [['adjustments'], 'number', nouns.adjustment],
    [['changeover', 'steps'], 'id', nouns.step],
    [['conditions'], 'id', nouns.condition],
    [['calendar', 'shifts'], 'id', nouns.shift],
    [['calendar', 'pauses'], 'id', nouns.pause],
    ...rowsOf(source, 'stations').map(({ path }) => [[...path, 'answers'], 'id', nouns.answer] as const),
  ];
  return lists.flatMap(([path, key, noun]) => twiceIn(source, rowsOf(source, ...path), key, noun));
}

function references(source: Source): Fault[] {
  const nouns = words.nouns;
  const stations = namesIn(rowsOf(source, 'stations'), 'id');
  const machines = namesIn(rowsOf(source, 'machines'), 'id');
  const positions = namesIn(rowsOf(source, 'loading', 'positions'), 'id');
  const shifts = namesIn(rowsOf(source, 'calendar', 'shifts'), 'id');
  const each = (list: Path, key: string) => rowsOf(source, ...list).map(({ path }) => [...path, key]);
  const refer = (paths: readonly Path[], noun: string, known: readonly string[]) =>
    paths.flatMap((path) => unknownName(source, path, noun, known));
  return [
    ...refer([['line', 'pace']], nouns.machine, machines),
    ...refer(each(['stations'], 'machine'), nouns.machine, machines),
    ...refer([['loading', 'station']], nouns.station, stations),
    ...refer(each(['rejects'], 'station'), nouns.station, stations),
    ...refer(within(source, ['rejects'], 'from'), nouns.station, stations),
    ...refer(each(['reasons'], 'station'), nouns.station, stations),
    ...refer(each(['devices'], 'station'), nouns.station, stations),
    ...refer(each(['devices'], 'position'), nouns.position, positions),
    ...refer(each(['guards'], 'from'), nouns.station, stations),
    ...refer(each(['guards'], 'to'), nouns.station, stations),
    ...refer(each(['adjustments'], 'station'), nouns.station, stations),
    ...refer(within(source, ['adjustments'], 'actsOn'), nouns.station, stations),
    ...refer(each(['changeover', 'steps'], 'station'), nouns.station, stations),
    ...refer(each(['calendar', 'pauses'], 'shift'), nouns.shift, shifts),
  ];
}

/** Places of each name of a list that rows have. */
function within(source: Source, list: Path, key: string): readonly Path[] {
  return rowsOf(source, ...list).flatMap(({ path, value }) => {
    const names: unknown = value[key];
    return Array.isArray(names) ? names.map((_, place) => [...path, key, place]) : [];
  });
}

/** A name at a path that is not among the known ones. Values that are no text are told by their shape. */
export function unknownName(source: Source, path: Path, noun: string, known: readonly string[]): Fault[] {
  const name = valueAt(source.data, path);
  if (typeof name !== 'string' || known.includes(name)) return [];
  return [fault(source, path, words.unknownName(noun, name, likely(name, known), known))];
}

function sizesInBooks(source: Source): Fault[] {
  return [
    ...sizesNamed(source, ['adjustments'], 'book'),
    ...sizesNamed(source, ['changeover', 'steps'], 'parts'),
  ];
}

/** Keys of a section of rows that are no size of the line. */
function sizesNamed(source: Source, list: Path, key: string): Fault[] {
  const sizes = namesIn(rowsOf(source, 'sizes'), 'id');
  return rowsOf(source, ...list).flatMap(({ path, value }) => {
    const named: unknown = value[key];
    return (isSection(named) ? Object.keys(named) : [])
      .filter((size) => !sizes.includes(size))
      .map((size) => ({
        at: source.keyPlace([...path, key, size]),
        ...words.unknownName(words.nouns.size, size, likely(size, sizes), sizes),
      }));
  });
}

function deviceFaults(source: Source): Fault[] {
  const stations = namesIn(rowsOf(source, 'stations'), 'id');
  return [
    ...rowsOf(source, 'devices').flatMap((row) => candidateFaults(source, row)),
    ...rowsOf(source, 'guards').flatMap(({ path, value }) => {
      const [from, to] = [stations.indexOf(String(value.from)), stations.indexOf(String(value.to))];
      const backwards = from >= 0 && to >= 0 && from > to;
      return backwards ? [fault(source, [...path, 'to'], words.guardBackwards(String(value.id)))] : [];
    }),
  ];
}

function candidateFaults(source: Source, { path, value }: Row): Fault[] {
  const candidates = Array.isArray(value.candidates) ? value.candidates.length : 0;
  const name = String(value.id);
  if (value.kind === 'circuit' && candidates < 2)
    return [fault(source, [...path, 'candidates'], words.circuitNeedsCandidates(name))];
  if ((value.kind === undefined || value.kind === 'button') && candidates > 0)
    return [fault(source, [...path, 'candidates'], words.buttonHasCandidates(name))];
  return [];
}
