import { CARTON, causes, lostByKey } from '../fold/account.ts';
import { type StationRejects, stationRejects } from '../fold/normal.ts';
import type { Instant } from '../units/units.ts';
import { stopsThisShift } from './headView.ts';
import { isUnseen, type Seen } from './seen.ts';
import type { LossPart, PathView, StationView } from './view.ts';

/** [LO7] Cartons lost this shift, in whole cartons that add up to possible minus good without a rest. */
export function pathView(seen: Seen): PathView {
  const { index, account } = seen;
  const possible = Math.floor(account.possible / CARTON);
  const whole = wholeCartons(lostByKey(account), possible - account.good);
  const stations = index.line.stations.map((station, place) => stationView(seen, station.id, place, whole));
  const none = causesAt(whole, index.line.stations.length);
  return {
    total: possible - account.good,
    possible,
    good: account.good,
    stations,
    none: { lost: sum(none), causes: none },
    causes: causes
      .map((cause, column) => ({
        cause,
        cartons: whole.reduce(
          (total, cartons, key) => (key % causes.length === column ? total + cartons : total),
          0,
        ),
      }))
      .filter((part) => part.cartons !== 0),
  };
}

/** Parts in whole cartons: the largest remainders are rounded up until the total is met. */
export function wholeCartons(parts: readonly number[], total: number): number[] {
  const whole = parts.map((part) => Math.floor(part / CARTON));
  let rest = total - whole.reduce((a, b) => a + b, 0);
  const order = parts
    .map((part, key) => ({ key, remainder: part - Math.floor(part / CARTON) * CARTON }))
    .sort((a, b) => b.remainder - a.remainder || a.key - b.key);
  for (const { key } of order) {
    if (rest <= 0) break;
    whole[key]! += 1;
    rest -= 1;
  }
  return whole;
}

/** [RJ1] Since when a station is outside its own normal, and by how much; undefined while it is not. */
export function rejectsOutOfNormal(
  { state }: Seen,
  place: number,
): { readonly since: Instant; readonly rejects: StationRejects } | undefined {
  const since = state.stations[place]?.outSince ?? null;
  return since === null ? undefined : { since, rejects: stationRejects(state, place) };
}

function stationView(seen: Seen, id: string, place: number, whole: readonly number[]): StationView {
  const station = seen.index.line.stations[place]!;
  const parts = causesAt(whole, place);
  const holds = !isUnseen(seen) && seen.openStop?.station === id && seen.openStop.kind !== 'operator';
  const rejects = rejectsOutOfNormal(seen, place)?.rejects;
  return {
    id,
    number: station.number,
    name: station.name,
    drawing: station.drawing,
    lost: sum(parts),
    causes: parts,
    mark: holds ? 'firstFault' : rejects ? 'abnormal' : 'none',
    rejects,
    stops: stopsThisShift(seen).filter((stop) => stop.station === id).length,
  };
}

function causesAt(whole: readonly number[], place: number): LossPart[] {
  return causes
    .map((cause, column) => ({ cause, cartons: whole[place * causes.length + column]! }))
    .filter((part) => part.cartons !== 0)
    .sort((a, b) => b.cartons - a.cartons);
}

function sum(parts: readonly LossPart[]): number {
  return parts.reduce((total, part) => total + part.cartons, 0);
}
