import type { TakenWhy } from '../entries/entries.ts';
import type { BalanceAnswer } from '../past/balanceAnswer.ts';
import type { BalanceParts, BalancePast } from '../past/balancePast.ts';
import type { Bounds, OrderBalance } from '../past/orderBalance.ts';
import { clockSeconds, day } from './clock.ts';
import { at, count, lasted, locale, many, past } from './english-say.ts';

const cartons = (n: number) => `${count(n)} ${many(n, 'carton', 'cartons')}`;

/** Sentences about blanks and cartons, balanced: what was picked, what became of it, and what nobody can say. */
export const balanceWords = {
  /** What hands took out of the pockets or brought back: on a panel, at a desk, on a phone. */
  taken: {
    key: ['Taken out', 'samples, by hand, brought back'],
    title: 'Cartons that no counter tells of',
    asksWhy: 'What were they?',
    whys: {
      sample: ['samples', 'taken out to be looked at'],
      byHand: ['taken out', 'a pocket emptied by hand'],
      broughtBack: ['brought back', 'closed by hand, put in again'],
    },
    howMany: {
      sample: 'How many samples were taken?',
      byHand: 'How many cartons were taken out?',
      broughtBack: 'How many cartons were brought back?',
    },
    noCount: 'no count yet',
    enter: ['enter it', 'the unaccounted changes by it'],
    told: 'No counter sees this. Without an entry it shows as unaccounted for.',
    doubt: (n: number) => `${count(n)} at once: is that right?`,
    doubtWhy: 'More than two machines’ pockets hold.',
    asTyped: (n: number) => [count(n), 'as typed'],
    again: ['type it again', 'nothing is entered yet'],
    toWhys: 'to what they were',
    toKeys: 'to the number as typed',
    keep: 'Record it',
    label: 'Cartons taken out, or brought back',
    number: 'How many',
    why: 'What they were',
    choices: {
      sample: 'samples taken out',
      byHand: 'taken out by hand',
      broughtBack: 'closed by hand, brought back',
    },
    titles: {
      sample: 'Samples taken out',
      byHand: 'Cartons taken out by hand',
      broughtBack: 'Cartons closed by hand, brought back',
    },
    hint: (why: TakenWhy, n: number) =>
      why === 'broughtBack'
        ? `${cartons(n)} more will come to the check than were picked.`
        : `${cartons(n)} will not come to the check.`,
  },

  /** Where it is looked back on. */
  screen: balanceScreen(),
} as const;

function balanceScreen() {
  return {
    title: 'Blanks and cartons',
    lead,
    about:
      'Counted in any mode, trial cartons too, and empty cartons among the rejected: each was a blank. What lies in the pockets is followed cycle by cycle.',
    sum: 'What was picked, and what became of it',
    parts: {
      before: (moment: number, zone: string) => `in the pockets at ${at(moment, zone)}`,
      picked: 'blanks picked',
      good: 'good',
      rejected: 'rejected',
      crushed: 'crushed',
      inPockets: (moment: number, zone: string) => `in the pockets at ${at(moment, zone)}`,
      takenOut: 'taken out',
      unaccounted: 'unaccounted for',
      notSeen: 'not seen',
    },
    takenOut,
    broughtBackMore: 'more brought back than taken out',
    notSeen:
      'Not seen: a counter began anew, and what came or went meanwhile it did not count. Nobody can say what it was.',
    enlarged: 'all but the good ones, enlarged',
    drawn: (parts: BalanceParts) => `${lead(parts, true).join(' ')} ${takenOut(parts)}`,
    unknown,
    history: {
      title: 'How the unaccounted came about',
      about: ({ step, days }: Pick<BalancePast, 'step' | 'days'>) =>
        `Added up from the beginning, ${every(step, days)}; the dashed line is none. Hatched: the pockets were not known. Below, the blanks picked.`,
      drawn: (steps: number, last: number | undefined) =>
        `${count(steps)} parts; ${last === undefined ? 'the last is not known' : `${unaccounted(last)} at the end of the last that is known`}`,
      table: 'As a table',
      columns: {
        from: 'from',
        to: 'to',
        picked: 'blanks picked',
        unaccounted: 'unaccounted for since the beginning',
      },
      notKnown: 'not known',
      part,
      tick,
    },
    changes: {
      title: 'The largest changes at once',
      none: 'None: nothing became unaccounted for, and no carton was too many.',
      about:
        'Told when a whole passage of the pockets did not bring the carton: it went that many cycles before, which is a minute or two where the line ran, and longer where it stood.',
      said: changed,
      entered,
    },
    orders: {
      title: 'Orders, counted and handed over',
      none: 'No order ran.',
      further: (n: number) => `${count(n)} earlier ${many(n, 'order is', 'orders are')} not listed.`,
      columns: {
        order: 'order',
        ran: 'ran',
        counted: 'counted good',
        handedOver: 'handed over',
        apart: 'handed over less counted',
      },
      what: ({ size, blend }: OrderBalance) => [size, blend].filter((one) => one !== undefined).join(', '),
      ran: ({ from, to }: OrderBalance, zone: string) =>
        `${when(from, zone)} to ${to === undefined ? 'now' : sameDay(from, to, zone) ? at(to, zone) : when(to, zone)}`,
      bounds: ({ least, most }: Bounds) =>
        least === most ? count(least) : `${count(least)} to ${count(most)}`,
      apart: ({ least, most }: Bounds) =>
        least === most ? signed(least) : `${signed(least)} to ${signed(most)}`,
      notEntered: 'not entered',
      runs: 'runs',
      about:
        'A count is a range where the order began or ended while the line ran and the line no longer keeps its own count: counters are kept by the minute.',
    },
  } as const;
}

/** Differences always carry a sign. */
function signed(n: number): string {
  return n > 0 ? `+${count(n)}` : count(n);
}

function unaccounted(n: number): string {
  if (n === 0) return 'none unaccounted for';
  return n > 0 ? `${count(n)} unaccounted for` : `${count(-n)} too many`;
}

function lead(parts: BalanceParts | undefined, counted: boolean): readonly [string, string] {
  if (!counted)
    return [
      'It cannot be told here.',
      'The line has no counter of blanks picked, of cycles or of good cartons.',
    ];
  if (parts === undefined)
    return ['It cannot be told.', 'The pockets were known at no two moments of this time.'];
  const { picked, unaccounted: missing, notSeen, takenOut: taken } = parts;
  if (missing === 0)
    return notSeen === 0
      ? ['Every blank is accounted for.', `${count(picked)} were picked.`]
      : [
          'No blank is known to be missing.',
          `${count(picked)} were picked; of ${count(Math.abs(notSeen))} nobody can say.`,
        ];
  if (missing > 0) return missed(parts);
  return [
    `${cartons(-missing)} too many.`,
    taken > 0
      ? 'More were entered as taken out than went missing, or some came that were not picked in this time.'
      : 'They were not picked in this time: closed by hand, perhaps, and brought back.',
  ];
}

/** What went without being counted, and what was entered as brought back and was not counted either. */
function missed({ picked, unaccounted: missing, takenOut: taken }: BalanceParts): readonly [string, string] {
  const went = missing + taken;
  if (went <= 0)
    return [
      `${cartons(missing)} entered as brought back did not come to the check.`,
      'They were not counted there: perhaps they are still to come, or fewer were put in than was entered.',
    ];
  const are = many(missing, 'is', 'are');
  return [
    missing <= picked
      ? `${count(missing)} of ${count(picked)} blanks ${are} unaccounted for.`
      : `${cartons(missing)} ${are} unaccounted for.`,
    taken < 0
      ? `${count(went)} went without being counted, and ${count(-taken)} more ${many(-taken, 'was', 'were')} entered as brought back than as taken out.`
      : 'They went without being counted, and nobody entered them.',
  ];
}

function takenOut({ sample, byHand, broughtBack }: BalanceParts): string {
  const said = [
    ...(sample > 0 ? [`${count(sample)} as samples`] : []),
    ...(byHand > 0 ? [`${count(byHand)} by hand`] : []),
    ...(broughtBack > 0 ? [`${count(broughtBack)} brought back`] : []),
  ];
  return said.length === 0
    ? 'Nobody entered cartons taken out.'
    : `Taken out as people entered it: ${said.join(', ')}.`;
}

function unknown({ unknown: spans }: Pick<BalancePast, 'unknown'>, zone: string): string | undefined {
  const [first] = spans;
  if (!first) return undefined;
  const long = spans.reduce((sum, { from, to }) => sum + to - from, 0);
  return spans.length === 1
    ? `The pockets were not known from ${fromTo(first, zone)}.`
    : `The pockets were not known for ${past(long)} in all, ${count(spans.length)} times.`;
}

/** With seconds where both ends lie within two minutes, so that no stretch is told as one moment. */
function fromTo({ from, to }: BalancePast['unknown'][number], zone: string): string {
  if (to - from < 120_000)
    return `${day(from, zone, locale)} ${clockSeconds(from, zone, locale)} to ${clockSeconds(to, zone, locale)}, for ${lasted(to - from)}`;
  return `${when(from, zone)} to ${when(to, zone)}`;
}

function every(step: BalancePast['step'], days: number): string {
  if (step === 'hour') return 'hour by hour';
  if (step === 'shift') return 'shift by shift';
  return days === 1 ? 'day by day' : `${count(days)} days by ${count(days)} days`;
}

function part({ name, from }: BalancePast['points'][number], zone: string): string {
  return name === undefined ? when(from, zone) : `${name}, ${when(from, zone)}`;
}

function tick(step: BalancePast['step'], moment: number, zone: string): string {
  return step === 'hour' ? at(moment, zone) : day(moment, zone, locale);
}

function changed(
  { by, from, to }: BalanceAnswer['changes'][number],
  zone: string,
): readonly [string, string] {
  const many = by > 0 ? `${cartons(by)} missing` : `${cartons(-by)} too many`;
  const long = to - from;
  return [many, long > 120_000 ? `told ${when(to, zone)}, within ${lasted(long)}` : `told ${when(to, zone)}`];
}

/** What people entered around a change. */
function entered({ entered: n }: BalanceAnswer['changes'][number]): string {
  if (n === 0) return 'nothing entered around it';
  return n > 0
    ? `${count(n)} entered as taken out within half an hour`
    : `${count(-n)} entered as brought back within half an hour`;
}

function when(moment: number, zone: string): string {
  return `${day(moment, zone, locale)} ${at(moment, zone)}`;
}

function sameDay(a: number, b: number, zone: string): boolean {
  return day(a, zone, locale) === day(b, zone, locale);
}
