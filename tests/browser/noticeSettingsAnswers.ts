import type { NoticeSettings } from '../../model/notices/settings.ts';
import { FIRST_SETTINGS } from '../../model/notices/settings.ts';
import type { Tried, TriedRow } from '../../model/notices/tried.ts';
import type { TriedKinds, UntoldWhy } from '../../model/notices/triedKinds.ts';
import type { EpochMs, Millis } from '../../model/units/units.ts';

const to = Date.UTC(2026, 2, 17, 9, 42);
const from = to - 30 * 86_400_000;
const HOUR = 3_600_000;

/** Notices every so many hours; what became of them goes round. */
function row(falseOnceInShifts: number, everyHours: number, later: number | undefined): TriedRow {
  const notices = Array.from({ length: Math.floor(690 / everyHours) }, (_, n) => ({
    at: (from + (n + 0.5) * everyHours * HOUR) as EpochMs,
    station: 'bottom-major',
    became: (['found', 'found', 'nothing', 'found', 'unsaid'] as const)[n % 5]!,
  }));
  const counted = (became: string) => notices.filter((one) => one.became === became).length;
  return {
    falseOnceInShifts,
    notices,
    found: counted('found'),
    nothing: counted('nothing'),
    unsaid: counted('unsaid'),
    falseExpected: 88 / falseOnceInShifts,
    missed: Math.floor(everyHours / 30),
    later: later as Millis | undefined,
  };
}

const counted = (notices: number, joined = 0) => ({ kind: 'counted', notices, joined }) as const;
const untold = <Why extends UntoldWhy>(why: Why) => ({ kind: 'untold', why }) as const;

const triedKinds = (stops: number): TriedKinds => ({
  kinds: [
    { kind: 'stops', said: counted(stops, 6), raised: 31 },
    { kind: 'stopsCounted', said: { kind: 'off' }, raised: 0 },
    { kind: 'rejects', said: untold('rejects'), raised: 4 },
    { kind: 'loose', said: untold('loose'), raised: 1 },
    { kind: 'rate', said: counted(22), raised: 25 },
    { kind: 'changeover', said: counted(9), raised: 9 },
    { kind: 'lost', said: counted(5, 7), raised: 14 },
    { kind: 'press', said: counted(41, 3), raised: 41 },
    { kind: 'ranOn', said: counted(0), raised: 0 },
    { kind: 'test', said: { kind: 'off' }, raised: 0 },
    { kind: 'unseen', said: counted(2), raised: 2 },
    { kind: 'server', said: untold('server'), raised: 3 },
    { kind: 'disk', said: untold('disk'), raised: 0 },
    { kind: 'clock', said: untold('clock'), raised: 0 },
  ],
  people: [
    { person: '4711', notices: 88 },
    { person: '4712', notices: 12 },
  ],
  nobody: 1,
});

/** What budgets would have done in thirty days, the one in use among them. */
export function triedWith(inUse: number, stops = 34): Tried {
  return {
    from: from as EpochMs,
    to: to as EpochMs,
    shifts: 88,
    seen: (702 * HOUR) as Millis,
    of: (720 * HOUR) as Millis,
    inUse,
    rows: [
      row(1, 14, -11 * 60_000),
      row(5, 20, 0),
      row(10, 33, 9 * 60_000),
      row(20, 50, 26 * 60_000),
      row(50, 86, undefined),
    ],
    ofKinds: triedKinds(stops),
  };
}

export const settings: NoticeSettings = {
  when: FIRST_SETTINGS.when,
  who: {
    recipients: [
      { person: '4711', ways: ['page', 'mail'], when: { quiet: [] } },
      {
        person: '4712',
        ways: ['page', 'dect'],
        when: { shifts: ['early'], quiet: [{ from: '22:00', to: '06:00', days: [6, 7] }] },
        falseOnceInShifts: 10,
        stations: ['bottom-major'],
      },
    ],
    rotas: [
      {
        ...{ id: 'fitters', first: '2026-03-16', clock: '06:00', days: 7, turns: ['4711', '4712'] },
        substitutes: [{ of: '4711', by: '4712', from: '2026-03-18T06:00', to: '2026-03-19T06:00' }],
      },
    ],
    plans: [
      {
        levels: ['call', 'urgent'],
        steps: [
          { afterMinutes: 0, tell: [{ kind: 'rota', rota: 'fitters' }] },
          { afterMinutes: 10, tell: [{ kind: 'person', person: '4712' }] },
        ],
      },
    ],
  },
};

export const overview = {
  past: { kind: 'whole' },
  ...{ begun: from, now: to, zone: 'Europe/Berlin', orders: [], sizes: [] },
  shifts: [
    { rule: 'early', name: 'Early', from: to - 8 * HOUR, to },
    { rule: 'late', name: 'Late', from: to, to: to + 8 * HOUR },
  ],
  stations: [
    { id: 'erect', number: 1, name: 'erecting', drawing: 'erect' },
    { id: 'bottom-major', number: 5, name: 'bottom major flap', drawing: 'bottom-major' },
  ],
};

export const ways = {
  running: true,
  mail: {
    host: 'mail.plant.example',
    port: 25,
    security: 'startTls',
    from: 'scoreline@plant.example',
    logsIn: false,
  },
  webhooks: [{ id: 'dect', origin: 'http://dect.plant.example' }],
  push: null,
  ownCertificates: false,
  faults: [
    {
      ...{ line: 7, column: 5, ways: ['pager'], why: '“adress” is not known here.' },
      what: 'The way pager is left out: what the file of ways says of it does not fit.',
      mend: 'Correct it there: the file is read again by itself.',
    },
  ],
  reach: { shutOff: ['4712'], pages: [], mail: ['4711'], push: [], webhooks: ['dect'] },
};

export const outbox = {
  running: true,
  counts: { waiting: 1, sending: 0, told: 14, dead: 1, withdrawn: 1 },
  letters: [
    {
      ...{ id: 'letter-1', notice: 'n1', line: 'line-3', level: 'call', person: '4712', way: 'dect' },
      ...{ what: 'Bottom major flap stops far above its own normal', raisedAt: to - HOUR, state: 'dead' },
      ...{ since: to, tries: 8, triesMost: 8, nextAt: null },
      why: { trouble: 'notReached', words: 'The receiver is not reached.' },
    },
  ],
};

/** One that waited, and was taken back as somebody had taken its notice. */
export const takenBack = {
  ...outbox,
  letters: outbox.letters.map((letter) => ({
    ...letter,
    ...{ id: 'letter-2', person: '4711', way: 'mail', state: 'withdrawn', why: null },
    withdrawn: {
      ...{ why: 'taken', at: to, perhaps: false },
      words: 'Taken by number 4712 at 03:12 before it went out.',
    },
  })),
};
