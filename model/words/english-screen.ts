import type { HeadPressed, HeadStopped, LineView, OrderView, PressView } from '../view/view.ts';
import { hour, weekdayClock } from './clock.ts';
import {
  at,
  capital,
  count,
  exactly,
  lasted,
  locale,
  many,
  nth,
  past,
  placed,
  small,
} from './english-say.ts';
import * as numbers from './format.ts';
import type { Told } from './told.ts';

/** What stopped it, where, and how often; phrases for two lines. */
function stoppedLines(head: HeadStopped, told: Told): readonly string[] {
  if (head.press !== undefined) return releasedLines(head.press, told);
  const often = head.nth > 1 ? [lineWords.head.often(head)] : [];
  const tries = head.attempt > 1 ? [`try ${count(head.attempt)}`] : [];
  const derived = head.from === 'cycles' ? ['seen from its cycles alone'] : [];
  if (head.reason === undefined) return ['Nobody has said why yet', ...derived];
  return [
    capital(placed(head.reason.name, told.station(head.reason.station))),
    ...tries,
    ...often,
    ...derived,
  ];
}

function releasedLines(press: PressView, { zone }: Told): readonly string[] {
  const name = capital(press.name);
  const released =
    press.released === undefined ? `${name} pressed` : `${name} released ${exactly(press.released, zone)}`;
  if (press.reset === undefined) return [released, 'not reset yet'];
  if (press.restarted === undefined) return [released, 'reset, not restarted yet'];
  return [released, 'no good carton yet'];
}

/** Who it may have been is said, never guessed. */
function pressedLines(head: HeadPressed, { zone }: Told): readonly string[] {
  const { press } = head;
  const who =
    press.candidates.length > 1
      ? `One of ${press.candidates.map((one) => one.name).join(', ')}`
      : capital(press.name);
  const when = {
    edge: `pressed ${exactly(press.pressed, zone)}`,
    count: 'known from its counter alone',
    found: 'found pressed',
  }[press.known];
  return [`${who}, ${when}`, 'not released'];
}

/** Sentences of the Line screen: wall, desk and phone. */
const PHASES: Readonly<Record<Extract<LineView['head'], { readonly kind: 'changeover' }>['phase'], string>> =
  {
    setting: 'being set',
    trial: 'trial cartons, none counted',
    runUp: 'running, not at rate yet',
  };

export const lineWords = {
  count,
  duration: lasted,
  /** `38 s` or `4 h 01 min`; from ten minutes on without seconds, which nobody reads then. */
  roughly: (ms: number) =>
    ms >= 600_000 && ms < 3_600_000
      ? lasted(Math.floor(ms / 60_000) * 60_000).replace(/ 00 s$/, '')
      : lasted(ms),
  /** Whole minutes that have passed, seconds below one. */
  minutesPast: past,
  minutes: (ms: number) => lasted(Math.ceil(ms / 60_000) * 60_000).replace(/ 00 s$/, ''),
  clock: at,
  clockSeconds: exactly,
  hour: (moment: number, zone: string) => hour(moment, zone, locale),
  weekday: (moment: number, zone: string) => weekdayClock(moment, zone, locale),
  small,
  capital,
  lineAndProduct: (name: string, product: string) => `**${name}**, ${product}`,
  sizeNotKnown: 'size not known',
  noData: 'no data',
  atTime: (moment: number, zone: string) => `at ${exactly(moment, zone)}`,

  head: {
    /** `third in 20 minutes`. */
    often: ({ nth: of, within }: Pick<HeadStopped, 'nth' | 'within'>): string =>
      `${nth(of)} in ${lasted(within)
        .replace(/ 00 s$/, '')
        .replace(/ min$/, ' minutes')}`,
    title: (head: LineView['head'], now: number): string => {
      const long = 'since' in head ? lineWords.roughly(Math.max(0, now - head.since)) : '';
      switch (head.kind) {
        case 'running':
          return { atRate: 'Running at rate', slow: 'Running slow', fast: 'Running above rate' }[head.pace];
        case 'stopped':
          return `Stopped ${long}`;
        case 'starved':
          return `Starved ${long}`;
        case 'blocked':
          return `Blocked ${long}`;
        case 'changeover':
          return `Changeover ${long}`;
        case 'pause':
          return head.over
            ? `${capital(head.name)}, ${lasted(Math.max(0, now - head.allowanceEnds))} over`
            : `Planned ${head.name}`;
        case 'pressed':
          return 'Emergency stop latched in';
        case 'unknown':
          return `Not seen for ${lineWords.minutesPast(Math.max(0, now - head.since))}`;
        case 'offShift':
          return 'Between shifts';
      }
    },
    lines: (view: Pick<LineView, 'head' | 'rate' | 'sight'>, told: Told): readonly string[] => {
      const { head, rate } = view;
      switch (head.kind) {
        case 'running': {
          const without = `No stop for ${lineWords.minutesPast(told.now - head.since)}`;
          const minor = head.shortStopsThisShift;
          const stops = `${small(minor)} short ${many(minor, 'stop', 'stops')} this shift`;
          if (head.pace === 'atRate' || rate.running === undefined || rate.target === undefined)
            return [without, stops];
          return [
            `${count(rate.running)} a minute, target ${count(rate.target)}`,
            without[0]?.toLowerCase() + without.slice(1),
          ];
        }
        case 'stopped':
          return stoppedLines(head, told);
        case 'starved':
        case 'blocked': {
          return [capital(placed(head.name, told.station(head.station)))];
        }
        case 'changeover': {
          const sizes =
            head.from && head.to ? [`${head.from} to ${head.to}`] : head.to ? [`To ${head.to}`] : [];
          return [
            ...sizes,
            head.trialSince === undefined
              ? PHASES[head.phase]
              : `trial since ${at(head.trialSince, told.zone)}, none counted`,
          ];
        }
        case 'pause':
          return head.over
            ? [`It was due to end ${at(head.allowanceEnds, told.zone)}`]
            : [`Until ${at(head.allowanceEnds, told.zone)} at the latest`];
        case 'pressed':
          return pressedLines(head, told);
        case 'unknown':
          return [
            view.sight.lastAt === undefined
              ? 'Nothing read yet'
              : `Nothing read since ${exactly(view.sight.lastAt, told.zone)}`,
            head.isolatedLikely
              ? 'it stood when last seen, and may be locked out'
              : 'look at the line itself',
          ];
        case 'offShift':
          return head.next === undefined
            ? ['No shift is planned']
            : [`${capital(head.next.name)} begins ${weekdayClock(head.next.at, told.zone, locale)}`];
      }
    },
    /** What it does, with nothing in it that counts: for those who listen, told when it changes. */
    told: (head: LineView['head'], told: Told): string => {
      switch (head.kind) {
        case 'running':
          return 'Running';
        case 'stopped':
          return ['Stopped', ...stoppedLines(head, told)].join(', ');
        case 'starved':
        case 'blocked':
          return `${capital(head.kind)}, ${placed(head.name, told.station(head.station))}`;
        case 'changeover':
          return 'Changeover';
        case 'pause':
          return head.over ? `${capital(head.name)}, over its time` : `Planned ${head.name}`;
        case 'pressed':
          return ['Emergency stop latched in', ...pressedLines(head, told)].join(', ');
        case 'unknown':
          return lineWords.head.toldUnseen;
        case 'offShift':
          return 'Between shifts';
      }
    },
    toldUnseen: 'The line is not seen',
    /** The PLC, or what lies between it and the gateway, is silent. */
    plcSilent: (ms: number, lastAt: number | undefined, zone: string) => ({
      title: lastAt === undefined ? 'Not seen yet' : `Not seen for ${lineWords.minutesPast(ms)}`,
      lines:
        lastAt === undefined
          ? ['The PLC has sent nothing so far']
          : [`The PLC has sent nothing since ${exactly(lastAt, zone)}`, 'look at the line itself'],
    }),
    /** The gateway hears the PLC, but cannot record what it hears, and so does not show it. */
    tapeSilent: (ms: number, lastAt: number | undefined, zone: string) => ({
      title: lastAt === undefined ? 'Not seen yet' : `Not seen for ${lineWords.minutesPast(ms)}`,
      lines:
        lastAt === undefined
          ? ['Nothing can be recorded so far']
          : [`Nothing can be recorded since ${exactly(lastAt, zone)}`, 'look at the line itself'],
    }),
    gatewaySilent: (ms: number, lastAt: number, zone: string) => ({
      title: `Not seen for ${lineWords.minutesPast(ms)}`,
      lines: [
        `Scoreline’s gateway has not answered since ${exactly(lastAt, zone)}`,
        'look at the line itself',
      ],
    }),
    silentGateway: 'The gateway does not answer',
    silentPlc: 'The PLC sends nothing',
    silentTape: 'Nothing can be recorded',
    staleGateway: (moment: number, zone: string) =>
      `**The gateway does not answer**, shown as of ${exactly(moment, zone)}`,
    stalePlc: (moment: number, zone: string) =>
      `**The PLC sends nothing**, shown as of ${exactly(moment, zone)}`,
    staleTape: (moment: number, zone: string) =>
      `**Nothing can be recorded**, shown as of ${exactly(moment, zone)}`,
    isGoing: (who: string, when: number, zone: string) =>
      `**Someone${who === '' ? '' : ` from ${who}`} is going**, since ${at(when, zone)}`,
    nobodyGoing: '**Nobody has said they are going**',
    nobodyNeeded: 'Nobody is needed',
    nobodyPlanned: 'No shift now, nobody is expected',
    /** The view comes, but what the line does is in none of it. */
    notTold: 'What it does now cannot be told',
    wantedAt: (name: string, station: string | undefined) =>
      `**Someone is wanted${station === undefined ? '' : ` at ${station}`}**: ${name}`,
    wantedFor: (what: string) =>
      `**Someone is wanted**: ${what.charAt(0).toLocaleLowerCase(locale)}${what.slice(1)}`,
    noticesWant: (notices: number, others: number) => {
      const untaken = `${small(notices)} ${many(notices, 'notice is', 'notices are')} not taken`;
      const asked = `${small(others)} ${many(others, 'thing wants', 'things want')} an answer`;
      const [first = '', ...rest] = [...(notices > 0 ? [untaken] : []), ...(others > 0 ? [asked] : [])];
      return [`**${capital(first)}**`, ...rest].join(', ');
    },
    setting: 'Wanted until it runs at rate: whoever sets it',
    pauseOver: (name: string) => `**The crew is wanted**: the ${name} is over`,
    backBy: (moment: number, zone: string) => `The crew is wanted again by ${at(moment, zone)}`,
    answersWanted: (n: number) => `${capital(small(n))} ${many(n, 'stop has', 'stops have')} no reason yet`,
    isolatedClass: 'Stood, by its counters',
  },

  rate: {
    label: 'good cartons per minute',
    short: 'good per minute',
    ofTarget: (target: number) => `of ${count(target)}`,
    target: (target: number | undefined, crew: number) =>
      `${target === undefined ? 'no target' : `target **${count(target)}**`}, ${small(crew)} at loading`,
    before: (n: number) => `${count(n)} in the minute before`,
    rejects: (n: number) => `${small(n)} ${many(n, 'reject', 'rejects')} in the minute`,
    notLoaded: (n: number) => `${small(n)} not loaded in the minute`,
    clean: 'no reject in the minute',
    uncertain: 'uncertain: not all of it was seen',
    notObserved: 'the last minute was not seen',
    latchedFor: (known: PressView['known']) => `latched in for${known === 'found' ? ' at least' : ''}`,
    forLabel: (known: PressView['known']) => `for${known === 'found' ? ' at least' : ''}`,
    standsSince: (moment: number, zone: string) => `line stands since ${exactly(moment, zone)}`,
    stillRuns: 'the line has not stopped',
    readAgo: (ms: number) => `read from the PLC ${lineWords.minutesPast(ms)} ago`,
  },

  plan: {
    shift: (shift: { readonly name: string; readonly to: number } | undefined, zone: string) =>
      shift === undefined ? 'No shift' : capital(`${shift.name} to ${at(shift.to, zone)}`),
    nothingPlanned: 'nothing planned',
    noShift: 'No shift, nothing planned',
    /** What was made while nothing was planned. */
    outside: (n: number) => `${count(n)} good ${many(n, 'carton', 'cartons')} outside every shift`,
    planned: (n: number) => `good of ${count(n)} planned`,
    plannedShift: (n: number, shift: string) => `good of ${count(n)} planned, ${shift}`,
    order: ({ number, good, quantity }: OrderView) => `Order ${number}: ${count(good)} of ${count(quantity)}`,
    noOrder: 'No order entered',
    behind: (n: number): readonly [string, string] => [
      count(Math.abs(n)),
      n > 0 ? 'behind plan' : n < 0 ? 'ahead of plan' : 'on plan',
    ],
    behindLine: (n: number) =>
      n > 0 ? `${count(n)} behind plan` : n < 0 ? `${count(-n)} ahead of plan` : 'on plan',
    likely: (low: number, high: number) =>
      high < 0
        ? `likely ${count(-high)} to ${count(-low)} over`
        : low < 0
          ? `likely ${count(high)} short to ${count(-low)} over`
          : `likely ${count(low)} to ${count(high)} short`,
    short: (n: number, moment: number, zone: string) =>
      n > 0
        ? `**${count(n)} short** at ${at(moment, zone)}`
        : n < 0
          ? `**${count(-n)} over** at ${at(moment, zone)}`
          : `**Just made** at ${at(moment, zone)}`,
    notKnownPressed: 'Finish not known while latched',
    notKnownYet: 'Too early to tell the finish',
    notKnownUnseen: 'Finish not known',
    asOf: (moment: number, zone: string) => `as read ${exactly(moment, zone)}`,
    needed: (rate: number, planned: number, moment: number, zone: string): readonly string[] => [
      `${numbers.decimal(rate, 1, locale)} per minute`,
      'needed to make',
      `${count(planned)} by ${at(moment, zone)}`,
    ],
  },

  changeover: {
    since: (kind: LineView['changeover']['kind']) =>
      kind === 'startUp' ? 'since start-up' : 'since changeover',
    running: 'changeover for',
    from: (from: string) => `from ${from}`,
    kind: { size: 'of size', artwork: 'of blend', startUp: 'start-up' },
    atRate: (ms: number) => `at rate after ${lineWords.roughly(ms)}`,
    notAtRate: 'not at rate yet',
    trial: (n: number) => `${count(n)} trial ${many(n, 'carton', 'cartons')}`,
    noneSeen: 'no changeover seen yet',
    line: (ms: number | undefined, from: string | undefined, lastedMs: number | undefined) =>
      ms === undefined
        ? 'No changeover seen yet'
        : `Since changeover ${lasted(ms)}${from === undefined ? '' : `, from ${from}`}${lastedMs === undefined ? '' : `, at rate after ${lineWords.roughly(lastedMs)}`}`,
  },

  age: {
    read: (ms: number | undefined) =>
      ms === undefined ? 'nothing read yet' : `read ${lineWords.minutesPast(ms)} ago`,
    /** The same where it takes two lines. */
    readInTwo: (ms: number | undefined) =>
      ms === undefined ? ['nothing', 'read yet'] : ['read', `${lineWords.minutesPast(ms)} ago`],
    gap: 'seen without a gap',
    coverage: (share: number) =>
      `${new Intl.NumberFormat(locale, { style: 'percent', maximumFractionDigits: 1 }).format(Math.min(share, 0.999))} of the shift was seen`,
    lastRead: (moment: number, zone: string) => `last read ${exactly(moment, zone)}`,
    /** Of what is shown as of a moment. */
    old: (ms: number) => `${lineWords.minutesPast(ms)} ago`,
  },
} as const;
