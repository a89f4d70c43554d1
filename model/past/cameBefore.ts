import type { LineIndex } from '../fold/lineIndex.ts';
import type { StopRecord } from '../fold/state.ts';
import { between, type Instant, type Millis, millis, minutes, type Span } from '../units/units.ts';
import { type StationRef, stationRef } from './past.ts';
import type { Use, UseRecords } from './uses.ts';

/**
 * What came before a use: the stop it was used in, or what the minute before holds. Came before, never caused by.
 * In the order in which screens count them.
 */
export const BEFORE = [
  'fault',
  'outside',
  'people',
  'safety',
  'noReason',
  'restarting',
  'guard',
  'press',
  'nothing',
  'uncertain',
  'unseen',
] as const;
export type BeforeKind = (typeof BEFORE)[number];

export interface CameBefore {
  readonly kind: BeforeKind;
  /** What it was, by name; undefined where it has none. */
  readonly name: string | undefined;
  readonly station: StationRef | undefined;
  /** So long before; of `restarting`, the restart. Undefined where nothing is named. */
  readonly ago: Millis | undefined;
}

const LOOKED = minutes(1);

/** `uses`: all of them, the oldest first. */
export function cameBefore(
  index: LineIndex,
  records: Pick<UseRecords, 'stops' | 'gaps'>,
  uses: readonly Use[],
  use: Use,
): CameBefore {
  const { at, stop } = use;
  const from = (at - LOOKED) as Instant;
  if (!use.owned) return nothing('unseen');
  if (use.role === 'uncertain') return { ...named(index, stop, at), kind: 'uncertain' };
  if (use.role === 'during' && stop) return named(index, stop, at);
  const ended = records.stops.findLast(({ end }) => end !== null && end <= at && end >= from);
  if (ended) return { ...named(index, ended, at), kind: 'restarting', ago: agoOf(ended.end!, at) };
  const other = uses.findLast((one) => one.at < at && one.at >= from && one.owned && one.of !== use.of);
  if (other) {
    const list = other.kind === 'opened' ? index.line.guards : index.line.devices;
    return {
      kind: other.kind === 'opened' ? 'guard' : 'press',
      name: list.find(({ id }) => id === other.of)?.name,
      station: undefined,
      ago: agoOf(other.at, at),
    };
  }
  return records.gaps.some((gap) => gap.kind === 'unknown' && gap.from < at && gap.to > from)
    ? nothing('unseen')
    : nothing('nothing');
}

function named(index: LineIndex, stop: StopRecord | undefined, at: Instant): CameBefore {
  if (!stop) return nothing('nothing');
  return {
    kind: kindOf(stop),
    name: index.reasonByNumber.get(stop.reason)?.name,
    station: stationRef(index, stop.station),
    ago: agoOf(stop.begin, at),
  };
}

function kindOf({ kind }: StopRecord): BeforeKind {
  switch (kind) {
    case 'machine':
      return 'fault';
    case 'starved':
    case 'blocked':
      return 'outside';
    case 'operator':
    case 'changeover':
    case 'pause':
      return 'people';
    case 'safety':
      return 'safety';
    case null:
      return 'noReason';
  }
}

function nothing(kind: BeforeKind): CameBefore {
  return { kind, name: undefined, station: undefined, ago: undefined };
}

function agoOf(then: Instant, at: Instant): Millis {
  return millis(Math.max(0, between(then, at)) as Span);
}
