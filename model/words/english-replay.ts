import type { Course } from '../past/course.ts';
import type { PastStop } from '../past/stopsPast.ts';
import type { Happened } from '../replay/happened.ts';
import { day } from './clock.ts';
import { stateWords } from './english-around.ts';
import { happenedWords } from './english-happened.ts';
import { replayComparedWords } from './english-replay-compared.ts';
import { at, capital, count, exactly, lasted, locale, many, past, placed } from './english-say.ts';
import { replayNoteWords as noteWords } from './english-replay-notes.ts';
import { decimal } from './format.ts';

const on = (moment: number, zone: string) => day(moment, zone, locale);

function movedWords({ name, moved }: Happened): string {
  if (!moved) return `${name} was moved`;
  const number = (value: number) => decimal(value, moved.decimals, locale);
  const unit = moved.unit === '' ? '' : ` ${moved.unit}`;
  return moved.from === null
    ? `${name} moved to ${number(moved.to)}${unit}`
    : `${name} moved from ${number(moved.from)} to ${number(moved.to)}${unit}`;
}

/** Sentences of the Replay screen. */
export const replayWords = {
  title: (name: string | undefined, from: number, to: number, zone: string) =>
    `${capital(name ?? 'from')}${name === undefined ? '' : ','} ${on(from, zone)} ${at(from, zone)} to ${on(to, zone) === on(from, zone) ? '' : `${on(to, zone)} `}${at(to, zone)}`,
  lead: ({ seen, sizes }: Course): readonly [string, string] => {
    const ran = [...new Set(sizes.map(({ name }) => name))];
    const unseen = seen.unknown > 0 ? past(seen.to - seen.from - seen.unknown) : 'all';
    return [
      ran.length === 0 ? 'No size is known.' : `${ran.join(', then ')}.`,
      `Seen for ${unseen} of ${past(seen.to - seen.from)}${seen.isolated > 0 ? `; for ${past(seen.isolated)} of it the PLC was dark in a stop, and by its counters the line stood` : ''}.`,
    ];
  },
  seeIt: {
    see: 'see it happen',
    of: (what: string | undefined) => (what === undefined ? 'see it happen' : `${what}, see it happen`),
    title: 'See it happen: Replay opens a minute before',
    link: 'See it happen',
  },
  which: 'Which shift',
  none: 'There is no shift to look at yet.',
  opening: (share: number) => `Reading the tape, ${count(Math.floor(share * 100))} % …`,
  failed: (trouble: string) => `The tape could not be read: ${trouble}`,
  noAnswer: 'the gateway does not answer.',
  noAnswerMend: 'Look whether it runs and this screen has a network, then read it again.',
  again: 'Read it again',
  goesOn: {
    upTo: (moment: number, zone: string) => `The shift goes on; it was read up to ${exactly(moment, zone)}.`,
    read: 'Read on to now',
  },
  cursor: 'Moment looked at',
  cursorAt: (moment: number, zone: string) => `${on(moment, zone)} ${exactly(moment, zone)}`,
  moment: exactly,
  clock: at,
  notSeen: (ms: number) => `not seen, ${past(ms)}`,
  break: 'break',
  changeover: (to: string | undefined) => (to === undefined ? 'changeover' : `to ${to}`),
  press: (device: string, ms: number | undefined) =>
    `${device} pressed${ms === undefined ? '' : `, ${lasted(ms)} until restart`}`,

  play: 'Play',
  stop: 'Stop playing',
  carton: { one: 'carton', back: 'one carton back', on: 'one carton on' },
  speeds: 'How fast',
  speed: (times: number) => (times === 1 ? 'as it was' : `${count(times)} times`),
  as: {
    label: 'Which view',
    shown: 'as shown then',
    known: 'as known now',
    about: {
      shown: 'With what had come by then: exactly what a screen showed at this moment.',
      known: 'With all that has come since: what came late is where it belongs, what was corrected is right.',
    },
    notKnown: 'Too much came late to tell what is known now; what is shown is as it was then.',
  },
  jump: {
    label: 'Go to',
    stop: 'stop',
    press: 'stop device',
    changeover: 'changeover',
    notice: 'notice',
    note: 'note',
    back: (what: string) => `${what} before`,
    on: (what: string) => `next ${what}`,
  },
  window: {
    span: (from: number, to: number, zone: string) => `${at(from, zone)} to ${at(to, zone)}`,
    wide: 'How wide',
    minutes: (n: number) => (n >= 60 ? `${count(n / 60)} h` : `${count(n)} min`),
    rate: 'good cartons per minute',
    state: 'machine state',
    stateOf: (state: string | undefined) =>
      state === undefined ? 'not known' : (stateWords[state] ?? state),
    rejects:
      'Each mark is one reject, when the check counted it, at the station it is charged to; solid ones while that station was outside its own normal.',
    held: (ms: number | undefined) => (ms === undefined ? 'latched in' : `latched in ${lasted(ms)}`),
    open: (ms: number | undefined) => (ms === undefined ? 'read open' : `read open ${lasted(ms)}`),
    asKnown: 'As known now.',
    unheard:
      'Barred above the board: nothing came from the PLC then, and screens of that moment showed none of it.',
    export: 'Export this window',
    reading: 'Looking at the window …',
  },
  lanes: {
    title: 'Signals of a station',
    none: 'none',
    empty: 'None of them was told in this window.',
    sinceBegin: (n: number) => `${count(n)} so far in this window`,
    more: (n: number) => `and ${count(n)} more`,
  },
  notes: noteWords,
  here: {
    title: (moment: number, zone: string) => exactly(moment, zone),
    position: (position: number) => `position ${count(position)} on the tape`,
    waiting: 'Folding the tape up to here …',
    whole: 'The Line screen at this moment',
    rejects: ({
      inLast,
      of,
      normal,
    }: {
      readonly inLast: number;
      readonly of: number;
      readonly normal: number;
    }) =>
      `${count(inLast)} ${many(inLast, 'reject', 'rejects')} in the last ${count(of)}, where ${count(normal)} ${many(normal, 'is', 'are')} normal.`,
    stops: (n: number) => `${n === 0 ? 'No' : count(n)} ${many(n, 'stop', 'stops')} here so far this shift.`,
  },
  soFar: {
    title: (as: 'shown' | 'known', station?: string) =>
      `Stops ${station === undefined ? '' : `at ${station} `}in this shift so far, ${as === 'shown' ? 'as was told then' : 'as is known now'}`,
    sum: (stops: number, ms: number) =>
      stops === 0 ? 'None.' : `${count(stops)} ${many(stops, 'stop', 'stops')}, ${lasted(ms)} in all.`,
    one: ({ name, station, lasted: ms, until, said: answer }: PastStop) =>
      [
        placed(name ?? 'no reason known', station?.name),
        until === undefined ? `lasts for ${lasted(ms)}` : lasted(ms),
        ...(answer === undefined ? [] : [`somebody said: ${answer}`]),
      ].join(', '),
    more: (n: number) => `and ${count(n)} before them`,
  },
  happened: {
    title: 'What happened, in PLC time',
    from: {
      firstFault: 'Counted from the first fault.',
      press: 'Counted from the press.',
      stop: 'Counted from the beginning of the stop.',
      window: 'Counted from the moment looked at.',
    },
    none: 'Nothing is told of this window.',
    more: (n: number) => `and ${count(n)} more in this window: make it narrower to see them`,
    here: (moment: number, zone: string) => `here: ${exactly(moment, zone)}`,
    offset: (ms: number) => {
      const long = Math.abs(ms);
      if (long < 50) return '0.0 s';
      const sign = ms < 0 ? '−' : '+';
      return `${sign}${long < 60_000 ? `${decimal(long / 1000, 1, locale)} s` : lasted(long)}`;
    },
    one: (one: Happened, zone: string): string => {
      switch (one.kind) {
        case 'firstFault':
        case 'setOff':
        case 'reject':
        case 'press':
        case 'release':
        case 'guardOpened':
        case 'guardClosed':
          return happenedWords({ kind: one.kind, name: one.name }, one.station?.name);
        case 'reset':
          return `${one.name} reset`;
        case 'stopBegan':
          return 'line left production';
        case 'restarted':
          return 'line returned to production';
        case 'firstGood':
          return 'first good carton';
        case 'changeoverBegan':
          return 'changeover began';
        case 'changeoverEnded':
          return 'changeover over';
        case 'unseenBegan':
          return 'not seen from here on';
        case 'unseenEnded':
          return 'seen again';
        case 'sizeBegan':
          return `size ${one.name}`;
        case 'orderBegan':
          return `order ${one.name}`;
        case 'settingMoved':
          return movedWords(one);
        case 'noticeRaised':
          return 'a notice was raised';
        case 'note':
          return noteWords.inList(one.name, one.note, zone);
        case 'entry':
          return noteWords.entered(one.entry, zone);
      }
    },
  },
  link: {
    copy: 'Copy the link',
    copied: 'The link to this moment and view is copied.',
    byHand: 'This browser lets no page copy here. The link to this moment and view, to be copied by hand',
  },
  keys: {
    title: 'Keys',
    rows: [
      ['Space', 'play, or stop playing'],
      ['← →', 'one second back or on; with Shift a minute, with Alt a tenth of a second'],
      [', .', 'one carton back or on'],
      ['[ ]', 'one change back or on'],
      ['s S', 'next stop, stop before'],
      ['e E', 'next safety stop, safety stop before'],
      ['c C', 'next changeover, changeover before'],
      ['n N', 'next notice, notice before'],
      ['m M', 'next note, note before'],
      ['b', 'a note or a bookmark at this moment'],
      ['l', 'copy the link to this moment and view'],
      ['1 2 3 4', 'how fast'],
      ['+ −', 'narrower window, wider window'],
      ['k', 'as shown then, or as known now'],
      ['Home End', 'beginning, end'],
      ['?', 'this list'],
    ],
  },
  compared: replayComparedWords,
  caution:
    'It shows what was recorded. Before hands go near a jam: isolate, lock out, follow the site’s procedure and local codes.',
} as const;
