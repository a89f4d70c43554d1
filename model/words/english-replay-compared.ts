import type { Alignment } from '../past/compared/aligned.ts';
import type { Compared } from '../past/compared/compared.ts';
import { FALSE_ONCE_IN } from '../past/compared/differences.ts';
import type { ComparedCause, ComparedRow, Meaning, RowKind, RowValue } from '../past/compared/rows.ts';
import type { PastShift } from '../past/overview.ts';
import type { PastRun } from '../past/runsPast.ts';
import type { LossCause } from '../view/view.ts';
import { day } from './clock.ts';
import { at, count, lasted, locale, many, past } from './english-say.ts';
import { decimal } from './format.ts';

const on = (moment: number, zone: string) => day(moment, zone, locale);
/** Milliseconds. */
const TIMES: ReadonlySet<RowKind> = new Set(['took', 'running', 'stood', 'notSeen']);
const BY: Readonly<Record<Alignment, string>> = {
  clock: 'on the same clock',
  changeover: 'from the first good carton after its changeover',
  cartons: 'by good cartons made',
};
const CAUSES: Readonly<Record<Exclude<ComparedCause, LossCause>, string>> = {
  slowOrNotLoaded: 'slow or not loaded',
};
/** Stretches that were not seen are told one by one up to so many. */
const SPANS_TOLD = 3;

/** Names of the two that are one over the other, as sentences say them. */
export interface Named {
  readonly here: string;
  readonly there: string;
}

/** Sentences about two shifts or runs, one over the other. */
export const replayComparedWords = {
  under: 'under it',
  which: 'What is hung under it',
  nothing: 'nothing',
  shifts: {
    same: (name: string) => `other shifts of this kind: ${name}`,
    others: 'other shifts',
    all: 'shifts',
  },
  runs: 'runs of a size',
  run: ({ size, from, lasted: long, goesOn }: PastRun, zone: string) =>
    `${size.name}, ${on(from, zone)} ${at(from, zone)}, ${past(long)}${goesOn ? ' so far' : ''}`,
  runTitle: ({ size, from, to, goesOn, cut }: PastRun, zone: string) =>
    `${size.name}, ${on(from, zone)} ${at(from, zone)} ${goesOn && !cut ? 'on' : `to ${on(to, zone) === on(from, zone) ? '' : `${on(to, zone)} `}${at(to, zone)}`}`,
  cut: 'The run is longer than a day: its first 24 hours are shown.',
  noRun: 'That run is not among those that can be chosen; the shift is shown in which it began.',
  noOther: 'What was to hang under it is not among the shifts and runs that can be chosen.',
  these: { shift: 'this shift', run: 'this run' },
  shiftName: ({ name, from }: PastShift, alike: boolean, zone: string) =>
    alike ? on(from, zone) : `${name} of ${on(from, zone)}`,
  runName: ({ size, from }: PastRun, zone: string) => `${size.name}, ${on(from, zone)} ${at(from, zone)}`,

  align: {
    label: 'Laid over one another by',
    clock: 'the clock',
    changeover: 'the changeover',
    cartons: 'cartons made',
  } satisfies Record<Alignment | 'label', string>,
  hung: (name: string, alignment: Alignment) => `Below: ${name}, hung under it ${BY[alignment]}.`,
  without: ({ without }: Compared, { here, there }: Named): string | undefined =>
    without.length === 0
      ? undefined
      : `${without.map((which) => (which === 'here' ? here : there)).join(' and ')} had no good carton after a changeover: by the clock instead.`,
  offset: (ms: number) =>
    ms === 0 ? 'first good' : `${ms < 0 ? '−' : '+'}${past(Math.abs(ms)).replace(' 00 min', '')}`,
  cartons: (n: number) => count(n),
  presses: (name: string, pressed: number) => (pressed === 0 ? `none pressed, ${name}` : name),
  waiting: 'Comparing …',

  table: {
    title: (name: string) => `Beside ${name}`,
    upTo: ({ here, alignment }: Compared, zone: string) =>
      alignment === 'changeover'
        ? `${at(here.window.from, zone)} to ${at(here.window.to, zone)}`
        : `up to ${at(here.window.to, zone)}`,
    means: 'which means',
    nothing: 'Nothing of both has passed here yet.',
    ended: ({ ended, here }: Compared, { here: first, there: second }: Named, zone: string) =>
      ended === undefined
        ? undefined
        : `Compared up to ${at(here.window.to, zone)} of ${first}: there ${ended === 'there' ? second : 'it'} ends.`,
    sizes: ({ here, there }: Compared, { here: first, there: second }: Named) =>
      here.sizes.join() === there.sizes.join()
        ? undefined
        : `${listOf(here.sizes)} ran in ${first}, ${listOf(there.sizes)} in ${second}: what differs may come with the size.`,
    level: ({ comparisons, shifts }: Compared) =>
      comparisons === 0
        ? 'Cartons and minutes are as they were counted.'
        : `Cartons and minutes are as they were counted. For stops and rejects it is asked whether as much comes by chance, where shifts differ among themselves as the last ${count(shifts)} did. ${count(comparisons)} comparisons share one level: of ${count(FALSE_ONCE_IN)} such looks at two that are alike, one calls a difference at most. Who looks at moment after moment until one is called will find one.`,
    people: 'Crews and positions are never held against one another. As known now.',
  },
  row: ({ kind, cause, stops, station }: ComparedRow, causeOf: (cause: LossCause) => string): string => {
    switch (kind) {
      case 'good':
        return 'good cartons';
      case 'possible':
        return 'possible at target';
      case 'lost':
        return 'cartons lost';
      case 'lostTo':
        return cause === undefined || cause === 'slowOrNotLoaded' ? CAUSES.slowOrNotLoaded : causeOf(cause);
      case 'stops':
        return stops === 'outside'
          ? 'stops from outside'
          : stops === 'safety'
            ? 'safety stops'
            : 'stops of its own';
      case 'rejects':
        return `rejects per 1,000, ${station?.name ?? ''}`;
      case 'took':
        return 'time for them';
      case 'running':
        return 'time in production';
      case 'stood':
        return 'time stood';
      case 'notSeen':
        return 'time not seen';
    }
  },
  value: (kind: RowKind, { value }: RowValue): string => {
    if (value === undefined) return '–';
    if (TIMES.has(kind)) return value === 0 ? count(0) : kind === 'notSeen' ? past(value) : lasted(value);
    return kind === 'rejects' ? decimal(value, 1, locale) : count(value);
  },
  range: ({ lower, upper }: RowValue): string | undefined =>
    lower === undefined || upper === undefined
      ? undefined
      : `(${decimal(lower, 1, locale)} to ${decimal(upper, 1, locale)})`,
  meaning: (row: ComparedRow, compared: Compared, named: Named, zone: string): string => {
    const { meaning, kind } = row;
    switch (meaning.kind) {
      case 'counted':
        return differs(kind, meaning.differ);
      case 'real':
        return `**a real difference**: more in ${named[meaning.more]}`;
      case 'notEnough':
        return 'not enough to tell them apart';
      case 'cannotTell':
        return cannotTell(meaning, compared);
      case 'nothing':
        return 'nothing to compare yet';
      case 'listed':
        return 'listed and not judged: a press is always right';
      case 'notKnown':
        return 'not known before the line is heard again';
      case 'notSeen':
        return notSeen(row, compared, zone);
    }
  },
} as const;

function differs(kind: RowKind, differ: number): string {
  const size = Math.abs(differ);
  if (TIMES.has(kind))
    return size < 1000 ? 'as long' : `${lasted(size)} ${differ > 0 ? 'longer' : 'shorter'}`;
  return size === 0 ? 'as many' : `${count(size)} ${differ > 0 ? 'more' : 'fewer'}`;
}

function cannotTell(
  { shifts, counted }: Extract<Meaning, { kind: 'cannotTell' }>,
  { needed }: Compared,
): string {
  return shifts < needed
    ? `cannot be told: how unlike shifts are is known from ${count(needed)} earlier ones on, and there ${many(shifts, 'is', 'are')} ${count(shifts)}`
    : `cannot be told: ${count(counted)} in ${count(shifts)} earlier shifts are too few to know how unlike shifts are`;
}

function notSeen({ here, there }: ComparedRow, { leftOut, alignment }: Compared, zone: string): string {
  if (!here.value && !there.value) return 'all of both was seen';
  if (alignment === 'cartons') return 'what was counted in it stays in: cartons have no clock in common';
  const spans = leftOut.map(({ from, to }) => `${at(from, zone)} to ${at(to, zone)}`);
  if (spans.length <= SPANS_TOLD)
    return `${listOf(spans)} ${many(spans.length, 'is', 'are')} left out of both`;
  const long = leftOut.reduce((sum, { from, to }) => sum + to - from, 0);
  return `${count(spans.length)} stretches, ${past(long)} in all, are left out of both`;
}

function listOf(names: readonly string[]): string {
  if (names.length === 0) return 'nothing that is known';
  return names.length === 1 ? names[0]! : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}
