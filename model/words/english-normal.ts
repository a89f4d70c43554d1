import type { Rule } from '../normal/evidence.ts';
import { FOUND_MEASURED, MEASURED_SHIFTS } from '../normal/measured.ts';
import type { StationTrend } from '../past/stationPast.ts';
import type { StationNormal, WorseRow } from '../past/worsePast.ts';
import { capital, count, locale, many, small } from './english-say.ts';
import * as numbers from './format.ts';

type Kind = StationTrend['kind'] | undefined;

/** What a station may be judged by: one of it, and more. */
export const COUNTED = {
  reject: ['reject', 'rejects'],
  notLoaded: ['empty carton', 'empty cartons'],
  missed: ['missed pick', 'missed picks'],
} as const satisfies Record<StationTrend['kind'], readonly [string, string]>;

const things = (rule: Rule, kind: Kind, n: number) => {
  const [one, other] = rule === 'stops' ? ['stop', 'stops'] : COUNTED[kind ?? 'reject'];
  return many(n, one, other);
};
const among = (rule: Rule, kind: Kind) => (rule !== 'stops' && kind === 'missed' ? 'pockets' : 'cartons');
/** What is expected is told more exactly where it is small. */
const about = (n: number) => (n < 10 ? numbers.decimal(n, n < 1 ? 2 : 1, locale) : numbers.count(n, locale));
const names = (rules: readonly Rule[], kind: Kind) =>
  rules
    .map((rule) =>
      rule === 'drift' ? `${things(rule, kind, 2)} in the course of the run` : things(rule, kind, 2),
    )
    .join(', and ');

/** Sentences of the sheet that holds a station against its own normal. */
export const normalWords = {
  title: (size: string) => `Against its own normal, ${size}`,
  noTitle: 'Against its own normal',
  none: 'No batch of 300 cartons of a run is whole yet, so nothing is said.',
  /** The answer first, in bold. */
  answer: ({ rules }: StationNormal, kind: Kind): readonly [string, string] => {
    const outside = rules.flatMap((one) => (one.outside ? [one.rule] : []));
    const thin = rules.filter(({ tooThin }) => tooThin).length;
    if (outside.length > 0)
      return [
        'Outside its own normal:',
        `${names(outside, kind)}, more than earlier runs with this size make likely.`,
      ];
    if (thin === rules.length)
      return ['Too few to say.', 'A short past, or a short run, is no sign that all is well.'];
    return [
      'Nothing is outside its own normal.',
      `${thin > 0 ? `Of ${small(thin)} it is too early to say. ` : ''}That is no sign that all is well: beside each stands how much more it would take.`,
    ];
  },
  about: ({ earlierRuns }: StationNormal, began: string, until: string, since: string | undefined) =>
    `The run that began ${began}, ${since === undefined ? '' : `looked at from ${since} on, `}in whole batches up to ${until}, beside ${
      earlierRuns === 0
        ? 'no earlier run'
        : `${count(earlierRuns)} earlier ${many(earlierRuns, 'run', 'runs')}`
    } with this size.`,
  byHand:
    'Only its stops are held against earlier runs: what is left empty here is people’s work, another run has another crew, and crews are not held against one another.',
  columns: {
    what: 'what is asked',
    seen: 'seen',
    usual: 'usual, from – to',
    so: 'so',
    falsely: 'says so falsely',
  },
  what: (rule: Rule, kind: Kind) => {
    const named = capital(things(rule, kind, 2));
    return rule === 'drift' ? `${named} rising in the course of the run` : `${named} since the changeover`;
  },
  seen: ({ rule, seen, of }: WorseRow, kind: Kind) =>
    `${count(seen)} ${things(rule, kind, seen)} in ${count(of)} ${among(rule, kind)}`,
  since: ({ rule }: WorseRow, moment: string) => (rule === 'drift' ? `since ${moment}` : ''),
  usual: ({ expected, interval }: WorseRow) =>
    expected === undefined || interval === undefined
      ? 'not known'
      : `${about(expected)}, from ${count(interval.lower)} to ${count(interval.upper)}`,
  limit: ({ most, rule, tooThin }: WorseRow) => {
    if (tooThin) return '';
    return most === undefined || rule === 'drift'
      ? 'batch by batch, from where it began to rise'
      : `more than ${count(most)} is outside`;
  },
  so: ({ outside, tooThin }: WorseRow) => (tooThin ? 'too few to say' : outside ? 'outside' : 'inside'),
  thin: ({ tooThin }: WorseRow) => {
    if (!tooThin) return '';
    return tooThin.kind === 'run'
      ? `${count(tooThin.cartons)} cartons of this run, ${count(tooThin.needed)} are needed`
      : `${count(tooThin.runs)} earlier ${many(tooThin.runs, 'run', 'runs')} with ${count(tooThin.cartons)} cartons; 3 with 3,000 are needed`;
  },
  /** How large it would have to be to be outside. */
  seenFrom: ({ seenFrom, outside }: WorseRow) =>
    seenFrom === undefined || outside
      ? ''
      : `it would be outside from ${numbers.decimal(seenFrom, 1, locale)} times the usual on`,
  falsely: ({ measured: { onceIn, worst } }: WorseRow) => ({
    rate: `at worst once in ${count(worst.onceIn)} shifts`,
    range: `${count(worst.from)} to ${count(worst.to)}; over all ${count(onceIn)}`,
  }),
  foot: `Usual is where 19 of 20 runs lie that are as earlier ones were, the differences between runs included. How often each calls one station falsely was measured over all stations, in ${count(MEASURED_SHIFTS)} simulated shifts in which nothing was wrong, each of eight hours; at worst is the one of three kinds of line, and of five ways in which levels differ, that suits it least. Stops are those of the machine itself; a re-jam counts with the stop before it.`,
  /** What is found, and what is not. */
  found: `Of ${count(FOUND_MEASURED.of)} simulated lines with a station that spoiled twice as many, ${count(FOUND_MEASURED.twice)} were found within three runs; with three times as many, ${count(FOUND_MEASURED.threeTimes)}.`,
  short: 'outside its own normal',
} as const;
