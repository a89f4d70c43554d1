import type { NoticeLevel } from '../../../model/notices/recipients.ts';
import { wordsIn } from '../../../model/words/words.ts';

const words = wordsIn('en').ways;

/** What a person is told. It holds numbers and what happened, no name and no address. */
export interface Message {
  readonly notice: string;
  readonly line: string;
  readonly lineName: string;
  readonly station?: string;
  readonly stationName?: string;
  readonly level: NoticeLevel;
  /** When it was raised, milliseconds since 1970. */
  readonly at: number;
  readonly zone: string;
  /** One sentence of the catalogue. */
  readonly what: string;
  /** All of it as a mail says it: evidence, what to look at first, the link, the caution. */
  readonly text: string;
  /** The page of the notice. */
  readonly link: string;
  /** Where the moment is replayed; missing for what is about no moment. */
  readonly replay?: string;
  /** Which round of telling it belongs to: a notice that comes back is told again. */
  readonly round: number;
  /** Step of the plan, from 0 on. */
  readonly step: number;
  /** Sent to see whether it arrives: it is about nothing. */
  readonly trial?: true;
}

/** A message to one person by one way. */
export interface Parcel {
  /** The same for each try: a receiver that honours it takes the message once. */
  readonly id: string;
  /** The person's number. */
  readonly person: string;
  readonly way: string;
  /** When it was first given to the outbox, milliseconds since 1970. */
  readonly offeredAt: number;
  readonly message: Message;
}

/** How something leaves the gateway. It neither remembers nor tries again: the outbox does. */
export interface Way {
  readonly id: string;
  /** Ends as soon as it can once the signal says so. What went wrong is an outcome and not a throw. */
  send(parcel: Parcel, signal: AbortSignal): Promise<Outcome>;
}

export type Outcome = { readonly kind: 'told' } | Failed;

export interface Failed {
  readonly kind: 'failed';
  readonly why: WayWhy;
  /** The same message would fail again: it is not tried again. */
  readonly lasting: boolean;
  /** The receiver asks not to be tried before. Milliseconds from now. */
  readonly waitMs?: number;
}

export type WayTrouble = keyof typeof words.trouble;
export const WAY_TROUBLES = Object.keys(words.trouble) as [WayTrouble, ...WayTrouble[]];

/** Why something did not arrive; `code` is a number or name that the other side or the system gave, never its text. */
export interface WayWhy {
  readonly trouble: WayTrouble;
  readonly code?: string;
}

/** The receiver itself is not reached or takes nothing: once it takes one, it may take all. */
export const AWAY: readonly WayTrouble[] = [
  'notReached',
  'hung',
  'certificate',
  'notEncrypted',
  'logIn',
  'elsewhere',
  'secret',
  'wayWrong',
];

/** Nobody knows what came of such a try: the message may have arrived. */
export const PERHAPS: readonly WayTrouble[] = ['hung', 'closed', 'notUnderstood', 'brokenOff', 'mistake'];

/** In a whole sentence. */
export function whyInWords({ trouble, code }: WayWhy): string {
  return words.trouble[trouble](code);
}

export function failed(
  trouble: WayTrouble,
  { code, lasting = false }: { code?: string; lasting?: boolean } = {},
): Failed {
  return { kind: 'failed', why: { trouble, ...(code === undefined ? {} : { code }) }, lasting };
}
