import type { Role } from '../access/access.ts';
import { SECRET } from '../access/secrets.ts';
import { clock } from './clock.ts';

const locale = 'en-GB';
const many = (n: number, one: string, other: string) =>
  new Intl.PluralRules(locale).select(n) === 'one' ? one : other;

const roles: Readonly<Record<Role, string>> = {
  viewer: 'viewer',
  operator: 'operator',
  maintenance: 'maintenance',
  engineer: 'engineer',
  safety: 'safety',
  admin: 'admin',
};

/** Log-in and the list of people on the screens. */
export const peopleScreenWords = {
  roles,
  rolesSay: {
    viewer: 'looks',
    operator: 'entries, hand-over, tests of stop devices',
    maintenance: 'entries but orders, findings, tests',
    engineer: 'all entries, findings, settings of notices',
    safety: 'findings, tests, reasons and notes',
    admin: 'people and settings; only with a password',
  } satisfies Readonly<Record<Role, string>>,
  open: 'Log in',
  openAs: (number: string) => `Number ${number}`,
  title: 'Log in',
  notNeeded: 'Looking needs no log-in, and neither does an entry at a line-side panel.',
  number: 'your number',
  secret: 'code or password',
  logIn: 'Log in',
  logOut: 'Log out',
  close: 'Close',
  cancel: 'Cancel',
  checking: 'Looking …',
  noAnswer: 'The gateway does not answer. Nothing was changed.',
  is: (number: string, name: string | null) =>
    name === null ? `Number ${number} is logged in.` : `${name}, number ${number}, is logged in.`,
  has: (held: readonly Role[]) =>
    held.length === 0 ? 'It has no role here.' : `Roles: ${held.map((role) => roles[role]).join(', ')}.`,
  byCode: 'With a password it would also have what an admin may do.',
  until: (ms: number, zone: string) => `This log-in ends at ${clock(ms, zone, locale)} at the latest.`,
  own: {
    title: 'Another code or password',
    must: 'Choose a code or password of your own: somebody else made the one that you have.',
    rule: `${SECRET.codeLeast} digits or more, or a password of ${SECRET.passwordLeast} characters or more.`,
    before: 'the one now',
    next: 'the new one',
    again: 'the new one again',
    differ: 'The two are not the same.',
    choose: 'Choose it',
    done: 'It is changed. Every other log-in of this number has ended.',
  },
  first: {
    open: 'First admin',
    about:
      'The gateway printed a one-time code when it was started first. It makes one number an admin; start Scoreline with --new-admin-code for another.',
    code: 'one-time code',
    password: 'new password',
    make: 'Make this number an admin',
  },
  list: {
    open: 'People',
    title: 'People',
    lead: (n: number) => `${n} ${many(n, 'number is given', 'numbers are given')}.`,
    about:
      'What people enter bears their number. Names stand here and nowhere else, and can be erased; the number stays. Nobody is counted, compared or ranked.',
    notAdmin: 'Only an admin who logged in with a password sees the people.',
    columns: ['number', 'name', 'roles', 'logs in by'],
    noName: 'no name',
    by: (kinds: readonly ('password' | 'code')[], provisional: boolean) =>
      provisional ? 'a first code, not used yet' : kinds.length === 0 ? 'nothing' : kinds.join(' and '),
    disabled: 'shut off',
    held: (ms: number, zone: string) => `held off by wrong codes until ${clock(ms, zone, locale)}`,
    sessions: (n: number) => (n === 0 ? '' : `${n} ${many(n, 'log-in goes on', 'log-ins go on')}`),
    change: 'Change',
    save: 'Save',
    name: 'name, if it is needed',
    newName: 'another name',
    eraseName: 'Erase the name',
    erased: 'The name is erased. A backup made before may still have it.',
    disable: 'Shut off',
    enable: 'Let in again',
    newCode: 'New code',
    endSessions: 'End its log-ins',
    release: 'Release',
    add: 'Give a number',
    addTitle: 'Another number',
    addNumber: 'the number, with a digit in it',
    code: (number: string, code: string) => `Code for number ${number}: ${code}`,
    codeAbout: 'It is told this once. It is good for one thing: choosing a code or password of one’s own.',
    sure: 'Sure?',
  },
  settings: {
    title: 'Log-ins',
    closed: 'Desks and programs have to log in for entries; panels never have to',
    idleMinutes: 'minutes until a log-in at a desk ends that is left alone',
    panelIdleMinutes: 'minutes at a panel',
    hoursMost: 'hours a log-in lasts at most',
    namesKeptDays: 'days that a name is kept after the person’s access ended; 0 for good',
    save: 'Save',
    saved: 'Saved.',
  },
  panel: {
    key: (number: string | undefined) =>
      number === undefined ? ['Test', 'of a stop device or guard'] : [`Number ${number}`, 'test, or log out'],
    title: 'Log in to record a test',
    tests: (number: string) => `Number ${number}: test of a stop device or guard`,
    whichNumber: 'Your number?',
    whichCode: 'Your code?',
    ownNext: 'Choose a code of your own',
    ownAgain: 'The same code again',
    noDigits: 'your number',
    noCode: 'your code',
    dots: (digits: string) => '\u2022'.repeat(digits.length),
    next: ['Next', 'then the code'],
    logIn: ['Log in', 'it ends by itself when left alone'],
    choose: ['Choose it', ''],
    toNumber: 'back to the number',
    toCode: 'back to the code',
    hint: 'Looking and entries need no log‑in. A number or password with letters needs a desk.',
    must: 'Somebody else made the code that you have, and knows it.',
    whichDevice: (last: string | undefined) =>
      last === undefined ? 'Which one was tested?' : `${last}: on its way. Which one next?`,
    more: ['More', ''],
    how: 'How was it tested?',
    toDevices: 'back to the devices',
    logOut: ['Log out', ''],
  },
} as const;
