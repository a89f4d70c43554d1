import type { Author } from '../entries/entries.ts';
import { type EpochMs, epochMs, type Instant, type Millis } from '../units/units.ts';
import type { Done, Found } from './answers.ts';
import type { NoticeLevel } from './recipients.ts';

/** What a notice can be about. What begins with `station` says the same of each station; the rest is of the whole line, a device or a server. */
export const NOTICE_KINDS = [
  'stops',
  'stopsCounted',
  'rejects',
  'loose',
  'rate',
  'changeover',
  'lost',
  'press',
  'ranOn',
  'test',
  'unseen',
  'server',
  'disk',
  'clock',
  'many',
] as const;
export type NoticeKind = (typeof NOTICE_KINDS)[number];

/** Numbers behind a notice as they were when it was raised, from which its sentences are made. Lengths of time in milliseconds. */
export type NoticeFacts =
  /** Stops at a station beyond its own normal: first tries, with the re-jams that followed them. */
  | {
      readonly kind: 'stops';
      readonly stops: number;
      /** Cartons of the line in which they came. */
      readonly cartons: number;
      readonly from: EpochMs;
      /** Cartons to one stop that are usual with this size. */
      readonly usualCartons: number;
      /** A false one as strong as this comes about once in so many shifts of the line. */
      readonly onceInShifts: number;
      /** Tries of the newest one, where it is the tries that are unusual. */
      readonly tries?: number | undefined;
      /** Most frequent first fault among them. */
      readonly fault?: string | undefined;
    }
  /** The plain rule: so many stops within minutes of running, or cartons. */
  | {
      readonly kind: 'stopsCounted';
      readonly stops: number;
      readonly minutes?: number | undefined;
      readonly cartons?: number | undefined;
      readonly from: EpochMs;
      readonly fault?: string | undefined;
    }
  /** Rejects of a station outside its own normal: since the changeover, or rising in the run. */
  | {
      readonly kind: 'rejects';
      readonly rule: 'run' | 'drift';
      readonly rejects: number;
      readonly of: number;
      readonly expected: number;
      readonly onceInShifts: number;
    }
  /** An adjustment that its sensor sees go away from where hands left it, while the line runs. */
  | {
      readonly kind: 'loose';
      readonly adjustment: string;
      readonly name: string;
      readonly unit: string;
      readonly decimals: number;
      readonly left: number;
      readonly reads: number;
      readonly book?: number | undefined;
      readonly since: EpochMs;
    }
  | {
      readonly kind: 'rate';
      readonly perMinute: number;
      readonly target: number;
      readonly minutes: number;
      readonly since: EpochMs;
      /** The station, by id, that has lost most of this shift; none where most belong to no one station. */
      readonly most?: string | undefined;
    }
  | {
      readonly kind: 'changeover';
      readonly lasted: Millis;
      /** Within this it was to be over. */
      readonly allowed: Millis;
      /** Whether earlier ones of its kind say so, or a setting. */
      readonly by: 'earlier' | 'setting';
      readonly from?: string | undefined;
      readonly to?: string | undefined;
    }
  | {
      readonly kind: 'lost';
      readonly lost: number;
      readonly planned: number;
      /** The station, by id, that lost most of them; none where most belong to no one station. */
      readonly most?: string | undefined;
      readonly mostLost: number;
    }
  | {
      readonly kind: 'press';
      readonly press: string;
      readonly device: string;
      readonly role: 'caused' | 'during' | 'uncertain';
      /** Of a circuit in series: one of these. */
      readonly candidates: readonly string[];
    }
  | {
      readonly kind: 'ranOn';
      readonly finding: string;
      readonly of: 'guard' | 'device';
      readonly name: string;
    }
  /** All stop devices and guards of the line that are due a test: `dueDevices` reads them. */
  | {
      readonly kind: 'test';
      readonly devices?: readonly DueDevice[] | undefined;
      readonly everyDays: number;
      /** One device, as an earlier version recorded it. */
      readonly device?: string | undefined;
      readonly name?: string | undefined;
      readonly last?: EpochMs | undefined;
    }
  | { readonly kind: 'unseen'; readonly since: EpochMs }
  | { readonly kind: 'server'; readonly server: string; readonly since: EpochMs }
  | { readonly kind: 'disk'; readonly freeBytes: number; readonly leastBytes: number }
  | { readonly kind: 'clock'; readonly server: string; readonly offset: Millis; readonly most: Millis }
  /** Many at once, told as one. */
  | { readonly kind: 'many'; readonly count: number; readonly within: Millis };

/** A stop device or guard that is due a test. */
export interface DueDevice {
  readonly device: string;
  readonly name: string;
  /** When a person recorded the last one; none where none is recorded. */
  readonly last?: EpochMs | undefined;
}

/** What is due a test by a notice; what an earlier version recorded names one device. */
export function dueDevices(facts: Extract<NoticeFacts, { kind: 'test' }>): readonly DueDevice[] {
  const { devices, device = '', name = device, last } = facts;
  return devices ?? [{ device, name, last }];
}

/** What to look at first: what is known of the moment, never a cause. */
export type LookFirst =
  /** An adjustment that reads otherwise than the book says for this size. */
  | {
      readonly kind: 'offBook';
      readonly adjustment: string;
      readonly name: string;
      readonly reads: number;
      readonly book: number;
      readonly unit: string;
      readonly decimals: number;
      /** When it was last moved, where that was seen. */
      readonly moved?: EpochMs | undefined;
    }
  /** An adjustment that no sensor reads: what was entered last may be no more so. */
  | {
      readonly kind: 'readScale';
      readonly adjustment: string;
      readonly name: string;
      readonly entered?: number | undefined;
      readonly at?: EpochMs | undefined;
      readonly unit: string;
      readonly decimals: number;
    }
  /** A condition value outside its normal range. */
  | {
      readonly kind: 'condition';
      readonly name: string;
      readonly reads: number;
      readonly low: number;
      readonly high: number;
      readonly unit: string;
    }
  /** The first fault that came most often among these stops. */
  | { readonly kind: 'fault'; readonly name: string; readonly times: number; readonly of: number };

/**
 * Where a notice stands, in the words of ISA-18.2: raised and not acknowledged, acknowledged, back to normal and never
 * acknowledged, shelved until a moment, ended.
 */
export type NoticeState = 'raised' | 'taken' | 'returned' | 'shelved' | 'ended';

/** One notice as the fold keeps it; the entries that made it stand on the tape. */
export interface NoticeRecord {
  readonly id: string;
  /** What it is about, as `noticeKey` writes it: there is one open notice for each at most. */
  readonly key: string;
  readonly kind: NoticeKind;
  level: NoticeLevel;
  /** When it was raised, in line time. */
  at: Instant;
  /** What it says has been so since then. */
  since: Instant;
  /** The newest facts; `first` are those it was raised with, where they differ. */
  facts: NoticeFacts;
  station: string | null;
  /** Size that ran, by id. */
  size: string | null;
  /** The stop that was open, or the newest one: what comes of the same first fault is one notice. */
  stop: string | null;
  look: readonly LookFirst[];
  /** Notices that joined this one, oldest first, and how many more than are kept. */
  joined: NoticeJoined[];
  joinedMore: number;
  taken: { readonly at: Instant; readonly by: Author } | null;
  /** Since when whoever has it has it: taken, taken over, or handed over. */
  hasAt: Instant | null;
  /** To whom it was handed over, by number; null while whoever took it has it. */
  owner: string | null;
  /** Who handed it over last, by whom it was had before, since whoever has it has it; null while nobody did. */
  handed: { readonly at: Instant; readonly by: Author; readonly from: string | null } | null;
  normalAt: Instant | null;
  shelved: {
    readonly at: Instant;
    readonly until: Instant;
    readonly by: Author;
    readonly words: string;
  } | null;
  /** Which round of telling it is: one more each time it comes back. */
  round: number;
  told: NoticeTold[];
  /** Highest step of the plan that was reached. */
  step: number;
  ended: NoticeEnd | null;
  /** What became of it, oldest first. */
  story: NoticeStory[];
}

/** What joined it, with its own numbers as they were then. */
export interface NoticeJoined {
  readonly at: Instant;
  readonly kind: NoticeKind;
  readonly station: string | null;
  /** Missing in what was recorded by an earlier version. */
  readonly key?: string;
  readonly facts?: NoticeFacts;
}

export interface NoticeTold {
  readonly at: Instant;
  readonly person: string;
  readonly way: string;
  readonly round: number;
  readonly step: number;
  readonly failed: boolean;
  /** What came between, where something did. */
  readonly why?: ToldWhy;
}

/**
 * accessEnded: the person's access has ended, and nothing was sent. withdrawn: it was taken back before it went out. perhaps:
 * it was taken back after a try of which nobody knows whether it arrived.
 */
export const TOLD_WHYS = ['accessEnded', 'withdrawn', 'perhaps'] as const;
export type ToldWhy = (typeof TOLD_WHYS)[number];

export interface NoticeEnd {
  readonly at: Instant;
  /** closed: by a person. normal: taken, and back to normal. never: back to normal for long, and nobody took it. */
  readonly how: 'closed' | 'normal' | 'never';
  readonly by: Author | null;
  /** What a person said, then or later, as it counts now; null where nobody did, or it was withdrawn. */
  readonly said: NoticeSaid | null;
  /** What was said before and counts no more, oldest first: nothing of it is erased. */
  readonly corrections: readonly NoticeCorrection[];
}

export interface NoticeAnswer {
  readonly found: Found;
  readonly done: Done;
  readonly words: string | null;
}

export interface NoticeSaid extends NoticeAnswer {
  /** When it was first said, whatever was corrected since. */
  readonly at: Instant;
  /** Whose word it is now. */
  readonly by: Author;
  /** Id of the entry that said it, by which it is corrected. */
  readonly entry: string;
}

/** [NL10] One correction: who made it, when and why, and what had been said before, by whom. */
export interface NoticeCorrection {
  readonly at: Instant;
  readonly by: Author;
  readonly why: string | null;
  readonly before: NoticeSaid;
}

export interface NoticeStory {
  readonly at: Instant;
  readonly what:
    | 'raised'
    | 'joined'
    | 'taken'
    | 'takenOver'
    | 'handed'
    | 'shelved'
    | 'unshelved'
    | 'escalated'
    | 'normal'
    | 'again'
    | 'closed'
    | 'corrected'
    | 'withdrawn'
    | 'reopened'
    | 'ended';
  readonly by: Author | null;
  /** Person it was handed to, or step that was reached. */
  readonly detail: string | null;
}

/** Where a notice stands; a shelf ends when an entry says so, and not by the clock, so that whoever is to be told is told. */
export function noticeState({ ended, shelved, taken, normalAt }: Readonly<NoticeRecord>): NoticeState {
  if (ended) return 'ended';
  if (shelved) return 'shelved';
  if (normalAt !== null) return 'returned';
  return taken ? 'taken' : 'raised';
}

/** Whether somebody takes it over from whoever has it, and not from somebody before: then another one was quicker. */
export function isTakenOver({ hasAt }: Readonly<NoticeRecord>, over: EpochMs | undefined): boolean {
  return hasAt !== null && epochMs(hasAt) === over;
}

/** What only a person ends, whatever the line reads afterwards. */
export function needsPerson(kind: NoticeKind): boolean {
  return kind === 'ranOn';
}

/** [NL2] Somebody else handed it to this person, who has it since; whoever takes it for themselves knows of it. */
export function isHandedTo({ handed, owner }: Readonly<NoticeRecord>, person: string): boolean {
  return owner === person && handed !== null && !(handed.by.kind === 'person' && handed.by.number === person);
}
