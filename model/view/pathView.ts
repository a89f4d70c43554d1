import { CARTON, causes, lostByKey } from '../fold/account.ts';
import { STATION_WINDOW } from '../fold/state.ts';
import { tailOfRejects } from '../statistics/betaBinomial.ts';
import { stopsThisShift } from './headView.ts';
import { isUnseen, type Seen } from './seen.ts';
import type { LossPart, PathView, StationView } from './view.ts';

/** A station is outside its own normal when so many rejects would come by chance less often than this. */
const BY_CHANCE = 1e-4;
/** Below this many earlier cartons of the size nothing is said about a station's normal. */
const NORMAL_LEAST = 3000;

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

/** Rejects of a station among the run's last cartons, when they are more than its own normal explains. */
export function rejectsOutOfNormal(seen: Seen, place: number): StationView['rejects'] {
  const { state } = seen;
  const record = state.stations[place];
  const size = state.size;
  if (!record || size === null) return undefined;
  const of = Math.min(STATION_WINDOW, state.runCartons);
  const inLast = record.rejectedAt.filter((ordinal) => ordinal > state.runCartons - of).length;
  const earlier = (state.cartonsBySize[size] ?? 0) - of;
  const earlierRejects = (record.rejectsBySize[size] ?? 0) - inLast;
  if (earlier < NORMAL_LEAST || of < 100 || inLast < 3) return undefined;
  if (tailOfRejects(inLast, of, earlierRejects, earlier) > BY_CHANCE) return undefined;
  return { inLast, of, normal: Math.round((earlierRejects * of) / earlier) };
}

function stationView(seen: Seen, id: string, place: number, whole: readonly number[]): StationView {
  const station = seen.index.line.stations[place]!;
  const parts = causesAt(whole, place);
  const holds = !isUnseen(seen) && seen.openStop?.station === id && seen.openStop.kind !== 'operator';
  const rejects = rejectsOutOfNormal(seen, place);
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
