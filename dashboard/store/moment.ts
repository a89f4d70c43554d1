import type { Sight } from '../../model/view/view.ts';
import type { EpochMs, Millis } from '../../model/units/units.ts';

/** Messages come once a second; without one for this long the view is stale, whatever it says of itself. */
export const STALE_MS = 3_000;
/** Without one for this long its numbers are no data. */
export const LOST_MS = 60_000;

/** What may be said now: how far the last view can be vouched for, and the moment the screens count with. */
export interface Moment {
  readonly sight: Sight['kind'];
  /**
   * Who is silent: the gateway towards this screen, or the PLC towards the gateway; none where both speak. `tape`: what
   * they say cannot be recorded.
   */
  readonly cause: 'none' | 'gateway' | 'plc' | 'tape';
  /** Goes on while live. Stands at the last moment anything was seen otherwise: elapsed times stop there. */
  readonly now: EpochMs;
  /** The time of day, which goes on. */
  readonly clock: EpochMs;
  readonly age: Millis | undefined;
  readonly lastAt: EpochMs | undefined;
  /** How long the gateway has said nothing. */
  readonly silent: Millis;
}

const ORDER: readonly Sight['kind'][] = ['live', 'stale', 'lost', 'never'];

/**
 * `silent` is the time since the last message, by this screen's own clock. A line whose state nobody can tell (`unseen`)
 * is lost however fresh the view is: a gateway that ends says so in its last one.
 */
export function momentOf(at: EpochMs, sight: Sight, silent: number, unseen = false): Moment {
  const own: Sight['kind'] = unseen
    ? 'lost'
    : silent < STALE_MS
      ? 'live'
      : silent < LOST_MS
        ? 'stale'
        : 'lost';
  const worse = ORDER.indexOf(own) > ORDER.indexOf(sight.kind) ? own : sight.kind;
  const behind = sight.unrecordedSince === undefined ? 'plc' : 'tape';
  const cause = silent >= STALE_MS ? 'gateway' : sight.kind === 'live' ? 'none' : behind;
  const clock = (at + silent) as EpochMs;
  return {
    sight: worse,
    cause,
    clock,
    now: worse === 'live' ? clock : (sight.lastAt ?? at),
    age: sight.age === undefined ? undefined : ((sight.age + silent) as Millis),
    lastAt: sight.lastAt,
    silent: silent as Millis,
  };
}

/** When what is shown was last true: as the last view says, or, with the gateway silent, when that view came. */
export function readAt(moment: Moment): EpochMs {
  return moment.cause === 'gateway' ? moment.now : (moment.lastAt ?? moment.now);
}

/** How long from a moment until what the screens count with; never negative. */
export function since(moment: Moment, from: EpochMs): Millis {
  return Math.max(0, moment.now - from) as Millis;
}
