import type {
  HeadPressed,
  HeadStopped,
  LineView,
  LossCause,
  Matter,
  PressView,
  TrendSpan,
} from '../view/view.ts';
import { clock, clockSeconds, hour, weekdayClock } from './clock.ts';
import * as numbers from './format.ts';

const locale = 'en-GB';
const count = (n: number) => numbers.count(n, locale);
const lasted = (ms: number) => numbers.duration(ms, locale);
const at = (moment: number, zone: string) => clock(moment, zone, locale);
const exactly = (moment: number, zone: string) => clockSeconds(moment, zone, locale);
const capital = (words: string) => words.charAt(0).toLocaleUpperCase(locale) + words.slice(1);
const plural = new Intl.PluralRules(locale);
const ordinals = new Intl.PluralRules(locale, { type: 'ordinal' });
const many = (n: number, one: string, other: string) => (plural.select(n) === 'one' ? one : other);

const SMALL = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
];
const NTH = [
  '',
  'first',
  'second',
  'third',
  'fourth',
  'fifth',
  'sixth',
  'seventh',
  'eighth',
  'ninth',
  'tenth',
];
const small = (n: number) => SMALL[n] ?? count(n);
const nth = (n: number) =>
  NTH[n] ??
  `${count(n)}${{ one: 'st', two: 'nd', few: 'rd', other: 'th', zero: 'th', many: 'th' }[ordinals.select(n)]}`;

/** What the line is called and where a station is, for sentences. */
interface Told {
  readonly zone: string;
  /** Moment to count with. */
  readonly now: number;
  readonly station: (id: string | undefined) => string | undefined;
}

const CAUSES: { readonly [cause in LossCause]: readonly [name: string, counted: (n: number) => string] } = {
  stopped: ['stopped', () => 'stopped'],
  slow: ['slow', (n) => (n < 0 ? 'made up' : 'slow')],
  notLoaded: ['not loaded', () => 'not loaded'],
  missedPick: ['missed pick', () => 'missed'],
  reject: ['rejects', (n) => many(n, 'reject', 'rejects')],
  crushed: ['crushed', () => 'crushed'],
  changeover: ['changeover', () => 'changeover'],
  pauseOver: ['pause over', () => 'pause over'],
  unknown: ['not seen', () => 'not seen'],
};

const SPANS: { readonly [kind in TrendSpan['kind']]: string } = {
  stopped: 'stopped',
  starved: 'starved',
  blocked: 'blocked',
  safety: 'safety stop',
  changeover: 'changeover',
  pause: 'pause',
  isolated: 'stood, by its counters',
  unknown: 'not seen',
};

/** What stopped it, where, and how often; phrases for two lines. */
function stoppedLines(head: HeadStopped, told: Told): readonly string[] {
  if (head.press !== undefined) return releasedLines(head.press, told);
  const often =
    head.nth > 1
      ? [
          `${nth(head.nth)} in ${lasted(head.within)
            .replace(/ 00 s$/, '')
            .replace(/ min$/, ' minutes')}`,
        ]
      : [];
  const tries = head.attempt > 1 ? [`try ${count(head.attempt)}`] : [];
  const derived = head.from === 'cycles' ? ['seen from its cycles alone'] : [];
  if (head.reason === undefined) return ['Nobody has said why yet', ...derived];
  const where = told.station(head.reason.station);
  return [
    `${capital(head.reason.name)}${where === undefined ? '' : ` at ${where}`}`,
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
  const when =
    press.known === 'edge' ? `pressed ${exactly(press.pressed, zone)}` : 'known from its counter alone';
  return [`${who}, ${when}`, 'not released'];
}

/** Sentences of the Line screen: wall, desk and phone. */
export const lineWords = {
  count,
  duration: lasted,
  /** `38 s` or `4 h 01 min`; from ten minutes on without seconds, which nobody reads then. */
  roughly: (ms: number) =>
    ms >= 600_000 && ms < 3_600_000
      ? lasted(Math.floor(ms / 60_000) * 60_000).replace(/ 00 s$/, '')
      : lasted(ms),
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
          return `Not seen for ${long}`;
        case 'offShift':
          return 'Between shifts';
      }
    },
    lines: (view: Pick<LineView, 'head' | 'rate' | 'sight'>, told: Told): readonly string[] => {
      const { head, rate } = view;
      switch (head.kind) {
        case 'running': {
          const without = `No stop for ${lineWords.roughly(told.now - head.since)}`;
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
          const where = told.station(head.station);
          return [`${capital(head.name)}${where === undefined ? '' : ` at ${where}`}`];
        }
        case 'changeover': {
          const sizes =
            head.from && head.to ? [`${head.from} to ${head.to}`] : head.to ? [`To ${head.to}`] : [];
          return [
            ...sizes,
            { setting: 'being set', trial: 'trial cartons, none counted', runUp: 'running, not at rate yet' }[
              head.phase
            ],
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
    /** The PLC, or what lies between it and the gateway, is silent. */
    plcSilent: (ms: number, lastAt: number | undefined, zone: string) => ({
      title: lastAt === undefined ? 'Not seen yet' : `Not seen for ${lineWords.roughly(ms)}`,
      lines:
        lastAt === undefined
          ? ['The PLC has sent nothing so far']
          : [`The PLC has sent nothing since ${exactly(lastAt, zone)}`, 'look at the line itself'],
    }),
    gatewaySilent: (ms: number, lastAt: number, zone: string) => ({
      title: `Not seen for ${lineWords.roughly(ms)}`,
      lines: [
        `Scoreline’s gateway does not answer since ${exactly(lastAt, zone)}`,
        'look at the line itself',
      ],
    }),
    staleGateway: 'The gateway does not answer',
    stalePlc: 'The PLC sends nothing',
    isGoing: (who: string, when: number, zone: string) =>
      `**${capital(who)} is going**, since ${at(when, zone)}`,
    nobodyGoing: '**Nobody has said they are going**',
    nobodyNeeded: 'Nobody is needed',
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
    uncertain: 'uncertain: a counter jumped',
    notObserved: 'the last minute was not seen',
    latchedFor: 'latched in for',
    forLabel: 'for',
    standsSince: (moment: number, zone: string) => `line stands since ${exactly(moment, zone)}`,
    stillRuns: 'the line has not stopped',
    readAgo: (ms: number) => `read from the PLC ${lasted(ms)} ago`,
  },

  plan: {
    shift: (
      order: string | undefined,
      shift: { readonly name: string; readonly to: number } | undefined,
      zone: string,
    ) => {
      const until = shift === undefined ? undefined : `${shift.name} to ${at(shift.to, zone)}`;
      if (order === undefined) return until === undefined ? 'No shift, no order' : capital(until);
      return `Order ${order}${until === undefined ? '' : `, ${until}`}`;
    },
    planned: (n: number) => `good of ${count(n)} planned`,
    plannedOrder: (n: number, order: string | undefined) =>
      `good of ${count(n)}${order === undefined ? ' planned' : `, order ${order}`}`,
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
    notKnownPressed: 'Finish not known while it is latched in',
    notKnownYet: 'Too early to tell the finish',
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
    read: (ms: number | undefined) => (ms === undefined ? 'nothing read yet' : `read ${lasted(ms)} ago`),
    gap: 'seen without a gap',
    coverage: (share: number) =>
      `${new Intl.NumberFormat(locale, { style: 'percent', maximumFractionDigits: 1 }).format(Math.min(share, 0.999))} of the shift was seen`,
    lastRead: (moment: number, zone: string) => `last read ${exactly(moment, zone)}`,
  },

  path: {
    title: 'The carton’s path',
    lost: ['cartons lost', 'this shift'],
    inAll: 'in all',
    lostThisShift: (n: number) => `**${count(n)} cartons lost** this shift, by station`,
    byStation: 'Cartons lost, by station',
    noStation: 'at no one station',
    others: 'others',
    lostWord: 'lost',
    cause: (cause: LossCause) => CAUSES[cause][0],
    counted: (cause: LossCause, n: number) =>
      `${count(cause === 'slow' ? Math.abs(n) : n)} ${CAUSES[cause][1](n)}`,
    firstFault: 'first fault',
    abnormal: 'out of its normal',
    rejects: (inLast: number, of: number, normal: number): readonly [string, string] => [
      `**${count(inLast)} ${many(inLast, 'reject', 'rejects')}** in`,
      `${count(of)}, normal ${count(normal)}`,
    ],
    sum: (total: number, planned: number, good: number, same: boolean) =>
      `**${count(total)} lost** = ${count(planned)} ${same ? 'planned' : 'possible'} so far − ${count(good)} good`,
    sumParts: (planned: number, good: number, same: boolean) =>
      `${count(planned)} ${same ? 'planned' : 'possible'} so far − ${count(good)} good`,
    station: (number: number, name: string, lost: number, causes: string) =>
      `Station ${number}, ${name}: ${count(lost)} lost${causes === '' ? '' : `: ${causes}`}`,
    said: (total: number) =>
      `The carton’s path: ${count(total)} cartons lost this shift, by station and cause`,
  },

  strip: {
    title: 'This shift',
    legend: 'good cartons per minute; the number on a stop is the station',
    numbered: (n: number) => `good cartons per minute; the longest ${count(n)} stops carry their station`,
    safety: 'safety',
    span: (kind: TrendSpan['kind']) => SPANS[kind],
    notSeen: 'not seen',
    press: (press: PressView) => {
      const end = press.restarted ?? press.firstGood;
      const long = end === undefined ? 'not restarted yet' : lasted(end - press.pressed);
      return `${press.name}, ${press.role === 'caused' ? long : press.role === 'during' ? 'during a stop' : 'order not certain'}`;
    },
    chart: (good: number, stops: number) =>
      `Good cartons per minute this shift: ${count(good)} good, ${count(stops)} ${many(stops, 'stop', 'stops')}`,
    table: 'This shift as a table',
    stops: (n: number, numbered: number) =>
      `**${count(n)} ${many(n, 'stop', 'stops')} so far**${numbered < n ? `, the longest ${count(numbered)} are numbered` : ''}`,
    noStops: 'No stop so far',
    columns: {
      from: 'from',
      what: 'what',
      where: 'station',
      long: 'for',
      rate: 'good a minute',
      time: 'time',
    },
    open: 'still open',
    noReason: 'no reason given',
    presses: (caused: number, during: number) =>
      `${count(caused)} safety ${many(caused, 'stop', 'stops')}, ${count(during)} ${many(during, 'use', 'uses')}`,
  },

  matters: {
    title: 'Open notices',
    none: 'No open notices',
    more: (n: number) => `and ${count(n)} more`,
    /** What it is, and what belongs to it. */
    said: (matter: Matter, told: Told): readonly [string, string] => {
      const open = (ms: number | undefined) => (ms === undefined ? 'still' : `for ${lasted(ms)}`);
      switch (matter.kind) {
        case 'unexplainedStop':
          return [
            `Stop at ${at(matter.at, told.zone)} has no reason`,
            `${told.station(matter.station) ?? 'at no one station'}, ${matter.lasted === undefined ? 'it still stands' : lasted(matter.lasted)}`,
          ];
        case 'stationAbnormal':
          return [
            `${capital(told.station(matter.station) ?? matter.station)} is far above its own normal`,
            `${count(matter.inLast)} rejects in ${count(matter.of)}, normal ${count(matter.normal)}; since ${at(matter.since, told.zone)}`,
          ];
        case 'guardOpenRunning':
          return [
            `${capital(matter.guard)} read open while it ran`,
            `${at(matter.at, told.zone)}, ${open(matter.lasted)}, not explained`,
          ];
        case 'devicePressedRunning':
          return [
            `${capital(matter.device)} read pressed while it ran`,
            `${at(matter.at, told.zone)}, ${open(matter.lasted)}, not explained`,
          ];
        case 'whichButton':
          return [
            `Which stop button at ${at(matter.at, told.zone)}?`,
            `one of: ${matter.candidates.map((one) => one.name).join(', ')}`,
          ];
        case 'clockOff':
          return [
            `The clock of ${matter.server} is off`,
            `by ${lasted(Math.abs(matter.offset))}, ${matter.offset < 0 ? 'behind' : 'ahead'}; times follow it`,
          ];
        case 'counterReset':
          return [
            `${capital(matter.signal)} began again`,
            `${at(matter.at, told.zone)}; what it counted then is uncertain`,
          ];
        case 'notSeen':
          return matter.to === undefined
            ? [`Not seen since ${exactly(matter.from, told.zone)}`, 'no data, no figures for that time']
            : [
                `Not seen for ${lasted(matter.to - matter.from)}`,
                `from ${at(matter.from, told.zone)} to ${at(matter.to, told.zone)}; no figures for that time`,
              ];
      }
    },
    whyAt: (moment: number, zone: string) => `What stopped it at ${at(moment, zone)}?`,
    somethingElse: 'something else',
    otherWords: 'What was it, in your words?',
    send: 'Send',
  },
} as const;
