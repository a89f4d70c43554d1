import { createHash } from 'node:crypto';
import type { Entry } from '../../model/entries/entries.ts';
import type { RecordBodies } from '../../model/records/records.ts';
import { signedPageSubject, signedSubject } from '../../model/records/subjects.ts';
import { textOf } from '../../model/report/reportDifferences.ts';
import type { Report, SignedReport } from '../../model/report/report.ts';
import type { Instant } from '../../model/units/units.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import { report as pageSchema } from './reportSchema.ts';

/** Signatures under one report, at most. */
export const SIGNATURES_MOST = 20;

/** Clocks are set: what was entered counts, whatever moment it bears. */
const AFTER_ALL = Number.MAX_SAFE_INTEGER as Instant;

type Signed = Entry & { kind: 'signed' };

/** The page that was signed first, and all who signed it, the first of them first. */
export function signedOf(records: RecordsRead, live: LineRead, of: string): SignedReport | undefined {
  const [first, ...others] = signaturesOf(records, live, of);
  if (first?.page === undefined) return undefined;
  const read = readPage(first.page);
  return {
    report: read,
    page: read === undefined ? first.page : undefined,
    mark: read === undefined ? hashOf(first.page) : markOf(read),
    signatures: [first, ...others].map(({ id, at, person, as, words }) => ({ id, at, person, as, words })),
  };
}

/** The entry that bears the page first; then the others, the oldest first. */
export function signaturesOf(records: RecordsRead, live: LineRead, of: string): readonly Signed[] {
  const newest = (subject: string, most: number) =>
    records
      .newestOf({ line: live.line.id, kind: 'entry', subject }, AFTER_ALL, most)
      .flatMap(({ entry }: RecordBodies['entry']) => (entry.kind === 'signed' ? [entry] : []));
  // should two have brought a page, the older one is it
  const pages = newest(signedPageSubject(of), SIGNATURES_MOST);
  return [...pages, ...newest(signedSubject(of), SIGNATURES_MOST)];
}

/** Of what a page says; when it was made, and of how much of the tape, is no part of that. */
export function markOf({ made: _made, position: _position, ...page }: Report): string {
  return hashOf(textOf(page));
}

function hashOf(text: string): string {
  return createHash('sha256').update(text).digest('hex').slice(0, 16);
}

/** A page as this version knows it; undefined for one of another form. */
function readPage(page: string): Report | undefined {
  const read = pageSchema.safeParse(JSON.parse(page));
  return read.success ? (read.data as Report) : undefined;
}
