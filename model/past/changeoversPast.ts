import type { LineIndex } from '../fold/lineIndex.ts';
import type { ChangeoverKind, ChangeoverRecord } from '../fold/state.ts';
import { between, epochMs, type Millis, millis } from '../units/units.ts';
import {
  type ChangeoverFilter,
  type ChangeoversAsked,
  measuredIn,
  type PastChangeover,
  pastChangeover,
} from './changeover.ts';
import type { Measured } from './changeoverMeasure.ts';
import { type OpenedChangeover, openedChangeover } from './changeoverOpened.ts';
import { type SeenTime, seenTime } from './past.ts';

/** Changeovers of a stretch of the past, and one of them opened. */
export interface ChangeoversPast {
  readonly seen: SeenTime;
  readonly changeovers: number;
  /** The newest first; no more than were asked for. */
  readonly list: readonly ListedChangeover[];
  /** Kinds and pairs that the stretch has, to choose by. */
  readonly kinds: readonly ChangeoverKind[];
  readonly pairs: readonly { readonly id: string; readonly from: string; readonly to: string }[];
  /** What the list's drawings are measured by: its longest. */
  readonly longest: Millis;
  /** Since the newest of all was at rate, or the next began; undefined while one goes on, or there was none. */
  readonly since: Millis | undefined;
  readonly goesOn: boolean;
  readonly opened: OpenedChangeover | undefined;
}

export interface ListedChangeover extends PastChangeover {
  /** [CH4] How many numbers stood off the book when it was over, of those that are known; undefined where none is. */
  readonly offBook: { readonly off: number; readonly known: number } | undefined;
}

export function changeoversPast(asked: ChangeoversAsked): ChangeoversPast {
  const { index, now, changeovers } = asked;
  const inside = changeovers.filter(
    ({ begin, atRate, end }) => begin < asked.to && (atRate ?? end ?? now) > asked.from,
  );
  const wanted = inside.filter((record) => isWanted(record, asked.filter));
  const list = wanted
    .slice(asked.most === 0 ? wanted.length : -asked.most)
    .reverse()
    .map((record): ListedChangeover => {
      const measured = measuredIn(asked, record);
      return { ...pastChangeover(index, measured), offBook: offBookIn(asked, measured) };
    });
  const opened =
    asked.open === undefined
      ? wanted.at(-1)
      : changeovers.find(({ begin }) => String(epochMs(begin)) === asked.open);
  const last = changeovers.at(-1);
  const over = last && (last.atRate ?? last.end);
  return {
    seen: seenTime(asked, asked.gaps, asked.begun),
    changeovers: wanted.length,
    list,
    kinds: (['size', 'artwork', 'startUp'] as const).filter((kind) =>
      inside.some((one) => one.kind === kind),
    ),
    pairs: pairsOf(index, inside),
    longest: Math.max(0, ...list.map(({ lasted }) => lasted)) as Millis,
    since: over === undefined || over === null ? undefined : millis(between(over, now)),
    goesOn: last !== undefined && over === null,
    opened: opened && openedChangeover(asked, opened),
  };
}

function offBookIn(asked: ChangeoversAsked, { record, over }: Measured): ListedChangeover['offBook'] {
  if (record.kind !== 'size') return undefined;
  const { told, toBook, same } = asked.numbers(record, over);
  const known = [...told, ...toBook, ...same].filter(({ off }) => off !== undefined);
  if (known.length === 0) return undefined;
  return { off: known.filter(({ off }) => off !== 0).length, known: known.length };
}

function isWanted(record: ChangeoverRecord, { kind, pair }: ChangeoverFilter): boolean {
  return (kind === undefined || record.kind === kind) && (pair === undefined || pairOf(record) === pair);
}

/** Undefined for what is no change from one size to another. */
function pairOf({ kind, from, to }: ChangeoverRecord): string | undefined {
  return kind === 'size' ? `${from}.${to}` : undefined;
}

function pairsOf(index: LineIndex, changeovers: readonly ChangeoverRecord[]): ChangeoversPast['pairs'] {
  const pairs = new Map(
    changeovers.filter(({ kind }) => kind === 'size').map((record) => [pairOf(record)!, record]),
  );
  const name = (id: string | null) => index.sizeById.get(id ?? '')?.name ?? id ?? '';
  return [...pairs]
    .map(([id, { from, to }]) => ({ id, from: name(from), to: name(to) }))
    .sort((a, b) => a.id.localeCompare(b.id));
}
