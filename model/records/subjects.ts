import type { ChangeoverRecord } from '../fold/state.ts';
import type { Fitted } from '../entries/sheetEntries.ts';
import { HOUR, type Instant } from '../units/units.ts';
import { notedIn } from './noted.ts';
import type { LineRecord } from './records.ts';

/** By what a record can be found whatever lies between: "the last test of this device". Null for most. */
export function subjectOf(record: LineRecord): string | null {
  switch (record.kind) {
    case 'press':
      return pressSubject(record.body.device, record.body.role !== 'during');
    case 'guard':
      return record.body.open
        ? openedSubject(record.body.guard, record.body.ran)
        : closedSubject(record.body.guard);
    case 'changeover':
      // one that never came to its rate is compared with no other
      return record.body.atRate === null ? null : changeoverSubject(record.body);
    case 'entry': {
      const { entry } = record.body;
      const noted = notedIn(record.body);
      if (noted) return noted.marks ? notedSubject(dayOf(noted.about)) : null;
      if (entry.kind === 'tested') return testedSubject(entry.device);
      if (entry.kind === 'closed') return findingSubject(entry.finding);
      if (entry.kind === 'signed')
        return entry.page === undefined ? signedSubject(entry.of) : signedPageSubject(entry.of);
      if (entry.kind === 'changed') return changedSubject(entry.station);
      if (entry.kind === 'reading' || entry.kind === 'asBook' || entry.kind === 'datum')
        return settingSubject(entry.station);
      if (entry.kind === 'book') return bookSubject(entry.size, entry.adjustment);
      if (entry.kind === 'fitted') return fittedSubject(entry.what);
      if (entry.kind === 'looked') return lookedSubject(entry.station);
      if (entry.kind === 'target') return TARGET;
      return entry.kind === 'crew' ? CREW : null;
    }
    case 'order':
      return record.body.crew === null ? null : CREW;
    case 'move':
      return movedSubject(record.body.adjustment);
    default:
      return null;
  }
}

/** So many load from here on, as people said: in an entry of its own, or with an order that began. */
export const CREW = 'crew';

const DAY = 24 * HOUR;

function dayOf(at: Instant): number {
  return Math.floor(at / DAY);
}

/** [RP21] Notes about moments of one day, whenever they were entered; days are counted in UTC. */
function notedSubject(day: number): string {
  return `noted ${day}`;
}

/** [RP21] Subjects of all notes about moments of a stretch, and of some beside it. */
export function notedSubjects(from: Instant, to: Instant): readonly string[] {
  const [first, last] = [dayOf(from), dayOf(to)];
  return Array.from({ length: last - first + 1 }, (_, n) => notedSubject(first + n));
}

/** [EN3] What was changed at a station. */
export function changedSubject(station: string): string {
  return `changed ${station}`;
}

/** [SP1] What people said of a station's numbers: read, confirmed as the book's, or begun anew. */
export function settingSubject(station: string): string {
  return `set ${station}`;
}

/** [BK1] What was approved for a size. */
export function bookSubject(size: string, adjustment: string): string {
  return `book ${size} ${adjustment}`;
}

/** [DG8] How the cartons of a station look that it spoils. */
export function lookedSubject(station: string): string {
  return `looked ${station}`;
}

export function fittedSubject(what: Fitted): string {
  return `fitted ${what}`;
}

/** [SP5] What a sensor told. */
export function movedSubject(adjustment: string): string {
  return `moved ${adjustment}`;
}

/** [EN4] At how many a minute a size is to be made by a crew, as people said. */
export const TARGET = 'target';

/** `ran`: the line still produced when it was pressed, or that is not certain. */
export function pressSubject(device: number, ran: boolean): string {
  return `${device} ${ran ? 'ran' : 'during'}`;
}

export function openedSubject(guard: string, ran: boolean): string {
  return `${guard} opened ${ran ? 'ran' : 'stood'}`;
}

export function closedSubject(guard: string): string {
  return `${guard} closed`;
}

export function testedSubject(device: string): string {
  return `tested ${device}`;
}

export function findingSubject(finding: string): string {
  return `closed ${finding}`;
}

/** The signature that bears a report's page. */
export function signedPageSubject(of: string): string {
  return `signed page ${of}`;
}

/** The other signatures under one report. */
export function signedSubject(of: string): string {
  return `signed ${of}`;
}

/** Changeovers that are compared have the same. */
export function changeoverSubject({
  kind,
  from,
  to,
}: Pick<ChangeoverRecord, 'kind' | 'from' | 'to'>): string {
  return kind === 'size' ? `size ${from} ${to}` : kind;
}
