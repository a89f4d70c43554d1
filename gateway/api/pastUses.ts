import type { LineIndex } from '../../model/fold/lineIndex.ts';
import { type Use, type UseRecords, usesOf } from '../../model/past/uses.ts';
import type { RecordBodies } from '../../model/records/records.ts';
import { closedSubject, openedSubject, pressSubject } from '../../model/records/subjects.ts';
import { HOUR, type Instant, MINUTE, type Span } from '../../model/units/units.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import { recordsIn } from './pastAsked.ts';

type Guard = RecordBodies['guard'];

/** So much around a use says in which stop it was, or which came of it, and whether anybody looked. */
const NEAR = MINUTE;
/** A walk back is gone once up to the beginning of a month, and from there on remembered. */
const MONTH = (30 * 24 * HOUR) as Span;

/** Where uses of one device or guard are looked up. */
interface Looking {
  readonly of: string;
  /** The newest before a moment; `ran`: of those only with which the line may have run. */
  readonly newest: (before: Instant, ran: boolean) => Instant | undefined;
  /** The use that began just then; undefined where it was none, as a guard that is read open once more. */
  readonly use: (at: Instant) => Use | undefined;
}

/** What each device and guard did last before a moment, and last while the line ran, however long ago; the oldest first. */
export function usesBefore(records: RecordsRead, index: LineIndex, before: Instant): readonly Use[] {
  const { id, devices, guards } = index.line;
  return records.remember(id, `uses before ${before}`, (before + NEAR) as Instant, () =>
    [
      ...devices.map((device, place) => lookingAtDevice(records, index, device.id, place)),
      ...guards.map((guard) => lookingAtGuard(records, index, guard.id)),
    ]
      .flatMap((looking) => {
        const last = lastUse(looking, { before, until: 0 as Instant, ran: false });
        const ran = last?.role === 'during' ? lastRan(records, index, looking, before) : undefined;
        return [...(ran ? [ran] : []), ...(last ? [last] : [])];
      })
      .sort((a, b) => a.at - b.at),
  );
}

/** How a guard was read last before a moment: none or one. */
export function guardBefore(
  records: RecordsRead,
  line: string,
  guard: string,
  before: Instant,
): readonly Guard[] {
  const subjects = [openedSubject(guard, true), openedSubject(guard, false), closedSubject(guard)];
  return subjects
    .flatMap((subject) => records.newestOf({ line, kind: 'guard', subject }, before, 1))
    .sort((a, b) => b.at - a.at)
    .slice(0, 1);
}

function lastRan(records: RecordsRead, index: LineIndex, looking: Looking, before: Instant): Use | undefined {
  const month = (before - (before % MONTH)) as Instant;
  return (
    lastUse(looking, { before, until: month, ran: true }) ??
    records.remember(index.line.id, `${looking.of} ran before ${month}`, (month + NEAR) as Instant, () =>
      lastUse(looking, { before: month, until: 0 as Instant, ran: true }),
    )
  );
}

/** What may have run often turns out not to have, where a stop is known from cycles alone: then the one before is looked at. */
function lastUse(
  { newest, use }: Looking,
  { before, until, ran }: { readonly before: Instant; readonly until: Instant; readonly ran: boolean },
): Use | undefined {
  for (let at = newest(before, ran); at !== undefined && at >= until; at = newest(at, ran)) {
    const found = use(at);
    if (found && !(ran && found.role === 'during')) return found;
  }
  return undefined;
}

function lookingAtDevice(records: RecordsRead, index: LineIndex, id: string, place: number): Looking {
  const newest = (before: Instant, ran: boolean) => {
    const of = (subject: string) =>
      records.newestOf({ line: index.line.id, kind: 'press', subject }, before, 1);
    return latest(
      [...of(pressSubject(place, true)), ...(ran ? [] : of(pressSubject(place, false)))],
      (one) => one.pressed,
    );
  };
  return {
    of: id,
    newest,
    use: (at) => usesOf(index, near(records, index, at)).findLast((use) => use.of === id && use.at === at),
  };
}

function lookingAtGuard(records: RecordsRead, index: LineIndex, id: string): Looking {
  const line = index.line.id;
  const newest = (before: Instant, ran: boolean) => {
    const of = (subject: string) => records.newestOf({ line, kind: 'guard', subject }, before, 1);
    return latest(
      [...of(openedSubject(id, true)), ...(ran ? [] : of(openedSubject(id, false)))],
      (one) => one.at,
    );
  };
  const use = (at: Instant) => {
    const around = near(records, index, at);
    const moves = around.guards.filter((one) => one.guard === id && one.at >= at);
    return usesOf(index, { ...around, guards: [...guardBefore(records, line, id, at), ...moves] }).findLast(
      (one) => one.of === id && one.at === at,
    );
  };
  return { of: id, newest, use };
}

function near(records: RecordsRead, { line }: LineIndex, at: Instant): UseRecords {
  const of = recordsIn(records, line.id, { from: (at - NEAR) as Instant, to: (at + NEAR) as Instant });
  return { stops: of('stop'), presses: of('press'), guards: of('guard'), gaps: of('gap') };
}

function latest<One>(all: readonly One[], at: (one: One) => Instant): Instant | undefined {
  return all.length === 0 ? undefined : (Math.max(...all.map(at)) as Instant);
}
