import type { Withdrawal } from '../notices/unwanted.ts';
import type { EpochMs } from '../units/units.ts';
import { clock } from './clock.ts';
import { noticeScreenWords } from './english-notice-screen.ts';
import { locale } from './english-say.ts';

const coded = (code: string | undefined) => (code === undefined ? '' : ` (${code})`);
const ending = (code: string | undefined) => `${coded(code)}.`;

interface Place {
  readonly line: number;
  readonly column: number;
}

/** `act`: by whom and when. */
const WITHDRAWN: Readonly<Record<Withdrawal['why'], (act: string) => string>> = {
  taken: (act) => `Taken${act} before it went out.`,
  closed: (act) => `Closed${act} before it went out.`,
  ended: (act) => `Ended${act} before it went out.`,
  shelved: (act) => `Shelved${act} before it went out.`,
  again: (act) => `It came again${act} before this went out, and is told anew.`,
  handedOn: (act) => `Handed on${act} before it went out.`,
  accessEnded: () => 'The access of that number ended before it went out.',
};

const levels = { note: 'Note', call: 'Call', urgent: 'Urgent' } as const;

/** What the head of a mail about a notice says. */
interface MailParts {
  readonly level: keyof typeof levels;
  readonly lineName: string;
  readonly what: string;
  readonly trial?: true;
}

/** How notices reach people: what a mail says, why something did not arrive, and what is wrong in the file of ways. */
export const waysWords = {
  mail: {
    subject: ({ level, lineName, what, trial }: MailParts) =>
      `${trial ? 'Trial' : levels[level]}, ${lineName}: ${what}`,
    text: (said: string) =>
      [
        said,
        '',
        'It stays open until somebody takes it in Scoreline. An answer to this mail is not read.',
        '',
      ].join('\n'),
  },

  /** Why a notice did not arrive, by the kind of trouble; `code` is what the other side answered. */
  trouble: {
    notReached: (code?: string) => `The receiver is not reached${ending(code)}`,
    refused: (code?: string) => `The receiver refused it${ending(code)}`,
    notNow: (code?: string) => `The receiver could not take it then${ending(code)}`,
    hung: () => 'The receiver took longer to answer than it may.',
    closed: () => 'The receiver ended the connection before it had answered.',
    certificate: (code?: string) => `The receiver’s certificate is not trusted${ending(code)}`,
    notEncrypted: () =>
      'The receiver does not encrypt, and nothing is sent in the clear unless the file of ways says so.',
    logIn: (code?: string) => `The receiver refused the name or the password${ending(code)}`,
    notUnderstood: (code?: string) => `The receiver answered something that is not understood${ending(code)}`,
    elsewhere: (code?: string) =>
      `The receiver sends on to another address, which is not followed${ending(code)}`,
    noAddress: () => 'No address is kept for this person and this way.',
    noWay: () => 'The file of ways has no such way.',
    secret: () => 'The password or key of this way cannot be read.',
    full: () => 'Too many were waiting already.',
    brokenOff: () => 'Scoreline ended in the middle of a try; it may have arrived.',
    wayWrong: () => 'What the file of ways says of this way is wrong; it is tried again once that is mended.',
    interrupted: () => 'Scoreline ended in the middle of every try.',
    mistake: () => 'Scoreline made a mistake of its own; the log has it.',
  },

  /** What the log says. */
  log: {
    notTold: (way: string, why: string) =>
      `A notice did not arrive by ${way}, and is not tried again: ${why}`,
    later: (way: string, why: string) => `A notice did not arrive by ${way} yet: ${why}`,
    dropped: (count: number) =>
      count === 1
        ? 'One notice that did not arrive is no longer listed: the list is full.'
        : `${count} notices that did not arrive are no longer listed: the list is full.`,
    threw: (way: string) => `The way ${way} failed by a mistake of Scoreline’s own.`,
    disk: (what: string) => `What became of a notice is not stored yet: ${what}`,
    notRecorded: 'What became of a notice is not on the tape yet; it is tried again.',
  },

  /** Why a letter went out no more. */
  withdrawn: (
    {
      why,
      by,
      at,
      perhaps,
    }: { readonly perhaps: boolean } & Omit<Withdrawal, 'at'> & { readonly at: EpochMs | null },
    zone: string,
  ): string => {
    const who = by === null ? '' : ` by ${noticeScreenWords.who(by, (position) => position)}`;
    const when = at === null ? '' : ` at ${clock(at, zone, locale)}`;
    const said = WITHDRAWN[why](`${who}${when}`);
    return perhaps ? `${said} A try before may have arrived.` : said;
  },

  begun: (ways: readonly string[]) => `Notices go out by: ${ways.join(', ')}`,

  outbox: {
    foreign: (file: string) => `${file} does not hold notices.`,
    newer: (file: string, format: number, known: number) =>
      `${file} has the format ${format}; this version of Scoreline knows ${known}.`,
    foreignWhy: 'Another program made it.',
    foreignMend:
      'Move it out of the data folder, and start again: notices that wait in it are not sent then.',
  },

  notOpened: (said: string) => `Notices cannot go out yet; it is tried again. ${said}`,

  file: {
    leftOut: (ways: readonly string[]) => {
      if (ways.length === 0) return 'Something in the file of ways does not fit, and is left out.';
      const [only] = ways;
      return ways.length === 1
        ? `The way ${only} is left out: what the file of ways says of it does not fit.`
        : `The ways ${ways.join(', ')} are left out: what the file of ways says does not fit.`;
    },
    badMend:
      'Correct it there: the file is read again by itself. gateway/notices/README.md shows one that fits.',
    logged: (file: string, { line, column }: Place, said: string) => `${file}:${line}:${column} ${said}`,
    secret: (way: string) => `The password or key of the way ${way} cannot be used.`,
    gone: 'The file of ways is no longer there.',
    goneWhy: 'What it said holds until the next start.',
    goneMend: 'Put it back, or start again without it: then no notice goes out.',
    noMap: 'It has no parts such as mail or webhooks.',
    noPart: (key: string) => `It knows no “${key}”.`,
    noList: 'Webhooks are a list: each begins with a dash.',
    tooMany: (most: number) => `It may have ${most} webhooks; those after them are left out.`,
    certificates: (why: string) => `The certificates to trust cannot be read. ${why}`,
    noCertificate: 'There is no certificate in it: each begins with -----BEGIN CERTIFICATE-----.',
    brokenCertificate: (place: number) => `The certificate at place ${place} in it is damaged or cut short.`,
    host: 'A mail server is named by its host name or address alone.',
    mailAddress: 'A mail address is of the form name@host, and nothing else.',
    hookAddress:
      'The address of a webhook begins with http:// or https:// and names no user and no password.',
    screensAddress:
      'The address of the screens begins with http:// or https:// and names no user and no password.',
    clearPassword:
      'A password is never sent in the clear: set security to startTls or tls, or leave the log-in out.',
    sameName: 'Two ways have the same name, or one is named page or mail.',
    sameTurn: 'A time of day is written as 06:00, a date as 2026-03-30, both together as 2026-03-30T06:00.',
    nobody: 'A plan, rota or substitute names somebody, or a rota, that is not there.',
    twice: 'Somebody, or a rota, is there twice.',
  },

  secret: {
    unset: (name: string) => `The environment variable ${name} is not set.`,
    unsetWhy: 'The file of ways says that a password or key stands there.',
    unsetMend: 'Set it where Scoreline is started, or name a file in its place.',
    file: (path: string) => `The password or key in ${path} cannot be used.`,
    open: 'Others than its owner may read it, or it belongs to somebody else.',
    openMend: 'Let the user who runs Scoreline own it, and nobody else read it: chmod 600.',
    noFile: 'It is not a file of its own, is empty, or is longer than a password or key.',
    noFileMend: 'Put the password or key into it, and nothing else.',
    gone: 'It is not there, or this user may not read it.',
    shortKey: (way: string) => `The key of the webhook ${way} is too short.`,
    shortKeyWhy: (least: number) => `A key for signatures has at least ${least} characters.`,
    shortKeyMend:
      'Make a longer one by chance, for example with: openssl rand -hex 32. The receiver needs the same.',
  },

  trial: {
    what: 'This is a trial. Nothing has happened at the line.',
    text: (line: string) =>
      [
        `This is a trial of how notices of ${line} reach you. Nothing has happened at the line, and nothing has to be done.`,
        '',
        'An answer to this message is not read.',
        '',
      ].join('\n'),
    arrived: 'The receiver has taken it. Whether it is seen or heard only the person can tell.',
    notArrived: (why: string) => `It did not arrive. ${why}`,
    pageOpen: 'A page of this number is open with sound. Nothing was sent to it.',
    pageClosed: 'No page of this number is open with sound, so nothing would be heard.',
    shutOff: (person: string) => ({
      what: `The access of number ${person} has ended.`,
      why: 'Whoever is shut off is told of nothing.',
      mend: 'An admin can give that number its access back.',
    }),
    tooMany: {
      what: 'Too many trials were sent just now.',
      why: 'A few a minute are sent at most, so that nobody is flooded.',
      mend: 'Wait a minute, and try again.',
    },
  },

  again: {
    unknown: (id: string) => `No notice that goes out has the number ${id}.`,
    unknownWhy: 'It never was there, or has been dropped from the list since.',
    unknownMend: 'Look at the list.',
    notDead: 'This notice is not one that was given up.',
    notDeadWhy: 'It arrived, was taken back, or is still being tried.',
    notDeadMend: 'Nothing has to be done.',
    unwanted: 'This notice is told to nobody any more.',
    unwantedWhy:
      'Somebody has taken, closed or shelved it since, it has ended or come again; or the access of that number has ended.',
    unwantedMend: 'Nothing has to be done. The notice’s page says where it stands.',
    full: 'Too many notices wait already.',
    fullWhy: 'A receiver has not taken any for a long time.',
    fullMend: 'See to that receiver first, and try it again then.',
  },

  describe: {
    outbox:
      'Notices on their way to people: waiting, being sent, told, and given up with why; the newest first',
    again: 'Tries once more to tell a notice that was given up',
    ways: 'The ways by which notices can go out, without their passwords and keys',
    trial: 'Sends a trial to a person by a way, once, and answers what became of it',
  },
} as const;
