import type { PastChangeover } from '../past/changeover.ts';
import type { ChangedNumber, ChangeoverNumbers } from '../past/changeoverNumbers.ts';
import type { LostParts, OpenedChangeover } from '../past/changeoverOpened.ts';
import type { StripSlot } from '../past/changeoverStrip.ts';
import type { ChangeoversPast, ListedChangeover } from '../past/changeoversPast.ts';
import { day } from './clock.ts';
import { decimal } from './format.ts';
import { at, capital, count, exactly, lasted, listed, locale, many, past } from './english-say.ts';

const cartons = (n: number) => `${count(n)} ${many(n, 'carton', 'cartons')}`;
const when = (moment: number, zone: string) => `${day(moment, zone, locale)} ${at(moment, zone)}`;
const KINDS = { size: 'size', artwork: 'artwork or blend', startUp: 'start-up' } as const;

/** From what to what. */
function pairOf({ kind, from, to }: Pick<PastChangeover, 'kind' | 'from' | 'to'>): string {
  if (kind === 'size' && from !== undefined) return `${from} to ${to ?? 'a size not known'}`;
  return `${to ?? 'size not known'}, ${KINDS[kind]}`;
}

/** How a length compares with the usual one, to the minute. */
function against(ms: number, usual: number | undefined): string {
  if (usual === undefined) return '';
  return Math.abs(ms - usual) < 60_000 ? ', as usual' : `, usually ${past(usual)}`;
}

function ended({ changeover, usual, earlier }: OpenedChangeover): string {
  const { ends, lasted: ms } = changeover;
  if (ends === 'goesOn') return `It goes on, for ${past(ms)} so far.`;
  if (ends === 'replaced') return `It was never at rate: the next one began after ${past(ms)}.`;
  if (usual === undefined) return `At rate after ${past(ms)}.`;
  return `At rate after ${past(ms)}; the middle one of ${count(earlier)} earlier ones took ${past(usual.lasted)}.`;
}

function spent({ changeover, usual }: OpenedChangeover): string {
  const { stood, runUp, stops, trialCartons, idle } = changeover;
  const usualStood = usual && usual.untilTrial + (usual.trial ?? 0);
  const tries =
    trialCartons > 0 ? `, with ${count(trialCartons)} trial ${many(trialCartons, 'carton', 'cartons')}` : '';
  const withStops = stops > 0 ? `, with ${count(stops)} ${many(stops, 'stop', 'stops')}` : '';
  return [
    `The line stood for ${past(stood)}${against(stood, usualStood)}${tries}.`,
    runUp === undefined ? '' : `The run-up took ${past(runUp)}${against(runUp, usual?.runUp)}${withStops}.`,
    idle >= 60_000
      ? `${capital(past(idle))} of planned pause or time outside shifts are in none of these.`
      : '',
  ]
    .filter((part) => part !== '')
    .join(' ');
}

const PARTS: { readonly [part in Exclude<keyof LostParts, 'all'>]: string } = {
  stood: 'the line stood',
  stops: 'stops in the run-up',
  spoiled: 'rejected, not loaded or crushed in the run-up',
  slow: 'slower than the target',
};

type Scale = Pick<ChangedNumber, 'unit' | 'decimals'>;
const onScale = (n: number, { unit, decimals }: Scale) =>
  `${decimal(n, decimals, locale)}${unit === 'deg' ? '°' : ''}`;
const numbersOf = (n: number) => `${count(n)} ${many(n, 'number', 'numbers')}`;

/** What was done to the numbered adjustments. */
const changed = {
  title: 'What was changed',
  lead: ({ told, toBook, movedAgain }: ChangeoverNumbers) =>
    [
      told.length === 0
        ? toBook.length === 0
          ? 'No number is known to have moved.'
          : 'Every number that is known to have moved went to the book in one move.'
        : 'These did not go to the book in one move, or were left off it.',
      movedAgain === 0 ? '' : `${capital(numbersOf(movedAgain))} moved again after the first good carton.`,
    ]
      .filter((part) => part !== '')
      .join(' '),
  columns: {
    what: 'adjustment',
    was: 'before',
    book: 'book',
    stood: 'when it was over',
    off: 'off by',
    moved: 'moved, or said',
  },
  value: (value: number | undefined, one: Scale) => (value === undefined ? 'not known' : onScale(value, one)),
  off: ({ off = 0, decimals }: ChangedNumber) =>
    `${off > 0 ? '+' : '−'}${decimal(Math.abs(off), decimals, locale)}`,
  /** The newest few, with those after the first good carton marked in words. */
  moves: ({ moves, known, ...one }: ChangedNumber, zone: string) => {
    if (moves.length === 0) return 'not moved';
    const shown = moves
      .slice(-MOVES_SHOWN)
      .map(
        ({ at: moment, to, again }) => `${at(moment, zone)} to ${onScale(to, one)}${again ? ', again' : ''}`,
      );
    const more = moves.length - shown.length;
    const by = known === 'sensor' ? '' : known === 'confirmed' ? ' (as book)' : ' (entered)';
    return `${more > 0 ? `${count(more)} before; ` : ''}${shown.join('; ')}${by}`;
  },
  key: { moved: 'an adjustment moved, or said', again: 'moved again after the first good carton' },
  tab: (number: string, again: boolean) => `${number} moved${again ? ' again' : ''}`,
  again: (number: string) => `${number} again`,
  toBook: (n: number) => `Went to the book in one move: ${count(n)}`,
  rest: ({ same, unknown }: ChangeoverNumbers) =>
    [
      same.length === 0 ? '' : `Not moved: ${same.map(({ number }) => number).join(', ')}.`,
      unknown.length === 0
        ? ''
        : `Nobody said where ${unknown.map(({ number }) => number).join(', ')} stood, and no sensor reads ${many(unknown.length, 'it', 'them')}.`,
      'Moves are those that sensors told, and numbers that people entered.',
    ]
      .filter((part) => part !== '')
      .join(' '),
} as const;

/** Moves of one number that are told. */
const MOVES_SHOWN = 4;

/** Sentences of the Changeovers screen. */
export const changeoversWords = {
  changed,
  title: (opened: OpenedChangeover | undefined, zone: string) =>
    opened ? `Changeover, ${when(opened.changeover.at, zone)}, ${pairOf(opened.changeover)}` : 'Changeovers',
  /** The answer first, in bold; then what it is made of, and how long the last one is ago. */
  lead: ({ opened, since, goesOn, changeovers }: ChangeoversPast): readonly [string, string] => {
    const ago = goesOn
      ? 'One goes on now.'
      : since === undefined
        ? 'No changeover is known at all.'
        : `The last one was over ${past(since)} ago.`;
    if (!opened)
      return [
        changeovers === 0 ? 'No changeover in this time.' : 'There is no changeover that began then.',
        ago,
      ];
    const { lost, ends } = opened.changeover;
    const cost =
      lost === undefined
        ? 'What it cost is not known.'
        : `It cost ${cartons(lost)}${ends === 'goesOn' ? ' so far' : ''}.`;
    return [`${ended(opened)} ${cost}`, `${spent(opened)} ${ago}`];
  },
  /** What a drawing of it says in words. */
  drawnAs: (opened: OpenedChangeover) => `${ended(opened)} ${spent(opened)}`,
  kinds: KINDS,
  allKinds: 'all kinds',
  kind: 'Which kind',
  pair: 'Which pair of sizes',
  allPairs: 'all pairs',
  pairOf,

  strip: {
    title: 'From the stop to at rate',
    drawn: ({ from, to }: { readonly from: number; readonly to: number }, zone: string) =>
      `Good cartons per minute from ${at(from, zone)} to ${at(to, zone)}, with what stood cut out.`,
    began: (moment: number, zone: string) => [exactly(moment, zone), 'it stopped'] as const,
    trial: (moment: number, zone: string) => [exactly(moment, zone), 'trial began'] as const,
    firstGood: (moment: number, zone: string) => [exactly(moment, zone), 'first good'] as const,
    atRate: (moment: number, zone: string) => [exactly(moment, zone), 'at rate'] as const,
    target: (target: number) => `target ${count(target)}`,
    perMinute: 'good cartons a minute',
    pause: 'pause',
    unseen: 'not seen',
    slot: ({ name, station, kind }: StripSlot) =>
      `${name ?? (kind === 'pause' ? 'pause' : 'no reason')}${station === undefined ? '' : `, station ${station}`}`,
    columns: { at: 'from', rate: 'good cartons a minute' },
    stops: 'Stops in the drawing',
    stop: (slot: StripSlot, zone: string) => `${exactly(slot.from, zone)}, ${lasted(slot.to - slot.from)}`,
  },
  phases: {
    untilTrial: 'stood until the trial',
    stood: 'stood',
    trial: 'trial',
    runUp: 'run-up to at rate',
    runUpOpen: 'run-up',
  },
  usual: (ms: number | undefined) => (ms === undefined ? '' : `usual ${lasted(ms)}`),
  trialCartons: (n: number) => `${count(n)} trial ${many(n, 'carton', 'cartons')}`,
  lasted,

  curves: {
    title: (n: number) =>
      n === 0
        ? 'No earlier one of this kind and pair'
        : `Against ${count(n)} earlier ${many(n, 'one', 'ones')} of this kind and pair`,
    /** No more curves are drawn than a chart can carry. */
    foot: (drawn: number, of: number) =>
      `Good cartons since the line stopped for it.${drawn < of ? ` The newest ${count(drawn)} of them are drawn.` : ''} Circle or diamond: at rate. The shaded part is what this one lost.`,
    none: (target: number) => `no changeover, ${count(target)}`,
    this: (ms: number) => `this one, ${past(ms)}`,
    shortest: (ms: number, moment: number, zone: string) =>
      `shortest, ${past(ms)}, ${day(moment, zone, locale)}`,
    longest: (ms: number, moment: number, zone: string) =>
      `longest, ${past(ms)}, ${day(moment, zone, locale)}`,
    minutes: (ms: number, last: boolean) => `${count(ms / 60_000)}${last ? ' min' : ''}`,
    lost: (n: number) => `${count(n)} lost`,
    table: 'As a table',
    columns: { after: 'after', none: 'no changeover', own: 'this one' },
    tooFew: 'Too few earlier ones to say what is usual.',
  },
  parts: {
    title: (n: number) => `Where ${cartons(n)} went`,
    none: 'What it cost is not known',
    noneWhy: 'The records of it do not reach far enough, or its size has no target.',
    how: ({ target, crew, crewSaid, unseen }: PastChangeover) =>
      [
        `Against ${count(target)} a minute, the new size’s target for ${count(crew)} at loading${crewSaid ? '' : ', the usual crew, as nobody said another'}, from the stop until at rate.`,
        'Good cartons are kept by the minute and spread within it, so it may be a few cartons off; the shift’s own account counts the old size’s target until the PLC names the new one.',
        unseen > 0
          ? `${capital(past(unseen))} that nobody saw cost nothing here: what was lost in them is not known.`
          : '',
      ]
        .filter((part) => part !== '')
        .join(' '),
    name: (part: Exclude<keyof LostParts, 'all'>, n: number) =>
      part === 'slow' && n < 0 ? 'faster than the target' : PARTS[part],
    usual: (n: number | undefined) => (n === undefined ? '' : `usual ${count(n)}`),
    key: 'Dashed: the middle one of the earlier ones.',
    range: (earlier: number, shortest: number, longest: number) =>
      `${count(earlier)} earlier ones took ${past(shortest)} to ${past(longest)} to rate.`,
  },

  list: (n: number) => `${capital(count(n))} ${many(n, 'changeover', 'changeovers')} in this time`,
  columns: {
    began: 'began',
    pair: 'from, to',
    wedge: 'stood, then run-up',
    firstGood: 'first good',
    atRate: 'at rate',
    lost: 'lost',
    trial: 'trial cartons',
    offBook: 'at rate, off the book',
  },
  offBook: (said: ListedChangeover['offBook']) =>
    said === undefined
      ? 'not known'
      : said.off === 0
        ? `none of ${count(said.known)}`
        : `${count(said.off)} of ${count(said.known)}`,
  fromTo: (from: string, to: string) => `${from} to ${to}`,
  before: (blend: string) => `before: ${blend}`,
  open: (changeover: PastChangeover, zone: string) =>
    `Open the changeover of ${when(changeover.at, zone)}, ${pairOf(changeover)}`,
  ends: { replaced: 'never', goesOn: 'goes on' },
  drawn: ({ stood, runUp, ends }: PastChangeover) =>
    `stood ${past(stood)}${runUp === undefined ? '' : `, run-up ${past(runUp)}`}${ends === 'goesOn' ? ', goes on' : ''}`,
  minutes: (ms: number | undefined) => (ms === undefined ? '–' : past(ms)),
  cartons: (n: number | undefined) => (n === undefined ? 'not known' : count(n)),
  idle: (ms: number) => `${past(ms)} idle not counted`,
  unseen: (ms: number) => `${past(ms)} not seen`,
  shown: listed,
  showMore: 'Show more',
  foot: 'Time outside shifts and of planned pauses within their allowance is in no length. Trial cartons are counted nowhere else.',
} as const;
