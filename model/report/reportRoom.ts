import type { Millis } from '../units/units.ts';
import type { Report, Signature } from './report.ts';

/** How much room a page has for its lists and its texts. Without end: all there is. */
export interface ReportRoom {
  /** Signs of what a person said, and of a sentence that names many things. */
  readonly text: number;
  /** Signs of a name. */
  readonly name: number;
  /** Rows of stops. */
  readonly rows: number;
  /** Rows of every other list. */
  readonly items: number;
  readonly signatures: number;
}

/** All of it: on a screen that is no page. */
export const WHOLE_ROOM: ReportRoom = {
  text: Infinity,
  name: Infinity,
  rows: Infinity,
  items: Infinity,
  signatures: Infinity,
};

/**
 * What a page gives up, one step after another, until it is one page: first the ends of long texts, then rows. The last step
 * finds room whatever people typed.
 */
export const REPORT_ROOMS: readonly ReportRoom[] = [
  WHOLE_ROOM,
  { text: 300, name: 100, rows: 10, items: 10, signatures: 20 },
  { text: 220, name: 90, rows: 10, items: 8, signatures: 20 },
  { text: 150, name: 70, rows: 10, items: 6, signatures: 12 },
  { text: 110, name: 60, rows: 10, items: 4, signatures: 10 },
  { text: 80, name: 50, rows: 10, items: 3, signatures: 8 },
  { text: 60, name: 40, rows: 10, items: 3, signatures: 6 },
  { text: 50, name: 40, rows: 8, items: 3, signatures: 6 },
  { text: 45, name: 32, rows: 7, items: 2, signatures: 5 },
  { text: 40, name: 28, rows: 5, items: 2, signatures: 4 },
  { text: 40, name: 28, rows: 4, items: 2, signatures: 3 },
  { text: 40, name: 28, rows: 3, items: 1, signatures: 2 },
  { text: 30, name: 24, rows: 2, items: 1, signatures: 2 },
];

/** A report as it finds room, and what of its lists found none and is told nowhere in it. */
export interface ReportInRoom {
  readonly report: Report;
  readonly moreHandedOver: number;
  readonly signatures: readonly Signature[];
  readonly moreSignatures: number;
}

/** [RE3] What is left out of a list is counted where the list counts what it left out before. */
export function reportInRoom(
  report: Report,
  signatures: readonly Signature[],
  room: ReportRoom,
): ReportInRoom {
  const { changeovers, unseen, notes, handedOver, safety } = report;
  const left = (all: readonly unknown[]) => Math.max(0, all.length - room.items);
  const signed = firstToRead(signatures, room.signatures);
  return {
    report: {
      ...report,
      stops: stopsInRoom(report.stops, room.rows),
      safety: { ...safety, list: last(safety.list, room.items) },
      changeovers: last(changeovers, room.items),
      moreChangeovers: report.moreChangeovers + left(changeovers),
      unseen: longest(unseen, room.items, ({ from, to }) => to - from),
      moreUnseen: report.moreUnseen + left(unseen),
      notes: last(notes, room.items),
      moreNotes: report.moreNotes + left(notes),
      handedOver: handedOver.slice(0, room.items),
    },
    moreHandedOver: left(handedOver),
    signatures: signed,
    moreSignatures: signatures.length - signed.length,
  };
}

/** The longest stops stay, in the order in which they began. */
function stopsInRoom(stops: Report['stops'], most: number): Report['stops'] {
  const list = longest(stops.list, most, ({ lasted }) => lasted);
  const out = stops.list.filter((stop) => !list.includes(stop));
  const [rows, less] = [stops.rows.slice(0, most), stops.rows.slice(most)];
  return {
    ...stops,
    list,
    more: {
      stops: stops.more.stops + out.length,
      stood: sum(
        stops.more.stood,
        out.map(({ lasted }) => lasted),
      ),
    },
    rows,
    moreRows: {
      rows: stops.moreRows.rows + less.length,
      stops: less.reduce((total, row) => total + row.stops, stops.moreRows.stops),
      stood: sum(
        stops.moreRows.stood,
        less.map(({ stood }) => stood),
      ),
    },
  };
}

function sum(first: Millis, rest: readonly Millis[]): Millis {
  return rest.reduce<number>((total, one) => total + one, first) as Millis;
}

/** The newest: lists of what happened stand the oldest first. */
function last<One>(all: readonly One[], most: number): readonly One[] {
  return all.length <= most ? all : all.slice(all.length - most);
}

function longest<One>(all: readonly One[], most: number, length: (one: One) => number): readonly One[] {
  const chosen = new Set([...all].sort((a, b) => length(b) - length(a)).slice(0, most));
  return all.filter((one) => chosen.has(one));
}

/** Who hands over and who takes over before who has seen it, each the oldest first. */
function firstToRead(all: readonly Signature[], most: number): readonly Signature[] {
  const chosen = new Set(
    [...all].sort((a, b) => Number(a.as === 'seen') - Number(b.as === 'seen')).slice(0, most),
  );
  return all.filter((one) => chosen.has(one));
}
