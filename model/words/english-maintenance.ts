import type { Author } from '../entries/entries.ts';
import type { CorrectableBody, Measure } from '../entries/saidEntries.ts';
import type { DoneRow } from '../past/donePast.ts';
import type { HeldAnswer, HeldSide } from '../past/held.ts';
import type { MaintenancePast, MaintenanceStation } from '../past/maintenancePast.ts';
import { capital, count, many, past } from './english-say.ts';
import { noticeSaidWords } from './english-notice-said.ts';

const stops = (n: number) => `${count(n)} ${many(n, 'stop', 'stops')}`;
const perThousand = ({ count: n, of }: HeldSide) => (of === 0 ? '–' : ((1000 * n) / of).toFixed(1));
const runs = ({ runs: n, lots }: HeldSide) =>
  `${count(n)} ${many(n, 'run', 'runs')}${lots === undefined ? '' : ` of ${count(lots)} ${many(lots, 'lot', 'lots')}`}`;

/** Who made an entry, as lists say it; a person by number, and no name. */
export function byAuthor(author: Author, positionName: (id: string) => string): string {
  switch (author.kind) {
    case 'position':
      return `at ${positionName(author.position)}`;
    case 'screen':
      return `at a ${author.screen}`;
    case 'person':
      return `by ${author.number}`;
    case 'file':
      return `from ${author.file}`;
    case 'itself':
      return 'by Scoreline';
  }
}

/** What was changed, in words. */
export function changedSaid(
  body: Pick<Extract<CorrectableBody, { kind: 'changed' }>, 'changed'>,
  name?: string,
): string {
  const { changed } = body;
  switch (changed.of) {
    case 'adjustment': {
      const { adjustment, from, to } = changed;
      const numbers =
        from === undefined ? (to === undefined ? '' : ` to ${to}`) : ` from ${from} to ${to ?? '?'}`;
      return `adjustment ${adjustment}${name === undefined ? '' : ` ${name}`}${numbers}`;
    }
    case 'part':
      return `part: ${changed.name}`;
    case 'lot':
      return `lot of board: ${changed.name}`;
    case 'other':
      return 'something else';
  }
}

const measures: Readonly<Record<Measure, string>> = { stops: 'stops', rejects: 'rejects' };

/** Did it help: the numbers first, then the answer. */
function heldSaid(held: HeldAnswer): readonly [string, string] {
  const { before, after, measure } = held;
  if (before.runs === 0) return ['No whole run before it to compare with.', verdictSaid(held)];
  const numbers =
    after.runs === 0
      ? `${perThousand(before)} ${measures[measure]} per thousand in ${runs(before)} before, no whole run after.`
      : `${perThousand(before)} ${measures[measure]} per thousand in ${runs(before)} before, ${perThousand(after)} in ${runs(after)} after.`;
  return [numbers, verdictSaid(held)];
}

function verdictSaid({ verdict, why }: HeldAnswer): string {
  if (verdict === 'fewer') return 'Fewer: it held, beyond chance.';
  if (verdict === 'more') return 'More than before, beyond chance.';
  switch (why?.kind) {
    case 'noneBefore':
      return `Cannot tell: too little of the same size and crew ran before; ${count(why.needed)} runs at least.`;
    case 'tooFew':
      return `Cannot tell yet: ${unit(why.so, why.lots)} so far that can be compared; ${count(why.needed)} at least.`;
    case 'changedAgain':
      return `Cannot tell: ${unit(why.so, why.lots)} until the next change here; ${count(why.needed)} would be needed.`;
    default:
      return `Cannot tell: chance alone brings such a difference${why?.next === undefined ? '' : `; looked at again after ${count(why.next)}`}.`;
  }
}

function unit(n: number, lots: boolean): string {
  return `${count(n)} ${lots ? many(n, 'lot', 'lots') : many(n, 'run', 'runs')}`;
}

export const maintenanceWords = {
  title: 'Maintenance, last 30 days',
  lead: ({ stations }: MaintenancePast): readonly [string, string] => {
    const out = stations.filter(({ outside }) => outside.length > 0);
    const [most] = [...stations].sort((a, b) => b.stood - a.stood);
    const first =
      out.length === 0
        ? 'No station is outside its own normal.'
        : `Outside ${many(out.length, 'its', 'their')} own normal: ${out.map(({ station }) => station.name).join(', ')}.`;
    const rest =
      most === undefined || most.stood === 0
        ? 'Nothing stopped at a station.'
        : `Most stood: ${stops(most.stops)}, ${past(most.stood)} at ${most.station.number} ${most.station.name}.`;
    return [first, rest];
  },
  stations: 'Stations, those outside their own normal first, then by time that stood',
  outside: 'outside its own normal',
  row: ({ stops: n, stood }: MaintenanceStation) =>
    n === 0 && stood === 0 ? 'no stop' : `${stops(n)}, ${past(stood)}`,
  rowSaid: ({ station, stops: n, stood, days }: MaintenanceStation) => {
    const on = days.filter((day) => day.stops > 0).length;
    return `${station.number} ${station.name}: ${stops(n)} on ${count(on)} ${many(on, 'day', 'days')}, ${past(stood)}`;
  },
  key: 'One column is a day; its height is the time that stood, the dot that anything stopped; a stroke across its foot says that nobody was looking for more than half of it.',
  foot: 'Stops as known now: where people say, else where the PLC’s first fault does. Planned pauses and changeovers are none.',
  to: 'Maintenance',
  done: {
    title: 'What was done, and whether it held',
    none: 'Nothing was entered as done here in this time.',
    changed: (row: Extract<DoneRow, { kind: 'changed' }>) => capital(changedSaid(row, row.adjustment)),
    notice: ({ found, done }: Extract<DoneRow, { kind: 'notice' }>) =>
      `Notice closed: found ${noticeSaidWords.found[found]}, done ${noticeSaidWords.done[done]}`,
    corrected: 'entered otherwise at first',
    again: (when: string) => `It came back: the next notice about it was raised on ${when}.`,
    notAgain: 'No notice about it has come since.',
    expected: (measure: Measure) => `fewer ${measures[measure]} expected`,
    nothingExpected: 'Nothing was said to be expected, so there is nothing to judge.',
    byHand: 'Rejects here are what people left in pockets: crews are not compared.',
    held: heldSaid,
    perThousand,
    runs,
    foot: 'Whole runs before and after, of the same size and crew; the run it was made in and the one before are left out. Judged after 4, 8, 16 and 32; of changes that do nothing less than one in 40 is said to have held.',
    caution: 'What held here before says nothing about what is safe to do.',
  },
  enter: {
    title: 'Enter a change that was made',
    station: 'Station',
    what: 'What was changed',
    kinds: { adjustment: 'an adjustment', part: 'a part', lot: 'lot of board', other: 'something else' },
    adjustment: 'Which',
    from: 'From',
    to: 'To',
    part: 'Which part',
    lot: 'Which lot',
    words: 'In a few words',
    expects: 'Expected',
    measures: { none: 'nothing said', stops: 'fewer stops here', rejects: 'fewer rejects here' },
    because: 'Because of',
    noNotice: 'no notice',
    keep: 'Enter the change',
  },
} as const;
