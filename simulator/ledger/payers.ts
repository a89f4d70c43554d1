import type { Line } from '../../model/line/line.ts';
import type { Instant } from '../../model/units/units.ts';
import type { CompleteChangeover } from './atRate.ts';
import type { StopEntry } from './entries.ts';
import type { Ledger } from './ledger.ts';
import type { TakenPause } from './pauses.ts';

/** Who pays for the time `[from, to)`; a carton at `to` is still credited to it. */
export interface Payer {
  readonly from: Instant;
  readonly to: Instant;
  /** `station|cause`. */
  readonly key: string;
}

/** What decides who pays, besides stops and good cartons. */
interface Known {
  readonly changeovers: readonly CompleteChangeover[];
  readonly pauses: readonly TakenPause[];
}

/** One payer after another from the first data on to `to` (LO3), as far as is known at `to`. */
export function payersOf(ledger: Ledger, line: Line, known: Known, to: Instant): Payer[] {
  const goods = ledger.cartons
    .filter(({ at, fate, mode }) => fate === 'good' && mode === 'produce' && at < to)
    .map(({ at }) => at);
  const stops = ledger.stops.filter(({ begin }) => begin < to);
  const edges = [ledger.start.at, ...goods, to];
  const payers: Payer[] = [];
  let place = 0;
  for (let index = 0; index + 1 < edges.length; index += 1) {
    const from = edges[index] as Instant;
    const until = edges[index + 1] as Instant;
    const within: StopEntry[] = [];
    for (let stop = stops[place]; stop && stop.begin < until; stop = stops[place]) {
      within.push(stop);
      place += 1;
    }
    payers.push(...between(line, known, from, until, within));
  }
  return payers;
}

/** Payers from one good carton to the next: the first stop pays from the good carton on, the others from their beginning. */
function between(line: Line, known: Known, from: Instant, to: Instant, stops: readonly StopEntry[]): Payer[] {
  if (stops.length === 0)
    return [{ from, to, key: changing(known.changeovers, from) ? '|changeover' : '|slow' }];
  return stops.map((stop, index) => ({
    from: index === 0 ? from : stop.begin,
    to: stops[index + 1]?.begin ?? to,
    key: known.pauses.some(({ begin }) => begin === stop.begin) ? '|pauseOver' : keyOf(line, stop),
  }));
}

/** A changeover that has begun and is not yet at rate. Between two good cartons that does not change without a stop. */
function changing(changeovers: readonly CompleteChangeover[], at: Instant): boolean {
  const last = changeovers.findLast(({ begin }) => begin <= at);
  return last !== undefined && (last.atRate === undefined || at < last.atRate);
}

/** LO5: the station of the first fault; nobody's for what people did. */
function keyOf(line: Line, stop: StopEntry): string {
  const reason = line.reasons.find(({ number }) => number === stop.number);
  switch (reason?.kind) {
    case 'changeover':
      return '|changeover';
    case 'machine':
    case 'starved':
    case 'blocked':
      return `${reason.station ?? ''}|stopped`;
    case 'operator':
    case 'safety':
    case 'pause':
    case undefined:
      return '|stopped';
  }
}

/** The payer of a tick; with `ending`, of a carton at that moment, which belongs to the payer that ends with it. */
export function payerAt(payers: readonly Payer[], at: Instant, ending = false): Payer | undefined {
  let low = 0;
  let high = payers.length - 1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    const payer = payers[middle] as Payer;
    if (ending ? at <= payer.from : at < payer.from) high = middle - 1;
    else if (ending ? at > payer.to : at >= payer.to) low = middle + 1;
    else return payer;
  }
  return undefined;
}
