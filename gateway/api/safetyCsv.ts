import { testsOf } from '../../model/past/devicesPast.ts';
import type { RanOn } from '../../model/past/ranOn.ts';
import {
  type PastUse,
  type SafetyAsked,
  type SafetyPast,
  safetyPast,
  safetyUses,
  type StepSeen,
} from '../../model/past/safetyPast.ts';
import { epochMs, instantFromMs } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import { csvText, isoMoment, typedText } from './csvText.ts';

const { safety: said } = wordsIn('en').screen.past;
const { csv } = said;

interface Row {
  readonly at: number;
  readonly cells: readonly string[];
}

/** Every use, reading while the line ran, test and stretch that was not seen, the oldest first, with a row of titles. */
export function safetyCsv(asked: SafetyAsked): string {
  const { zone } = asked.index.line;
  const whole = safetyPast({ ...asked, device: undefined, most: Number.POSITIVE_INFINITY });
  const rows: Row[] = [
    ...safetyUses(asked).map((use) => useRow(use, zone)),
    ...whole.ranOn.map((one) => ranOnRow(one, zone)),
    ...testRows(asked),
    ...unseenRows(asked, whole.seen),
  ];
  return csvText([csv.columns, ...rows.sort((a, b) => a.at - b.at).map(({ cells }) => cells)]);
}

function useRow(use: PastUse, zone: string): Row {
  const step = (seen: StepSeen | undefined) => {
    if (seen === undefined) return csv.notKept;
    if (seen === 'toCome') return csv.toCome;
    return seen === 'notSeen' ? csv.notSeen : isoMoment(use.at + seen, zone);
  };
  return {
    at: use.at,
    cells: cellsOf({
      what: csv.kinds[use.kind],
      device: use.name,
      'device id': use.of,
      moment: isoMoment(use.at, zone),
      'moment seen': use.owned ? csv.yes : csv.no,
      role: said.uses.role(use),
      'released or closed': step(use.released),
      reset: step(use.reset),
      restarted: step(use.restarted),
      'first good carton': step(use.firstGood),
      'came before': said.before.said(use.before),
      ...(use.candidate === undefined ? {} : { words: typedText(said.uses.candidate(use.candidate)) }),
    }),
  };
}

function ranOnRow(one: RanOn, zone: string): Row {
  return {
    at: one.at,
    cells: cellsOf({
      what: csv.kinds.ranOn,
      device: one.name,
      'device id': one.of,
      moment: isoMoment(one.at, zone),
      'moment seen': csv.yes,
      until: one.until === undefined ? csv.toCome : isoMoment(one.until, zone),
      'line ran on, seconds': (one.ran / 1000).toFixed(1),
      'how it stands': said.ranOn.readings[one.reading],
      ...(one.closed?.words === undefined ? {} : { words: typedText(one.closed.words) }),
    }),
  };
}

function testRows({ entries, index, from, to }: SafetyAsked): Row[] {
  const { zone, devices, guards } = index.line;
  return testsOf(entries)
    .filter(({ at }) => instantFromMs(at) >= from && instantFromMs(at) < to)
    .map(({ at, device, person, method }) => ({
      at,
      cells: cellsOf({
        what: csv.kinds.tested,
        device: [...devices, ...guards].find(({ id }) => id === device)?.name ?? device,
        'device id': device,
        moment: isoMoment(at, zone),
        person,
        words: typedText(method),
      }),
    }));
}

/** What nobody saw, from before there were records on: no use there is no use that is known. */
function unseenRows(
  { gaps, index, from, to }: SafetyAsked,
  { since, from: begin }: SafetyPast['seen'],
): Row[] {
  const row = (at: number, until: number): Row => ({
    at,
    cells: cellsOf({
      what: csv.kinds.unseen,
      moment: isoMoment(at, index.line.zone),
      until: isoMoment(until, index.line.zone),
    }),
  });
  return [
    ...(since === undefined ? [] : [row(begin, since)]),
    ...gaps
      .filter((gap) => gap.from < to && gap.to > from)
      .map((gap) => row(epochMs(gap.from), epochMs(gap.to))),
  ];
}

function cellsOf(row: Readonly<Partial<Record<(typeof csv.columns)[number], string>>>): readonly string[] {
  return csv.columns.map((column) => row[column] ?? '');
}
