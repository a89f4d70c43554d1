import { between, HOUR, type Instant } from '../units/units.ts';
import type { Condition } from './condition.ts';
import type { NoticeFacts, NoticeKind, NoticeRecord } from './notice.ts';
import { NOTICE_LEVELS } from './recipients.ts';

/** What is said of one station. */
const OF_STATION: ReadonlySet<NoticeKind> = new Set(['stops', 'stopsCounted', 'rejects', 'loose']);
/** What follows for the whole line from what one station does. */
const OF_OUTPUT: ReadonlySet<NoticeKind> = new Set(['rate', 'lost', 'changeover']);
/** Nobody can tell what the line does. */
const OF_SIGHT: ReadonlySet<NoticeKind> = new Set(['server', 'unseen', 'clock']);

/**
 * [NL6] Whether something comes of what an open notice is already about, so that it joins it: the same station, the same
 * stop by its first fault, what the line lost there, or the same server. What is graver never joins what is less so: nobody
 * would be told of it.
 */
export function isSameCause(
  { facts, level, station, stop }: Condition,
  notice: Readonly<NoticeRecord>,
  now: Instant,
): boolean {
  if (NOTICE_LEVELS.indexOf(level) > NOTICE_LEVELS.indexOf(notice.level)) return false;
  // on a shelf, or back to normal, it would be told to nobody, or as what it was before
  if (notice.shelved || notice.normalAt !== null) return false;
  const [kind, whole] = [facts.kind, notice.kind];
  if (OF_STATION.has(kind)) {
    if (OF_STATION.has(whole))
      return station === notice.station || (stop !== undefined && stop === notice.stop);
    return false;
  }
  if (OF_OUTPUT.has(kind) && OF_STATION.has(whole)) {
    const most = facts.kind === 'lost' || facts.kind === 'rate' ? facts.most : undefined;
    return most !== undefined && most === notice.station && between(notice.at, now) < HOUR;
  }
  if (OF_OUTPUT.has(kind)) return OF_OUTPUT.has(whole);
  if (kind === 'press') return stop !== undefined && stop === notice.stop && whole === 'press';
  return OF_SIGHT.has(kind) && OF_SIGHT.has(whole) && isSameServer(facts, notice.facts);
}

/** That nobody sees the line is said of no server in particular. */
function isSameServer(one: NoticeFacts, other: NoticeFacts): boolean {
  const serverOf = (facts: NoticeFacts) =>
    facts.kind === 'server' || facts.kind === 'clock' ? facts.server : undefined;
  const [a, b] = [serverOf(one), serverOf(other)];
  return a === undefined || b === undefined || a === b;
}
