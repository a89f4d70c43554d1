import { targetTenths } from '../fold/target.ts';
import { type Instant, MINUTE, type Span } from '../units/units.ts';
import { isUncounted, type Seen } from './seen.ts';
import type { Pocket, RateView } from './view.ts';

/** Cartons per minute now: good cartons of the last minute (line rate), and the same per minute of running. */
export function rateView(seen: Seen): RateView {
  const { state } = seen;
  const from = (seen.now - MINUTE) as Instant;
  const unseen = isUncounted(seen);
  const stood = stoodWithin(seen, from, seen.now);
  const ran = MINUTE - stood;
  const target = targetNow(seen);
  const good = goodWithin(seen, from, seen.now);
  const whole = state.shift.from <= from || state.stops.length > 0;
  return {
    perMinute: unseen || !whole ? undefined : good,
    uncertain: touchesGap(seen, from),
    running: unseen || ran < MINUTE / 6 ? undefined : Math.round((good * MINUTE) / ran),
    before: seen.openStop && goodWithin(seen, (seen.openStop.begin - MINUTE) as Instant, seen.openStop.begin),
    target,
    crew: state.crew,
    pockets: pocketsOf(seen, from, unseen, target),
  };
}

/** Target in cartons per minute; undefined while the size is not known. */
export function targetNow(seen: Seen): number | undefined {
  const tenths = targetTenths(seen);
  return tenths > 0 ? tenths / 10 : undefined;
}

function pocketsOf(seen: Seen, from: Instant, unseen: boolean, target: number | undefined): Pocket[] {
  const most = Math.round(target ?? 0);
  if (unseen) return new Array<Pocket>(most).fill('unknown');
  const came = seen.state.outcomes.filter((outcome) => outcome.at > from && outcome.at <= seen.now);
  const pockets = came.slice(-most).map((outcome) => outcome.pocket);
  while (pockets.length < most) pockets.push('none');
  return pockets;
}

function goodWithin(seen: Seen, from: Instant, to: Instant): number {
  let good = 0;
  for (const { at, pocket } of seen.state.outcomes) if (pocket === 'good' && at > from && at <= to) good += 1;
  return good;
}

function stoodWithin(seen: Seen, from: Instant, to: Instant): Span {
  let stood = 0;
  for (const stop of seen.state.stops.slice(-20)) {
    stood += Math.max(0, Math.min(stop.end ?? to, to) - Math.max(stop.begin, from));
  }
  return stood as Span;
}

function touchesGap(seen: Seen, from: Instant): boolean {
  const last = seen.state.shift.gaps.at(-1);
  return last !== undefined && last.kind === 'unknown' && last.to > from;
}
