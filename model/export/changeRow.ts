import type { LineIndex } from '../fold/lineIndex.ts';
import { signalMeanings } from '../past/signalSheets.ts';
import type { Change } from '../signals/signals.ts';
import { severity } from '../status/status.ts';
import type { Row } from './columns.ts';
import { unitOf } from './tables.ts';

/** What is said of a signal in each of its rows. */
interface Told {
  readonly role: string | null;
  readonly meaning: string | null;
  readonly unit: string | null;
  readonly values: Readonly<Record<string, string>>;
}

/**
 * Rows of changes by the tape's own numbers of signals; `ids` are the signals by those numbers. One that the line's file has
 * no more keeps its id, and nobody knows what it means.
 */
export function changeRows(
  index: LineIndex,
  ids: readonly string[],
): (position: number, change: Change) => Row<'changes'> {
  const meanings = new Map(signalMeanings(index).map((meaning) => [meaning.id, meaning]));
  const signals = new Map(index.line.signals.map((signal) => [signal.id, signal]));
  const told = ids.map((id): Told => {
    const signal = signals.get(id);
    const meaning = meanings.get(id);
    const role = signal?.role ?? null;
    const unit = meaning?.unit ?? (signal && unitOf(signal)) ?? null;
    return { role, meaning: meaning?.name ?? null, unit, values: meaning?.values ?? {} };
  });
  return (position, { signal, at, received, status, value }) => {
    const { role, meaning, unit, values } = told[signal]!;
    return {
      position,
      signal: ids[signal]!,
      role,
      meaning,
      unit,
      line_time: at,
      line_time_ticks: at,
      received,
      received_ticks: received,
      status_code: status,
      quality: severity(status),
      value_number: typeof value === 'number' ? value : null,
      value_text: typeof value === 'string' ? value : null,
      value_truth: typeof value === 'boolean' ? value : null,
      value_means: typeof value === 'number' ? (values[value] ?? null) : null,
    };
  };
}
