import type { CameBefore } from '../past/cameBefore.ts';
import type { DevicePast, Operated } from '../past/devicesPast.ts';
import type { RanOn } from '../past/ranOn.ts';
import type { PastUse, SafetyPast, StepSeen } from '../past/safetyPast.ts';
import { day } from './clock.ts';
import { safetyFileWords } from './english-safety-file.ts';
import { capital, count, exactly, lasted, listed, locale, many, placed, small } from './english-say.ts';

const times = (n: number) => (n === 1 ? 'once' : n === 2 ? 'twice' : `${small(n)} times`);
const on = (moment: number, zone: string) => `${day(moment, zone, locale)} ${exactly(moment, zone)}`;
/** Without its weekday: `17 Mar 10:31:22`. */
const short = (moment: number, zone: string) => on(moment, zone).replace(/^\S+ /, '');
const tenths = (ms: number) => (ms < 9950 ? `${(ms / 1000).toFixed(1)} s` : lasted(ms));

const did = { pressed: 'pressed', opened: 'opened' } as const;
const reads = { pressed: 'pressed', opened: 'open' } as const;
const over = { pressed: 'released', opened: 'closed' } as const;

const roles = {
  caused: 'caused the stop',
  during: 'used during a stop',
  uncertain: 'order not certain',
  noStop: 'no stop came with it',
} as const satisfies Record<PastUse['role'], string>;

const step = (seen: StepSeen) =>
  seen === 'toCome' ? 'still to come' : seen === 'notSeen' ? 'not seen' : lasted(seen);

/** What came before, of which kind, for counting. */
const kinds = {
  fault: 'a fault of the machine, in its stop',
  outside: 'starved or blocked',
  people: 'a stop at the panel, a pause or a changeover',
  safety: 'another device or guard stopped it',
  noReason: 'a stop without a reason',
  restarting: 'a restart, within the minute before',
  guard: 'a guard opened, within the minute before',
  press: 'another device pressed, within the minute before',
  nothing: 'nothing recorded',
  uncertain: 'order not certain',
  unseen: 'not seen',
} as const satisfies Record<CameBefore['kind'], string>;

/** Sentences of the Safety stops screen. */
export const safetyWords = {
  title: (span: string) => `Safety stops, ${span}`,
  times,
  lead: (safety: SafetyPast): readonly [string, string] => {
    const { ranOnCount, presses, toFirstGood } = safety;
    const open = ranOnCount.lasts + ranOnCount.open + safety.olderFindings;
    const first =
      open === 0
        ? 'Nothing that read open or pressed while the line ran waits for a person.'
        : `${capital(times(open))} a guard read open, or a device pressed, while the line ran, and nobody has closed ${many(open, 'it', 'them')}.`;
    if (presses.uses === 0) return [first, 'No stop device was read pressed.'];
    const parts = [
      `caused ${count(presses.caused)} ${many(presses.caused, 'stop', 'stops')}`,
      `was used during ${count(presses.during)} that something else began`,
      ...(presses.uncertain > 0 ? [`for ${count(presses.uncertain)} the order is not certain`] : []),
      ...(presses.noStop > 0 ? [`with ${count(presses.noStop)} no stop came`] : []),
    ];
    const middle =
      toFirstGood.middle === undefined
        ? ''
        : ` The middle time from pressed to first good carton is ${lasted(toFirstGood.middle)}, of ${count(toFirstGood.of)} where both were seen.`;
    return [
      first,
      `A stop device was used ${times(presses.uses)}: it ${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}.${middle}`,
    ];
  },
  export: 'Export as CSV',
  which: 'Which device',
  allDevices: 'all devices',

  ranOn: {
    title: 'Read open, or read pressed, while the line ran',
    none: 'None seen in this time.',
    count: ({ lasts, open }: SafetyPast['ranOnCount'], older: number) => count(lasts + open + older),
    waits: (n: number) =>
      n === 0 ? 'waits for a person' : many(n, 'waits for a person', 'wait for a person'),
    rest: ({ closed, older, explained }: SafetyPast['ranOnCount']) =>
      [
        `${count(closed + older)} closed by people`,
        `${count(explained)} explained by a signal, or in doubt`,
      ].join('; '),
    older: (n: number) =>
      `${count(n)} older ${many(n, 'one', 'ones')} had no room in the list and ${many(n, 'waits', 'wait')}, too.`,
    olderTitle: 'Older findings',
    titleOf: ({ name, at: moment }: RanOn, zone: string) => `${capital(name)}, ${on(moment, zone)}`,
    either: ({ kind }: RanOn) =>
      kind === 'opened'
        ? 'Either a person opened it and the line ran on, or the input lags, or it is wired or mapped wrongly. The tape cannot say which.'
        : 'Either it was pressed and the line ran on, or the input lags, or it is wired or mapped wrongly. The tape cannot say which.',
    stays: 'It stays open until a person closes it with what was found.',
    stillSo: 'It still reads so while the line runs. It can be closed when that is over.',
    columns: {
      began: 'began',
      device: 'device or guard',
      lasted: 'line ran on for',
      read: 'what it read',
      reading: 'how it stands',
    },
    lasted: ({ ran, reading }: RanOn) => `${tenths(ran)}${reading === 'lasts' ? ' so far' : ''}`,
    read: ({ kind, reading }: RanOn) =>
      reading === 'explained' ? `${reads[kind]}; an enabling signal, or the reading in doubt` : reads[kind],
    readings: {
      lasts: 'not explained, still so',
      open: 'not explained',
      closed: 'closed',
      older: 'closed with older ones',
      explained: 'explained, or in doubt',
    } as const satisfies Record<RanOn['reading'], string>,
    closed: (closed: NonNullable<RanOn['closed']>, zone: string) =>
      `${on(closed.at, zone)}${closed.words === undefined ? ', without a word on what was found' : `: “${closed.words}”`}`,
    lanes: {
      ran: 'the line ran',
      reads: ({ name, kind }: RanOn) => `${name} reads ${reads[kind]}`,
      said: ({ name, kind, ran, reading }: RanOn) =>
        `${name} reads ${reads[kind]} while the line runs, for ${tenths(ran)}${reading === 'lasts' ? ' so far' : ''}`,
    },
    bound: ({ enabling, muting }: SafetyPast['bound']) =>
      [
        enabling
          ? 'Time that an enabling signal explains makes no finding.'
          : 'No enabling signal is bound, so a set-up with a guard open is not told apart.',
        muting
          ? 'How long a muting or bypass signal was on is not kept.'
          : 'No muting or bypass signal is bound, so time bypassed is not known.',
      ].join(' '),
  },

  place: {
    title: 'Where they are',
    path: 'the carton’s path',
    back: 'back side',
    front: 'front side',
    between: (from: string | undefined, to: string | undefined) =>
      from === undefined ? '' : from === to ? `at ${from}` : `from ${from} to ${to}`,
  },

  devices: {
    title: 'Each device, in the order of the drawing',
    columns: {
      device: 'device or guard',
      cells: 'when it was used',
      caused: 'caused',
      during: 'used during',
      uncertain: 'not certain',
      noStop: 'no stop',
      lastOperated: 'last operated',
      lastRunning: 'last operated while running',
      standstill: 'time to standstill, indicative',
      lastTest: 'last test recorded by a person',
    },
    key: {
      caused: 'caused the stop',
      during: 'used during a stop',
      uncertain: 'order not certain, or no stop came',
      test: 'test, recorded by a person',
      open: 'read so while running, not closed',
      unseen: 'nobody was looking',
    },
    oneOf: (candidates: readonly string[]) => `one of: ${candidates.join(', ')}`,
    notUsed: 'not used in this time',
    cellsSaid: ({ name, sum, cells }: DevicePast) => {
      const tests = cells.reduce((all, cell) => all + cell.tests, 0);
      const open = cells.reduce((all, cell) => all + cell.open, 0);
      const said = [
        ...(sum.caused > 0 ? [`${count(sum.caused)} caused the stop`] : []),
        ...(sum.during > 0 ? [`${count(sum.during)} during a stop`] : []),
        ...(sum.uncertain > 0 ? [`${count(sum.uncertain)} of order not certain`] : []),
        ...(sum.noStop > 0 ? [`${count(sum.noStop)} with no stop`] : []),
        ...(tests > 0 ? [`${count(tests)} ${many(tests, 'test', 'tests')} recorded`] : []),
        ...(open > 0 ? [`${count(open)} read so while running, not closed`] : []),
      ];
      return `${name}: ${said.length > 0 ? said.join(', ') : 'not used in this time'}`;
    },
    more: '+',
    operated: (operated: Operated, zone: string): readonly [string, string] => {
      switch (operated.kind) {
        case 'seen':
          return [short(operated.at, zone), did[operated.how]];
        case 'notCertain':
          return ['not certain', short(operated.at, zone)];
        case 'notSeen':
          return ['not seen', `since ${day(operated.since, zone, locale)}`];
      }
    },
    standstill: (standstill: DevicePast['standstill'], zone: string): readonly [string, string] => {
      if (standstill === 'notUsable') return ['not usable', 'input in doubt'];
      if (standstill === 'notSeen') return ['not seen', ''];
      const { last, cycle, at: moment } = standstill;
      return [
        last === 0 ? 'no cycle after it' : `${tenths(last)} to the last cycle`,
        `a cycle took ${tenths(cycle)}; ${short(moment, zone)}`,
      ];
    },
    test: (test: DevicePast['lastTest'], zone: string): readonly [string, string] =>
      test === undefined
        ? ['none recorded', '']
        : [short(test.at, zone), `person ${test.person}: ${test.method}`],
    foot: 'A press caused the stop only if the machine still produced when it was pressed. A time to standstill is seen by the counted cycles, where the device stopped the machine last in this time; it is no stopping-time test. Names belong to numbers in a table of their own.',
  },

  uses: {
    title: 'From pressed to the first good carton',
    titleOf: (name: string) => `From pressed or opened to the first good carton: ${name}`,
    columns: {
      at: 'pressed or opened',
      device: 'device or guard',
      before: 'what came before',
      steps: 'pressed',
      released: 'released or closed after',
      firstGood: 'good carton after',
    },
    key: {
      held: 'latched in, or open',
      released: 'released, until reset',
      reset: 'until restarted',
      restarted: 'until the first good carton',
      between: 'a step in it was not seen',
    },
    none: 'None in this time.',
    when: (use: PastUse, zone: string): readonly [string, string] => [
      day(use.at, zone, locale),
      use.owned ? exactly(use.at, zone) : `by ${exactly(use.at, zone)}, not seen when`,
    ],
    role: ({ role, owned, kind }: PastUse) =>
      owned ? roles[role] : kind === 'opened' ? 'found open' : 'counted or found, order not certain',
    candidate: (name: string) => `it was ${name}, says a person`,
    which: 'which one was it?',
    step,
    said: (use: PastUse) =>
      [
        `${over[use.kind]} ${stepSaid(use.released)}`,
        ...(use.reset === undefined ? [] : [`reset ${stepSaid(use.reset)}`]),
        `restarted ${stepSaid(use.restarted)}`,
        `first good carton ${stepSaid(use.firstGood)}`,
      ].join(', '),
    /** What the bar shows and no column says. */
    between: ({ reset, restarted }: PastUse) =>
      [...(reset === undefined ? [] : [`reset ${stepSaid(reset)}`]), `restarted ${stepSaid(restarted)}`].join(
        ', ',
      ),
    tick: (ms: number) => lasted(ms).replace(/ 00 (s|min)$/, ''),
    shown: listed,
    leftOut: (n: number) =>
      n === 0
        ? ''
        : ` ${count(n)} ${many(n, 'opening', 'openings')} of a guard within a stop ${many(n, 'is', 'are')} left out; choose the guard to see ${many(n, 'it', 'them')}.`,
    more: 'Show more',
    foot: 'Releasing a device does not restart the line. A guard’s reset is not kept. A press is always right: none is compared, counted for a person or given a cost.',
  },

  before: {
    title: 'What came before the uses',
    about: 'One mark is one use of the list above. Came before, never caused by.',
    kinds,
    said: ({ kind, name, station, ago }: CameBefore): string => {
      const what = name === undefined ? undefined : placed(name, station?.name);
      const earlier =
        ago === undefined ? '' : `, ${ago < 100 ? 'at the same moment' : `${tenths(ago)} before`}`;
      switch (kind) {
        case 'fault':
        case 'outside':
        case 'people':
        case 'safety':
          return capital(`${what ?? kinds[kind]}${earlier}`);
        case 'noReason':
          return `A stop without a reason${earlier}`;
        case 'restarting':
          return `Restarted ${tenths(ago ?? 0)} before${what === undefined ? '' : `, after ${what}`}`;
        case 'guard':
          return `${capital(name ?? 'a guard')} opened ${tenths(ago ?? 0)} before`;
        case 'press':
          return `${capital(name ?? 'another device')} pressed ${tenths(ago ?? 0)} before`;
        case 'nothing':
          return 'Nothing recorded in the minute before';
        case 'uncertain':
          return what === undefined
            ? 'Order not certain'
            : `${capital(what)}; which came first is not certain`;
        case 'unseen':
          return 'Not seen';
      }
    },
    row: (kind: CameBefore['kind'], n: number) => `${capital(kinds[kind])}: ${count(n)}`,
  },

  test: {
    title: 'Record a test',
    about:
      'Somebody tested a stop device or a guard by the site’s own procedure: which one, how, and the person’s number. Scoreline tests nothing and keeps no names.',
    device: 'device or guard',
    choose: 'which one?',
    method: 'how it was tested',
    methods: [
      'pressed at standstill',
      'pressed, line running',
      'opened at standstill',
      'opened, line running',
      'by the site’s procedure',
    ],
    person: 'person’s number',
    record: 'Record it',
  },

  caution: {
    title: 'Scoreline shows stop devices; it makes none.',
    text: 'It cannot reset, restart, mute or bypass anything, and it is late by a second or more: never use it to judge whether a person is safe. A stop device is no lock‑out: isolate, lock out and follow the site’s procedure before hands go near. Keep the site’s own record of each test; this is a second one.',
  },

  csv: safetyFileWords,
} as const;

function stepSaid(seen: StepSeen): string {
  return typeof seen === 'number' ? `after ${lasted(seen)}` : step(seen);
}
