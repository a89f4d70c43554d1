import type { LineIndex } from '../fold/lineIndex.ts';
import type { Signal } from '../signals/signals.ts';
import { wordsIn } from '../words/words.ts';
import { type Column, COLUMNS, type ExportTable } from './columns.ts';

const words = wordsIn('en').exporting;

/** The columns of a table for a line, in order. */
export function columnsOf(table: ExportTable, index: LineIndex): readonly Column[] {
  const said: Readonly<Record<string, string>> = words.columns[table];
  const fixed = Object.entries(COLUMNS[table]).map(([name, column]) => ({
    name,
    ...column,
    definition: said[name]!,
  }));
  return table === 'minutes' ? [...fixed, ...counterColumns(index)] : fixed;
}

/** One for each counter that is kept by the minute, in the order of the records. */
function counterColumns({ line, tallied }: LineIndex): readonly Column[] {
  const taken = new Set<string>();
  return tallied.map((place) => {
    const signal = line.signals[place]!;
    const unit = unitOf(signal) ?? '';
    const wanted = `${signal.id}_${unit}`.replaceAll(/[^A-Za-z0-9]+/g, '_').toLowerCase();
    let name = wanted;
    for (let more = 2; taken.has(name); more += 1) name = `${wanted}_${more}`;
    taken.add(name);
    return { name, kind: 'whole', unit, definition: words.gained(signal.id, unit) };
  });
}

/** What a signal's numbers count or measure, where its role says it; what the line's file says stands in its meaning. */
export function unitOf({ role }: Pick<Signal, 'role'>): string | undefined {
  switch (role) {
    case 'goodCount':
    case 'presentedCount':
    case 'rejectCount':
    case 'crushedCount':
      return 'cartons';
    case 'cycleCount':
    case 'missedPickCount':
    case 'nearMissCount':
      return 'machine cycles';
    case 'pickedCount':
      return 'blanks';
    case 'notLoadedCount':
      return 'pockets';
    case 'stopDeviceCount':
      return 'presses';
    case 'speedSet':
    case 'speedActual':
      return 'cartons/min';
    case 'crew':
      return 'people';
    case 'machineAngle':
      return 'degrees';
    default:
      return undefined;
  }
}
