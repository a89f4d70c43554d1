import type { Line, RejectReason } from '../line/line.ts';

/** Whom rejects of one reason may come from. The last weight, and the last part, are nobody's. */
export interface Suspects {
  readonly reason: string;
  /** Places of stations among the line's, as cartons pass them. */
  readonly stations: readonly number[];
  /** How likely each is before anything was seen, and nobody last; they add up to 1. */
  readonly prior: readonly number[];
  /** Place of its first part among all parts. */
  readonly first: number;
  /**
   * How much of what is likely has a sensor of its own: that much an unseen near miss says, too. None where there is one
   * station only, which no sight can tell from another.
   */
  readonly sensed: number;
}

/** What the estimate needs to know of a line. Made once, never changed. */
export interface AttributionIndex {
  readonly suspects: readonly Suspects[];
  /** Place of a reason among them; notLoaded is no reject and not among them. */
  readonly placeOf: ReadonlyMap<string, number>;
  /** Pockets from each station to the check. */
  readonly pockets: readonly number[];
  /** The longest of these: as many cycles a carton is in the machine. */
  readonly pocketsMost: number;
  /** Signal by which each station counts its near misses; −1 for none, and where nobody counts the cycles in which they come. */
  readonly sensors: readonly number[];
  readonly parts: number;
}

/** Where the line file names the stations, the charged one counts twice, and a twentieth is nobody's. */
const NAMED = { charged: 2, nobody: 0.05 };
/** Where it does not, half is the charged one's and a fifth nobody's; the rest any station's of the line. */
const ANY = { charged: 0.5, nobody: 0.2 };

export function attributionIndex(line: Line): AttributionIndex {
  const hasCycles = line.signals.some(({ role, machine }) => role === 'cycleCount' && machine === line.pace);
  const sensors = line.stations.map(({ id }) =>
    hasCycles ? line.signals.findIndex(({ role, of }) => role === 'nearMissCount' && of === id) : -1,
  );
  const reasons = line.rejects.filter(({ means }) => means === 'reject');
  let first = 0;
  const suspects = reasons.map((reason): Suspects => {
    const stations = stationsOf(line, reason);
    const prior = priorOf(line, reason, stations);
    const mine = first;
    first += prior.length;
    return { reason: reason.id, stations, prior, first: mine, sensed: sensedOf(stations, prior, sensors) };
  });
  const pockets = line.stations.map(({ pocketsToDischarge }) => pocketsToDischarge);
  return {
    suspects,
    placeOf: new Map(suspects.map(({ reason }, place) => [reason, place])),
    pockets,
    pocketsMost: Math.max(0, ...pockets),
    sensors,
    parts: first,
  };
}

function sensedOf(stations: readonly number[], prior: readonly number[], sensors: readonly number[]): number {
  if (stations.length < 2) return 0;
  const withSensor = stations.reduce((sum, place, n) => sum + (sensors[place]! < 0 ? 0 : prior[n]!), 0);
  return withSensor / (1 - prior.at(-1)!);
}

function stationsOf({ stations }: Line, { station, from }: RejectReason): readonly number[] {
  const named = from && new Set([...from, station]);
  return stations.flatMap(({ id }, place) => (!named || named.has(id) ? [place] : []));
}

function priorOf({ stations }: Line, { station, from }: RejectReason, places: readonly number[]): number[] {
  const others = places.filter((place) => stations[place]!.id !== station).length;
  const { nobody } = from ? NAMED : ANY;
  // a reason of one station only is that one's or nobody's
  const charged =
    others === 0
      ? 1 - nobody
      : from
        ? ((1 - nobody) * NAMED.charged) / (NAMED.charged + others)
        : ANY.charged;
  const other = others === 0 ? 0 : (1 - nobody - charged) / others;
  return [...places.map((place) => (stations[place]!.id === station ? charged : other)), nobody];
}
