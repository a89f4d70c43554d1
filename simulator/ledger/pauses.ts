import type { Line } from '../../model/line/line.ts';
import { after, between, type Instant, type Span } from '../../model/units/units.ts';
import { pauseWindows } from '../calendar/windows.ts';
import type { Ledger } from './ledger.ts';

/** A stop that is a planned pause (ST8): what it may last without being a loss ends at `allowedUntil`. */
export interface TakenPause {
  readonly begin: Instant;
  readonly allowedUntil: Instant;
  readonly end: Instant;
}

/** Stops that people began inside a pause's window, while its allowance is not used up; known up to `to`. */
export function takenPauses(ledger: Ledger, line: Line, to: Instant): TakenPause[] {
  const used = new Map<Instant, number>();
  const windows = pauseWindows(line.calendar, line.zone, ledger.start.at, to);
  return ledger.stops.flatMap((stop) => {
    const kind = line.reasons.find(({ number }) => number === stop.number)?.kind;
    if (stop.begin >= to || (kind !== 'operator' && kind !== 'pause')) return [];
    const window = windows.find(({ from, to: closes }) => from <= stop.begin && stop.begin < closes);
    const left = window ? window.allowance - (used.get(window.from) ?? 0) : 0;
    if (!window || left <= 0) return [];
    const end = stop.end === undefined || stop.end > to ? to : stop.end;
    const allowedUntil = Math.min(end, after(stop.begin, left as Span)) as Instant;
    used.set(window.from, (used.get(window.from) ?? 0) + between(stop.begin, allowedUntil));
    return [{ begin: stop.begin, allowedUntil, end }];
  });
}
