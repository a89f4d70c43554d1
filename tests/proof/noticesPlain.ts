import type { PlainMoment, QuietRow, TroubleRow } from './notices.ts';

/** "So many stops within minutes of running, or within cartons." */
export interface PlainRule {
  readonly stops: number;
  readonly within: number;
  readonly by: 'minutes' | 'cartons';
}

/** Stops of the station since the trouble began, the calling one among them, and cartons; null where it was not called. */
export type Delay = { readonly stops: number; readonly cartons: number } | null;

const COUNTS = Array.from({ length: 11 }, (_, place) => place + 2);
/** Each window is a twelfth wider than the one before: 5 minutes to 8 hours of running, and as many cartons of a fast line. */
const upTo = (from: number, to: number) =>
  Array.from({ length: 1 + Math.floor(Math.log(to / from) / Math.log(13 / 12)) }, (_, place) =>
    Math.round(from * (13 / 12) ** place),
  );
export const WINDOWS = { minutes: upTo(5, 480), cartons: upTo(300, 30_000) } as const;
/** Windows beyond a shift, which only cartons are counted in. */
export const LONG_WINDOWS = { minutes: [], cartons: upTo(30_000, 60_000) } as const;

export function plainRules(
  windows: Readonly<Record<PlainRule['by'], readonly number[]>>,
): readonly PlainRule[] {
  return (['minutes', 'cartons'] as const).flatMap((by) =>
    COUNTS.flatMap((stops) => windows[by].map((within) => ({ stops, within, by }))),
  );
}

const placeOf = ([minutes, cartons]: PlainMoment, by: PlainRule['by']) =>
  by === 'minutes' ? minutes : cartons;

/**
 * Places of the stops that call anew. A call lasts until the next stop finds no other in its window: less often anew than where the
 * count has only to fall below the rule's, so that a plain rule may be the wider for as many false calls.
 */
export function newCalls(
  stops: readonly PlainMoment[],
  { stops: least, within, by }: PlainRule,
): readonly number[] {
  const calls: number[] = [];
  let [first, on] = [0, false];
  stops.forEach((stop, place) => {
    while (placeOf(stops[first]!, by) <= placeOf(stop, by) - within) first += 1;
    if (first === place) on = false;
    if (on || place - first + 1 < least) return;
    on = true;
    calls.push(place);
  });
  return calls;
}

export function falseCalls(rows: readonly QuietRow[], rule: PlainRule, station?: string): number {
  const of = (row: QuietRow) =>
    station === undefined ? Object.values(row.stops) : [row.stops[station] ?? []];
  return rows.reduce(
    (sum, row) => sum + of(row).reduce((calls, stops) => calls + newCalls(stops, rule).length, 0),
    0,
  );
}

export function plainDelay({ stops, before, began }: TroubleRow, rule: PlainRule): Delay {
  const call = newCalls(stops, rule).find((place) => place >= before);
  return call === undefined ? null : { stops: call - before + 1, cartons: stops[call]![1] - began };
}

/** The one rule for all stations that was soonest, of those that call falsely no oftener. */
export function bestForLine(
  quiet: readonly QuietRow[],
  trouble: readonly TroubleRow[],
  most: number,
  windows: Parameters<typeof plainRules>[0],
): { readonly rule: PlainRule; readonly falsely: number; readonly delays: readonly Delay[] } {
  const allowed = plainRules(windows).filter((rule) => falseCalls(quiet, rule) <= most);
  const tried = allowed.map((rule) => ({ rule, delays: trouble.map((row) => plainDelay(row, rule)) }));
  const best = tried.reduce((one, other) => (sooner(other.delays, one.delays) ? other : one));
  return { ...best, falsely: falseCalls(quiet, best.rule) };
}

/** A rule of its own for each station, each of which may take an equal share of the false calls. */
export function bestForEach(
  quiet: readonly QuietRow[],
  trouble: readonly TroubleRow[],
  most: number,
  windows: Parameters<typeof plainRules>[0],
): { readonly falsely: number; readonly delays: readonly Delay[] } {
  const stopping = Object.keys(quiet[0]!.stops).filter((id) =>
    quiet.some(({ stops }) => stops[id]!.length > 0),
  );
  const rules = plainRules(windows);
  let falsely = 0;
  const delays: Delay[] = trouble.map(() => null);
  for (const station of stopping) {
    const own = trouble.filter((row) => row.station === station);
    if (own.length === 0) continue;
    const tried = rules
      .map((rule) => ({ rule, calls: falseCalls(quiet, rule, station) }))
      .filter(({ calls }) => calls <= most / stopping.length)
      .map(({ rule, calls }) => ({ calls, delays: own.map((row) => plainDelay(row, rule)) }));
    const best = tried.reduce((one, other) => (sooner(other.delays, one.delays) ? other : one));
    falsely += best.calls;
    let next = 0;
    trouble.forEach((row, place) => {
      if (row.station === station) delays[place] = best.delays[next++]!;
    });
  }
  return { falsely, delays };
}

/** Less delay: by the mean, where what was not called counts as twelve stops, as many as any rule counts to. */
function sooner(a: readonly Delay[], b: readonly Delay[]): boolean {
  const mean = (delays: readonly Delay[]) =>
    delays.reduce((sum, delay) => sum + Math.min(COUNTS.at(-1)!, delay?.stops ?? Infinity), 0);
  return mean(a) < mean(b);
}
