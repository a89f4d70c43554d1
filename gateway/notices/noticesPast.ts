import type { NoticeRecord } from '../../model/notices/notice.ts';
import { after, type Instant, minutes, type Span } from '../../model/units/units.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Records } from '../records/records.ts';

/** Notices of so many days as they stand in the records, the oldest first. */
export function noticesIn(records: Records, live: LiveLine, days: number): readonly NoticeRecord[] {
  const to = after(live.now(), 1 as Span);
  const from = (to - minutes(days * 24 * 60)) as Instant;
  return records.ask({ line: live.line.id, kind: 'notice', from, to });
}
