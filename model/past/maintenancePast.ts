import { wallClock, zoneOffset } from '../calendar/calendar.ts';
import type { StopRecord } from '../fold/state.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import type { Rule } from '../normal/evidence.ts';
import { type EpochMs, epochMs, type Instant, type Millis, millis, type Span } from '../units/units.ts';
import { piecesOfStop, placedNow, stoodAt } from './causeNow.ts';
import type { DoneRow } from './donePast.ts';
import { type SeenTime, type StationRef, stationRef } from './past.ts';
import type { StationWorse } from './worsePast.ts';

/** What Maintenance shows: each station's last days, the worst first, and what was done there. */
export interface MaintenancePast {
  readonly seen: SeenTime;
  /** The days that are drawn, by the line's own midnight; unseen: nobody was looking for more than half of it. */
  readonly days: readonly { readonly at: EpochMs; readonly unseen: boolean }[];
  readonly stations: readonly MaintenanceStation[];
  /** The newest first. */
  readonly done: readonly DoneRow[];
}

export interface MaintenanceStation {
  readonly station: StationRef;
  /** Day by day: stops that began in it, and the time that stood in it. */
  readonly days: readonly { readonly stops: number; readonly stood: Millis }[];
  readonly stops: number;
  readonly stood: Millis;
  /** By which rules it is outside its own normal in the newest run, and which have too little to say anything. */
  readonly outside: readonly Rule[];
  readonly tooThin: readonly Rule[];
}

/** [HE2] First those outside their own normal, then by minutes; what is alike stands in the order of the line. */
export function maintenanceStations(
  index: LineIndex,
  stops: readonly StopRecord[],
  days: readonly Instant[],
  worse: readonly StationWorse[],
): readonly MaintenanceStation[] {
  const own = stops.filter((stop) => stop.class !== 'pause' && stop.class !== 'changeover');
  const rows = index.line.stations.map(({ id }): MaintenanceStation => {
    const here = own.filter((stop) => piecesOfStop(stop, days.at(-1)!).some(({ station }) => station === id));
    const cells = days.slice(0, -1).map((from, place) => dayOf(here, id, from, days[place + 1]!));
    const known = worse.find(({ station }) => station === id);
    return {
      station: stationRef(index, id)!,
      days: cells,
      stops: cells.reduce((sum, cell) => sum + cell.stops, 0),
      stood: cells.reduce((sum, cell) => sum + cell.stood, 0) as Millis,
      outside: known?.outside ?? [],
      tooThin: known?.tooThin ?? [],
    };
  });
  const isOut = ({ outside }: MaintenanceStation) => Number(outside.length > 0);
  return rows.sort((a, b) => isOut(b) - isOut(a) || b.stood - a.stood);
}

function dayOf(stops: readonly StopRecord[], id: string, from: Instant, to: Instant) {
  const began = stops.filter(
    (stop) => stop.begin >= from && stop.begin < to && placedNow(stop).station === id,
  );
  const stood = stops.reduce((sum, stop) => sum + stoodAt(stop, id, { from, to }), 0);
  return { stops: began.length, stood: millis(stood as Span) };
}

/** Beginnings of the last days by the line's own midnight, today's the last of them; and now. */
export function lastDays(now: Instant, zone: string, count: number): readonly Instant[] {
  const ms = epochMs(now);
  const local = new Date(ms + zoneOffset(ms, zone));
  const [year, month, today] = [local.getUTCFullYear(), local.getUTCMonth(), local.getUTCDate()];
  const dayBefore = (days: number) => {
    const date = new Date(Date.UTC(year, month, today - days));
    return wallClock(
      { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1, day: date.getUTCDate() },
      '00:00',
      zone,
    );
  };
  return [...Array.from({ length: count }, (_, place) => dayBefore(count - 1 - place)), now];
}
