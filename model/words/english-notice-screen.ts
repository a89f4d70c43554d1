import type { Author } from '../entries/entries.ts';
import type { NoticeState, NoticeStory, ToldWhy } from '../notices/notice.ts';
import type { Target } from '../notices/recipients.ts';
import type { NoticeCounts } from '../notices/counts.ts';
import type { JoinedView, NoticeView, ToldView } from '../view/noticesView.ts';
import { clockSeconds, day } from './clock.ts';
import { noticeSaidWords } from './english-notice-said.ts';
import { capital, count, dated, lasted, locale, many, small } from './english-say.ts';

/** Who did something: a number, a place, or a screen; never a name. */
function who(author: Author, nameOf: (position: string) => string): string {
  switch (author.kind) {
    case 'person':
      return `number ${author.number}`;
    case 'position':
      return nameOf(author.position);
    case 'screen':
      return `somebody at a ${author.screen}`;
    case 'file':
      return author.file;
    case 'itself':
      return 'Scoreline';
  }
}

function target(one: Target): string {
  return one.kind === 'person' ? `number ${one.person}` : `whoever is on call (${one.rota})`;
}

const STORY: Readonly<Record<NoticeStory['what'], string>> = {
  raised: 'raised',
  joined: 'more of the same joined it',
  taken: 'taken',
  takenOver: 'taken over',
  handed: 'handed over',
  shelved: 'shelved',
  unshelved: 'off the shelf',
  escalated: 'told on, as nobody had taken it',
  normal: 'back to normal',
  again: 'came again',
  closed: 'closed',
  corrected: 'what was found and done corrected',
  withdrawn: 'what was said withdrawn',
  reopened: 'open again',
  ended: 'ended',
};

const ACCESS_ENDED = 'not told: the access of that number has ended';
const TOLD_WHY: Readonly<Record<ToldWhy, (way: string) => string>> = {
  accessEnded: () => ACCESS_ENDED,
  withdrawn: (way) => `by ${way}: taken back before it went out`,
  perhaps: (way) => `by ${way}: taken back; a try before may have arrived`,
};

/** Whom a step names as well, and who is not told. */
function withoutOut(said: string, out: readonly string[]): string {
  const left = out.map((person) => `number ${person} ${ACCESS_ENDED}`).join('; ');
  return [said, left].filter((part) => part !== '').join('; ');
}

const EMPTY: Readonly<Record<NoticeState, string>> = {
  raised: 'Not taken',
  returned: 'Back to normal, never taken',
  taken: 'Taken',
  shelved: 'Shelved',
  ended: 'Ended',
};

/** How many are open, and what is left out of that, wherever notices are counted. */
export function noticeCount({ open, shelved }: NoticeCounts): string {
  return `${open === 0 ? 'none' : count(open)} open${shelved === 0 ? '' : `, ${count(shelved)} on the shelf`}`;
}

const shelvedSaid = (n: number) =>
  n === 0 ? '' : `${capital(small(n))} ${many(n, 'is', 'are')} on the shelf.`;

/** Sentences of the Notices screen. */
export const noticeScreenWords = {
  title: 'Notices',
  lead: ({ open, untaken, shelved }: NoticeCounts): readonly [string, string] => {
    if (open === 0) return ['Nothing is open.', shelvedSaid(shelved)];
    if (open === 1) {
      const first =
        untaken === 1 ? 'One is open, and nobody has taken it.' : 'One is open, and somebody has it.';
      return [first, shelvedSaid(shelved)];
    }
    const taken = untaken === 0 ? 'all of them taken' : `${small(untaken)} of them not taken`;
    return [`${capital(small(open))} are open, ${taken}.`, shelvedSaid(shelved)];
  },
  heading: (counts: NoticeCounts) => `Notices: ${noticeCount(counts)}`,
  past: (raised: number, found: number, days: number) =>
    raised === 0
      ? `In ${days} days none was raised.`
      : `In ${days} days ${small(raised)} ${many(raised, 'was', 'were')} raised; ${found === 0 ? 'nobody has said yet that something was found' : `people found something ${small(found)} ${many(found, 'time', 'times')}`}.`,
  groups: EMPTY,
  group: (state: NoticeState, n: number) => `${EMPTY[state]}, ${count(n)}`,
  earlier: (n: number) => `${count(n)} earlier`,
  further: (n: number) => `${count(n)} more are open than are shown here.`,
  none: 'Nothing is open. What is out of the ordinary shows here, and in thirty days behind it.',
  settings: 'Settings',
  when: dated,
  who,
  target,
  tab: ({ state, at, normalAt }: Pick<NoticeView, 'state' | 'at' | 'normalAt'>, now: number) => {
    const name = noticeSaidWords.states[state];
    const since = (moment: number) => lasted(Math.max(0, now - moment));
    if (state === 'raised') return `${name}, told ${since(at)} ago`;
    return state === 'returned' && normalAt !== undefined ? `${name}, since ${since(normalAt)}` : name;
  },
  /** Beside its title where everybody sees it: whether somebody goes, and no number of a person. */
  onWall: ({ state, at, since, taken, normalAt }: NoticeView, now: number, zone: string) => {
    const when = (moment: number) => dated(moment, now, zone);
    switch (state) {
      case 'returned':
        return `back to normal${normalAt === undefined ? '' : ` ${when(normalAt)}`}, nobody has taken it`;
      case 'taken':
        return `somebody has it${taken === undefined ? '' : ` since ${when(taken.at)}`}`;
      default:
        return `since ${when(since)}, told ${when(at)}, nobody is going yet`;
    }
  },
  row: {
    since: (since: string, told: string) => `since ${since}, told ${told}`,
    owner: (owner: string, since: string) => `${owner} has it; since ${since}`,
    normal: (at: string) => `back to normal since ${at}`,
    until: (until: string, words: string) => `until ${until}: ${words}`,
    ended: (since: string, at: string) => `since ${since}, ended ${at}`,
    never: 'Never taken; back to normal by itself',
    unsaid: 'Taken; nobody said what was found',
    said: (found: string, done: string) => `Found: ${found}; done: ${done}`,
    falsely: 'Found: nothing. It counts as false',
  },
  numbered: (owner: string) => `number ${owner}`,
  going: 'I’m going',
  has: (owner: string, at: string) => `${capital(owner)} has it since ${at}.`,
  hasShutOff: 'The access of that number has ended: somebody else should take it over.',
  takeOver: 'Take it over',
  takeOverMeans: 'Whoever had it sees that you have it now.',
  size: (size: string) => `with ${size}`,
  /** When the trouble began, and when it was told. */
  facts: (since: string, told: string, size: string | undefined) =>
    `Since ${since}, told ${told}${size === undefined ? '' : `, with ${size}`}.`,
  joined: (n: number) =>
    `${capital(small(n))} more ${many(n, 'thing', 'things')} of the same cause ${many(n, 'stands', 'stand')} here, too:`,
  joinedRow: (
    { kind, station, facts }: JoinedView,
    at: string,
    naming: Parameters<typeof noticeSaidWords.what>[1],
  ) => {
    const head = `${noticeSaidWords.kinds[kind]}${station === undefined ? '' : ` at ${station}`}, told ${at}`;
    if (!facts) return head;
    return `${head}: ${noticeSaidWords.what({ facts, station: undefined, size: undefined }, naming)}`;
  },
  told: {
    title: 'Who was told',
    raised: 'raised',
    row: ({ person, way, failed, why }: Pick<ToldView, 'person' | 'way' | 'failed' | 'why'>) => {
      if (why !== undefined) return `number ${person} ${TOLD_WHY[why](way)}`;
      if (failed) return `number ${person} not reached by ${way}`;
      return `number ${person} by ${way === 'page' ? 'an open page' : way}`;
    },
    coming: (targets: readonly string[], out: readonly string[]) => withoutOut(targets.join(' and '), out),
    waiting: (targets: readonly string[], out: readonly string[]) =>
      withoutOut(
        targets.length === 0
          ? 'due, and nobody could be reached'
          : `due, not reached: ${targets.join(' and ')}`,
        out,
      ),
    now: (at: string) => `${at}, now`,
    notBefore: 'Nobody had been reached when it was taken.',
    nobody: 'Nobody is set to be told. Open pages show it, and sound where they are set to.',
    more: 'now; the rest as long as nobody takes it',
  },
  evidence: 'Evidence',
  /** With its seconds, and with its day where that is not today. */
  exactly: (at: number, now: number, zone: string) => {
    const clock = clockSeconds(at, zone, locale);
    return day(at, zone, locale) === day(now, zone, locale) ? clock : `${day(at, zone, locale)} ${clock}`;
  },
  stopRow: (at: string, name: string | undefined, ms: number | undefined) =>
    `${at} ${name ?? 'nobody knows why'}, ${ms === undefined ? 'not over' : lasted(ms)}`,
  moreStops: (n: number) => `${count(n)} earlier ones.`,
  toStation: 'The station',
  toStops: 'Its stops',
  toSafety: 'Safety stops',
  toSignals: 'Signals',
  toChangeovers: 'Changeovers',
  lookFirst: 'Look first',
  noLook: 'Nothing reads out of the ordinary there now.',
  close: {
    found: 'What was found?',
    done: 'And what was done?',
    words: 'In words, if you like',
    button: 'Close it',
    buttonLater: 'Keep it',
    needs:
      'It is closed once somebody has taken it and both are said; or it ends by itself when it is back to normal.',
    falsely: '“Nothing” marks it as false; it counts against the rules that raised it.',
    later: 'It has ended by itself. What was found can still be said.',
    ranOn:
      'Something read open or pressed while the line ran: it is closed with its finding, by a person with a number.',
    press: 'Nobody has to say why it was pressed. It ends when the line has started again.',
    sent: 'What you said is on its way.',
    said: (found: string, done: string) => `Found: ${found}. Done: ${done}.`,
    /** What is chosen so far. */
    chosen: (found: string | undefined, done: string | undefined) =>
      [found && `Found: ${found}.`, done && `Done: ${done}.`].filter(Boolean).join(' '),
    saidBy: (by: string, at: string) => `Said by ${by}, ${at}.`,
    nothing: 'It counts as false.',
    before: (found: string, done: string, typed: string | undefined) =>
      `Before: found: ${found}; done: ${done}${typed === undefined ? '.' : `; ${typed}.`}`,
    corrected: (by: string, at: string, why: string | undefined) =>
      `Said otherwise by ${by}, ${at}${why === undefined ? '.' : `, because: ${why}`}`,
    takenBack: (by: string, at: string, why: string | undefined) =>
      `Taken back by ${by}, ${at}${why === undefined ? '.' : `, because: ${why}`}`,
    correct: 'Correct what was said',
    second:
      'Somebody had said it before you. What you chose and typed is here: enter it as a correction, or leave what stands.',
    why: 'Why it is corrected',
    keepCorrection: 'Enter the correction',
    withdraw: 'Take it back',
    withdrawMeans:
      'Both stay, what was said and what is said now. Taken back, the notice is open again where what it is about holds still.',
  },
  hand: {
    title: 'Hand it over',
    to: 'to number',
    button: 'Hand over',
    nobody: 'Nobody is set to be told of notices, so nobody can be handed one.',
  },
  shelve: {
    title: 'Put it on the shelf',
    why: 'Why, in a few words',
    button: 'Shelve it',
    until: 'until',
    choices: {
      twoHours: 'in two hours',
      shiftEnd: 'the end of this shift',
      tomorrow: 'tomorrow 06:00',
      week: 'in a week',
      chosen: 'a moment of your own',
    },
    moment: 'which moment, by the clock of the line',
    past: 'That moment is over.',
    far: 'A shelf holds a week at most.',
    back: 'Take it off the shelf',
    said: (until: string, words: string, by: string) =>
      `Shelved until ${until} by ${by}: ${words}. It comes back by itself.`,
  },
  story: {
    title: 'What became of it',
    row: (what: NoticeStory['what'], by: string | undefined, detail: string | null) => {
      const said = STORY[what];
      const to = what === 'handed' && detail !== null ? ` to number ${detail}` : '';
      return by === undefined ? `${said}${to}` : `${said}${to} by ${by}`;
    },
  },
} as const;
