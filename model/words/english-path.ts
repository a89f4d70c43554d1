import type { TrendSpan } from '../view/trend.ts';
import type { CounterMarked, Matter } from '../view/matter.ts';
import type { LossCause, PressView } from '../view/view.ts';
import type { NoticeCounts } from '../notices/counts.ts';
import { day } from './clock.ts';
import { noticeCount } from './english-notice-screen.ts';
import { at, capital, count, exactly, lasted, locale, many, past } from './english-say.ts';
import type { Told } from './told.ts';

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

/** So long after a moment its clock time alone says which day is meant. Milliseconds. */
const SAME_DAY = 12 * 3_600_000;

function when(moment: number, { zone, now }: Told): string {
  const clock = at(moment, zone);
  return now - moment < SAME_DAY ? clock : `${clock} on ${day(moment, zone, locale)}`;
}

/** What a counter did that counters do not, and what that means. */
const MARKS: { readonly [mark in CounterMarked['mark']]: readonly [did: string, means: string] } = {
  reset: ['began again', 'what it counted then is uncertain'],
  set: ['was set to another number', 'nothing was counted for it'],
  implausible: ['jumped', 'it stood for long before, or is told seldom: counted, but uncertain'],
  correction: ['went back a little', 'nothing was counted for it'],
};

/** What a counter counts. */
function counted({ counts, of }: CounterMarked): string {
  const where = of === undefined ? '' : ` at ${of}`;
  switch (counts) {
    case 'pickedCount':
      return 'blanks picked';
    case 'goodCount':
      return 'good cartons';
    case 'rejectCount':
      return of === undefined ? 'rejects' : `rejects, ${of}`;
    case 'presentedCount':
      return `cartons${where}`;
    case 'missedPickCount':
      return 'missed picks';
    case 'notLoadedCount':
      return `pockets not loaded${where}`;
    case 'crushedCount':
      return `cartons crushed${where}`;
    case 'nearMissCount':
      return `near misses${where}`;
    case 'stopDeviceCount':
      return of === undefined ? 'presses' : `presses of ${of}`;
  }
}

/** Sentences of the carton's path, the shift's strip and the open notices. */
export const pathWords = {
  path: {
    title: 'The carton’s path',
    lost: ['cartons lost', 'this shift'],
    more: ['cartons more', 'than planned'],
    noShiftShort: ['no shift,', 'nothing', 'planned'],
    noShift: 'The carton’s path: no shift, nothing planned',
    inAll: 'in all',
    lostThisShift: (n: number) =>
      n < 0
        ? `**${count(-n)} cartons more** than planned so far`
        : `**${count(n)} cartons lost** this shift, by station`,
    /** Cartons lost, or made up where there are more than there could have been. */
    amount: (n: number) => (n < 0 ? `${count(-n)} made up` : count(n)),
    byStation: 'Cartons lost, by station',
    noStation: 'at no one station',
    others: 'others',
    lostWord: 'lost',
    cause: (cause: LossCause, n = 0) => (cause === 'slow' && n < 0 ? 'made up' : CAUSES[cause][0]),
    counted: (cause: LossCause, n: number) =>
      `${count(cause === 'slow' ? Math.abs(n) : n)} ${CAUSES[cause][1](n)}`,
    firstFault: 'first fault',
    abnormal: 'out of its normal',
    rejects: (inLast: number, of: number, normal: number): readonly [string, string] => [
      `**${count(inLast)} ${many(inLast, 'reject', 'rejects')}** in`,
      `${count(of)}, normal ${count(normal)}`,
    ],
    rejectsShort: (inLast: number, normal: number): readonly [string, string] => [
      `**${count(inLast)} ${many(inLast, 'reject', 'rejects')}**,`,
      `normal ${count(normal)}`,
    ],
    sum: (total: number, planned: number, good: number, same: boolean) =>
      total < 0
        ? `**${count(-total)} more** than ${same ? 'planned' : 'possible'} so far = ${count(good)} good − ${count(planned)}`
        : `**${count(total)} lost** = ${count(planned)} ${same ? 'planned' : 'possible'} so far − ${count(good)} good`,
    sumParts: (planned: number, good: number, same: boolean) =>
      good > planned
        ? `${count(good)} good − ${count(planned)} ${same ? 'planned' : 'possible'} so far`
        : `${count(planned)} ${same ? 'planned' : 'possible'} so far − ${count(good)} good`,
    station: (number: number, name: string, lost: number, causes: string) =>
      `Station ${number}, ${name}: ${lost < 0 ? pathWords.path.amount(lost) : `${count(lost)} lost`}${causes === '' ? '' : `: ${causes}`}`,
    said: (total: number) =>
      `The carton’s path: ${total < 0 ? `${count(-total)} cartons more than planned so far` : `${count(total)} cartons lost this shift`}, by station and cause`,
  },

  strip: {
    title: 'This shift',
    noShift: 'Between shifts',
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
    title: (counts: NoticeCounts, { beside }: { readonly beside: number }) =>
      `Notices: ${noticeCount(counts)}${beside === 0 ? '' : `; ${count(beside)} to answer or to know`}`,
    /** What is counted and has no row, by name. */
    leftOut: (noRoom: number, { notes, presses }: { readonly notes: number; readonly presses: number }) => {
      const parts = [
        noRoom > 0 ? `${count(noRoom)} more for which there is no room` : '',
        notes > 0
          ? `${count(notes)} that only ${many(notes, 'tells', 'tell')} and ${many(notes, 'calls', 'call')} nobody`
          : '',
        presses > 0 ? `${count(presses)} of a stop device` : '',
      ].filter((part) => part !== '');
      return parts.length === 0 ? '' : `Not in this list: ${parts.join(', ')}.`;
    },
    more: (n: number) => `and ${count(n)} more`,
    /** What it is, and what belongs to it. */
    said: (matter: Matter, told: Told): readonly [string, string] => {
      const open = (ms: number | undefined) => (ms === undefined ? 'still' : `for ${lasted(ms)}`);
      switch (matter.kind) {
        case 'unexplainedStop':
          return [
            `Stop at ${when(matter.at, told)} has no reason`,
            `${told.station(matter.station) ?? 'station not known'}, ${matter.lasted === undefined ? 'it still stands' : `${matter.endSeen ? '' : 'at least '}${lasted(matter.lasted)}`}`,
          ];
        case 'stationAbnormal':
          return [
            `${capital(told.station(matter.station) ?? matter.station)} is far above its own normal`,
            `${count(matter.inLast)} rejects in ${count(matter.of)}, normal ${count(matter.normal)}; since ${when(matter.since, told)}`,
          ];
        case 'guardOpenRunning':
          return [
            `${capital(matter.guard)} read open while it ran`,
            `${when(matter.at, told)}, ${open(matter.lasted)}, not explained`,
          ];
        case 'devicePressedRunning':
          return [
            `${capital(matter.device)} read pressed while it ran`,
            `${when(matter.at, told)}, ${open(matter.lasted)}, not explained`,
          ];
        case 'whichButton':
          return [
            matter.at === undefined
              ? 'Which stop button? Nobody saw when'
              : `Which stop button at ${when(matter.at, told)}?`,
            `one of: ${matter.candidates.map((one) => one.name).join(', ')}`,
          ];
        case 'notRecorded':
          return [`Nothing can be recorded since ${exactly(matter.since, told.zone)}`, matter.mend];
        case 'waysWrong':
          return [
            `${matter.what} Line ${count(matter.line)} of ways.yaml`,
            matter.more === 0
              ? matter.mend
              : `${matter.mend} There ${many(matter.more, 'is one more', `are ${count(matter.more)} more`)}.`,
          ];
        case 'stillTrial':
          return [
            `Still trial cartons since ${when(matter.since, told)}`,
            `by the line’s trial signal; the changeover lasts ${lasted(matter.lasted)}, and comes to no rate while it is on`,
          ];
        case 'clockOff':
          return [
            `The clock of ${matter.server} is ${lasted(Math.abs(matter.offset))} ${matter.offset < 0 ? 'behind' : 'ahead'}`,
            'moments that are shown are by that clock',
          ];
        case 'clockSet':
          return [
            `The clock of ${matter.server} was put ${matter.by < 0 ? 'back' : 'forward'} by ${lasted(Math.abs(matter.by))}`,
            'moments that are shown go on as they were',
          ];
        case 'counterReset':
          return [
            `The counter of ${counted(matter)} ${MARKS[matter.mark][0]}`,
            `${when(matter.at, told)}; ${MARKS[matter.mark][1]}${matter.times > 1 ? `; ${count(matter.times)} times this shift, all counters` : ''}`,
          ];
        case 'notSeen':
          return matter.to === undefined
            ? [`Not seen since ${exactly(matter.from, told.zone)}`, 'no data, no figures for that time']
            : [
                `Not seen for ${past(matter.to - matter.from)}`,
                `from ${at(matter.from, told.zone)} to ${at(matter.to, told.zone)}; no figures for that time`,
              ];
        case 'olderFindings':
          return [
            `${count(matter.count)} older ${many(matter.count, 'finding is', 'findings are')} not closed`,
            'a guard open or a stop device pressed while it ran; too many to be listed',
          ];
        case 'further':
          return [`${capital(pathWords.matters.more(matter.count))}`, 'shown when those above are done with'];
      }
    },
    close: 'Close it',
    foundWords: 'What was found? It may stay empty.',
    whyAt: (moment: number, told: Told) => `What stopped it at ${when(moment, told)}?`,
    somethingElse: 'something else',
    otherWords: 'What was it, in your words?',
    send: 'Send',
  },
} as const;
