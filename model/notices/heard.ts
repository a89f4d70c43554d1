import { isStrongEnough } from './budget.ts';
import type { NoticeRecord } from './notice.ts';
import type { RecipientSettings } from './recipients.ts';
import type { NoticeSettings } from './settings.ts';

/** What a station is judged to be: whoever watches others is not told of it. */
const JUDGED: ReadonlySet<string> = new Set(['stops', 'stopsCounted', 'rejects', 'loose']);

/**
 * Recipients that a notice is for at all: whoever watches other stations, or wants stronger evidence, is not told of what a station is
 * judged to be. Anything else, and whatever is urgent, is for everybody.
 */
export function recipientsOf(
  { facts, station, level, kind }: Readonly<NoticeRecord>,
  { who, when }: NoticeSettings,
  stations: number,
): RecipientSettings {
  if (level === 'urgent' || !JUDGED.has(kind)) return who;
  const recipients = who.recipients.filter(
    (recipient) =>
      (station === null || recipient.stations === undefined || recipient.stations.includes(station)) &&
      isStrongEnough(facts, recipient, when, stations),
  );
  return { ...who, recipients };
}
