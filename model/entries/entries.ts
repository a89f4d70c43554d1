import type { NoticeEntryBody, NoticeProgramBody } from '../notices/noticeEntries.ts';
import type { SignedAs } from '../report/report.ts';
import type { EpochMs } from '../units/units.ts';
import type { SaidEntryBody } from './saidEntries.ts';
import type { SheetEntryBody } from './sheetEntries.ts';

/** Who made an entry: a loading position without log-in, a screen, a person by number, a file, or Scoreline itself. */
export type Author =
  | { readonly kind: 'position'; readonly position: string }
  | { readonly kind: 'screen'; readonly screen: string }
  | { readonly kind: 'person'; readonly number: string }
  | { readonly kind: 'file'; readonly file: string }
  | { readonly kind: 'itself' };

/** What people put on the tape. `id` is made where the entry is made, so that sending it twice records it once. */
export type Entry = EntryHead & EntryBody;

export interface EntryHead {
  readonly id: string;
  /** When it was made, by the gateway's clock; of one that a screen kept, so long before it came as the screen says. */
  readonly at: EpochMs;
  readonly author: Author;
}

export type EntryBody =
  | NoticeEntryBody
  | SaidEntryBody
  | SheetEntryBody
  /** Why a stop happened. `stop` is the stop's id; `reason` an answer's id, or `other` with words. */
  | { readonly kind: 'reason'; readonly stop: string; readonly reason: string; readonly words?: string }
  /** Nobody knows now: ask again at the next pause. */
  | { readonly kind: 'notNow'; readonly stop: string }
  /** What runs now, or follows; `crew` people load it from its first carton on. */
  | {
      readonly kind: 'order';
      readonly number: string;
      readonly size: string;
      readonly blend: string;
      readonly quantity: number;
      readonly starts: 'now' | 'whenEnded';
      readonly crew?: number;
    }
  /** An order known from a list: written by the gateway when it reads a new or changed row, so that it is on the tape. */
  | {
      readonly kind: 'orderListed';
      readonly number: string;
      readonly size: string;
      readonly blend: string;
      readonly quantity: number;
      readonly due?: string;
    }
  | { readonly kind: 'crew'; readonly people: number }
  /** Cartons handed over at an order's end, as counted by people. */
  | { readonly kind: 'handedOver'; readonly order: string; readonly cartons: number }
  /** [BA4] Cartons that hands took out of the pockets, or brought back into them: no counter tells of them. */
  | { readonly kind: 'takenOut'; readonly cartons: number; readonly why: TakenWhy }
  /**
   * [RP21] `about`: the moment of the line that it is about, where that is not when it was entered. With one its words may be
   * none: a bookmark.
   */
  | { readonly kind: 'note'; readonly words: string; readonly stop?: string; readonly about?: EpochMs }
  /** Which button of a circuit it was. */
  | { readonly kind: 'device'; readonly press: string; readonly candidate: string }
  /** [PS5] A person has looked into a finding; who closed it is the author. `finding` is its id. */
  | { readonly kind: 'closed'; readonly finding: string; readonly words?: string }
  /** A stop device or guard was tested: which, how, and the number of the person who did; no name. */
  | {
      readonly kind: 'tested';
      /** Id of the stop device or guard. */
      readonly device: string;
      readonly method: string;
      readonly person: string;
    }
  /**
   * [RE4] A person signed a report: the page as it was then, as JSON, with the model's version and the tape's position that
   * it was made at. A later signature under the same page bears the id of the first, and no page.
   */
  | {
      readonly kind: 'signed';
      /** Which report, as `reportKey` names it. */
      readonly of: string;
      readonly person: string;
      readonly as: SignedAs;
      readonly words?: string;
      readonly first?: string;
      readonly page?: string;
    }
  /** Someone says they are on their way to the open stop. */
  | { readonly kind: 'going'; readonly stop: string };

/** What for: samples; emptied by hand, as where a pocket was cleared; or closed by hand and put back to join later. */
export type TakenWhy = (typeof TAKEN_WHYS)[number];
export const TAKEN_WHYS = ['sample', 'byHand', 'broughtBack'] as const;

export type EntryKind = EntryBody['kind'];
/** What a person can enter: the rest the gateway writes itself. */
export type PersonEntryKind = Exclude<EntryKind, 'orderListed' | NoticeProgramBody['kind']>;
export type PersonEntryBody = Extract<EntryBody, { readonly kind: PersonEntryKind }>;

/**
 * What an entry may hold at most, however it is made: by a screen, a program, or a row of the list of orders. Lengths are
 * in characters. An order of a list can so be chosen and handed over.
 */
export const ENTRY_MOST = {
  orderNumber: 100,
  blend: 100,
  cartons: 999_999_999,
  takenOut: 9_999,
  words: 500,
  person: 20,
  method: 100,
  people: 50,
  setting: 40,
  perMinute: 999,
  causeParts: 5,
  /** A number of a scale, either way; numbers that one tap confirms. */
  onScale: 1e6,
  adjustments: 100,
} as const;
