import type { Entry } from '../../model/entries/entries.ts';
import { OLDER_FINDINGS } from '../../model/fold/findings.ts';
import type { FoldState } from '../../model/fold/state.ts';
import type { Line } from '../../model/line/line.ts';
import type { ShutOff } from '../../model/notices/shutOff.ts';
import { type EpochMs, epochMs, type Instant } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import { checkNotice, checkSettings } from '../notices/noticeChecks.ts';
import { EntryRefused } from './entrySchema.ts';
import { checkSaid } from './saidChecks.ts';
import { checkSheet } from './sheetChecks.ts';

const words = wordsIn('en').gateway.noSuch;

/** What is known beside the tape when an entry is made. */
export interface EntryTime {
  /** A screen kept it before it could send it. */
  readonly kept: boolean;
  /** Line time now. */
  readonly now: Instant;
  /** From when on anything is recorded of the line; undefined while that is not known. */
  readonly begun?: Instant | undefined;
  /** Whose access has ended. */
  readonly shutOff?: ShutOff | undefined;
}

/** Any other reason than those of the line's file, told in words. */
const OTHER = 'other';

/**
 * Refuses an entry that names what this line has not, or what is held no more. What is on the tape already stays there. `kept`:
 * it was made a while ago on a screen without network, so what it is about may be over.
 */
export function checkEntry(
  entry: Entry,
  line: Line,
  state: Readonly<FoldState>,
  time: EntryTime = { kept: false, now: state.at },
): void {
  const { author } = entry;
  if (author.kind === 'position' && !line.loading.positions.some(({ id }) => id === author.position))
    refuse(words.position(author.position));
  checkBody(entry, line, state, time);
}

function checkBody(
  entry: Entry,
  line: Line,
  state: Readonly<FoldState>,
  time: EntryTime = { kept: false, now: state.at },
): void {
  const { kept, now, shutOff } = time;
  switch (entry.kind) {
    case 'reason':
      checkStop(entry.stop, state);
      if (entry.reason !== OTHER && !answersOf(line).has(entry.reason)) refuse(words.answer(entry.reason));
      return;
    case 'notNow':
    case 'going':
      return checkStop(entry.stop, state);
    case 'note':
      if (entry.stop !== undefined) checkStop(entry.stop, state);
      return entry.about === undefined ? undefined : checkAbout(entry.about, line, time);
    case 'order':
    case 'orderListed':
      return line.sizes.some(({ id }) => id === entry.size) ? undefined : refuse(words.size(entry.size));
    case 'handedOver':
      return state.orders.some(({ number }) => number === entry.order)
        ? undefined
        : refuse(words.order(entry.order));
    case 'device':
      return checkButton(entry, line, state);
    case 'closed':
      return checkFinding(entry.finding, state);
    case 'tested':
      return [...line.devices, ...line.guards].some(({ id }) => id === entry.device)
        ? undefined
        : refuse(words.device(entry.device));
    // made by the gateway itself, of a page that it worked out
    case 'signed':
    case 'crew':
    case 'takenOut':
    case 'noticeRaised':
    case 'noticeMoved':
    case 'noticeStep':
    case 'noticeTold':
      return undefined;
    case 'cause':
    case 'changed':
    case 'target':
    case 'correction':
      return checkSaid(entry, line, state, (body) => checkBody(body, line, state, time));
    case 'reading':
    case 'asBook':
    case 'datum':
    case 'datumOffset':
    case 'book':
    case 'fitted':
    case 'looked':
    case 'sheetBegun':
    case 'stepDone':
    case 'stepApproved':
    case 'sheetHanded':
    case 'sheetEnded':
      return checkSheet(entry, line, state, kept);
    case 'noticeTaken':
    case 'noticeHanded':
    case 'noticeShelved':
    case 'noticeUnshelved':
    case 'noticeClosed':
      return checkNotice(entry, line, state, { now, shutOff });
    case 'noticeSettings':
      return checkSettings(entry.settings, line);
  }
}

function checkStop(stop: string, { stops }: Readonly<FoldState>): void {
  if (!stops.some(({ id }) => id === stop)) refuse(words.stop(stop));
}

/** [RP21] A note is about a moment that is recorded. */
function checkAbout(about: EpochMs, { zone }: Line, { now, begun }: EntryTime): void {
  const { when } = wordsIn('en').screen.past;
  if (about > epochMs(now)) refuse(words.noteAhead(when(about, zone)));
  if (begun !== undefined && about < epochMs(begun))
    refuse(words.noteBefore(when(about, zone), when(epochMs(begun), zone)));
}

/** Every answer of the line: which station a stop belongs to may be known only after it was answered. */
function answersOf({ answers, stations }: Line): ReadonlySet<string> {
  return new Set([...answers, ...stations.flatMap((station) => station.answers)].map(({ id }) => id));
}

function checkButton(entry: Entry & { kind: 'device' }, line: Line, { presses }: Readonly<FoldState>): void {
  const press = presses.find(({ id }) => id === entry.press);
  if (!press) return refuse(words.press(entry.press));
  const candidates = line.devices[press.device]?.candidates ?? [];
  if (!candidates.includes(entry.candidate)) refuse(words.candidate(entry.candidate));
}

function checkFinding(finding: string, { open, openDropped, watched }: Readonly<FoldState>): void {
  if (finding === OLDER_FINDINGS ? openDropped > 0 : open.some(({ id }) => id === finding)) return;
  const lasts = watched.some(({ from }) => from !== null && finding.endsWith(`-${from.toString(36)}`));
  refuse(lasts ? words.findingLasts : words.finding(finding));
}

function refuse(told: { readonly what: string; readonly why: string; readonly mend: string }): never {
  throw new EntryRefused(told.what, told);
}
