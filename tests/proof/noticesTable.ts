import type { FalseMeasured, ToldMeasured } from '../../model/watch/measured.ts';
import type { TroubleRow, troubles } from './notices.ts';
import type { Delay, PlainRule } from './noticesPlain.ts';
import { stoppedTwice, toldOf } from './noticesSummary.ts';

/** Each trouble with what became of it by each way of telling, in one order. */
export interface Compared {
  readonly rows: readonly TroubleRow[];
  readonly own: readonly Delay[];
  readonly line: readonly Delay[];
  readonly each: readonly Delay[];
}

type Part = readonly [name: string, is: (row: TroubleRow) => boolean];

const names: Readonly<Record<keyof typeof troubles, string>> = {
  guideWorksLoose: 'a guide works loose',
  badLot: 'a bad lot of board',
  reJamming: 'jams eight times as often, hard to clear',
  threeTimesAsMany: 'three times as many',
  sixTimesAsMany: 'six times as many',
};

const PARTS: readonly Part[] = [
  ...(Object.keys(names) as (keyof typeof names)[]).flatMap((trouble): readonly Part[] => [
    [`${names[trouble]}, rejects counted`, (row) => row.trouble === trouble && row.rejects],
    [`${names[trouble]}, not counted`, (row) => row.trouble === trouble && !row.rejects],
  ]),
  ['all', () => true],
];

/** The table of `model/watch/README.md`: told within three runs; with the third stop; stops and cartons by which half were told. */
export function tableOf({ rows, own, line, each }: Compared): readonly string[] {
  return PARTS.map(([name, is]) => {
    const places = rows.flatMap((row, place) => (is(row) ? [place] : []));
    const cells = [own, line, each].map((delays) => cellOf(toldOf(places.map((place) => delays[place]!))));
    const two = stoppedTwice(places.map((place) => rows[place]!));
    return `| ${[name, `${places.length} (${two})`, ...cells].join(' | ')} |`;
  });
}

function cellOf({ told, within3, stops, cartons }: ToldMeasured): string {
  const half = stops.half === undefined ? '–' : `${stops.half} stops, ${thousands(cartons.half!)}`;
  return `${told}, ${within3}; ${half}`;
}

const thousands = (count: number) => count.toLocaleString('en-GB');

export function ruleSaid({ stops, within, by }: PlainRule): string {
  return `${stops} stops within ${thousands(within)} ${by}`;
}

/** How often a budget was kept: once in so many shifts, in a person's week, and at worst. */
export function falseTableOf(measured: Readonly<Record<number, FalseMeasured>>): readonly string[] {
  return Object.entries(measured).map(([budget, { onceIn, from, to, perWeek, worst }]) => {
    const all = `${onceIn} (${from} to ${to})`;
    const worse = `${worst.onceIn} (${worst.from} to ${worst.to})`;
    return `| one false call in ${budget} | ${all} | ${perWeek.toFixed(2)} | ${worse} |`;
  });
}
