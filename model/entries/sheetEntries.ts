import type { Symptom } from '../diagnosis/symptoms.ts';
import type { ChangeoverKind } from '../fold/state.ts';

/** One number of a station, as it stands on its scale. */
export interface SetTo {
  readonly adjustment: string;
  readonly value: number;
}

/** How a number came onto the tape: read and typed, or read back later without having looked at what was typed. */
export const READ_HOW = ['typed', 'readBack'] as const;
export type ReadHow = (typeof READ_HOW)[number];

/** Why the scale of an adjustment means another thing from now on. */
export const DATUM_WHYS = ['reZeroed', 'replaced'] as const;
export type DatumWhy = (typeof DATUM_WHYS)[number];

export const FITTED = ['lot', 'parts'] as const;
export type Fitted = (typeof FITTED)[number];

/** What people say of set points, and of the steps of a changeover. */
export type SheetEntryBody =
  /** [SP1] A number was read from its scale. `sheet`: in which setter's sheet, where it was in one. */
  | {
      readonly kind: 'reading';
      readonly station: string;
      readonly adjustment: string;
      /** Where it stands from now on. */
      readonly value: number;
      readonly how: ReadHow;
      /** [SP10] What its scale read when it was looked at: the same where it stays there, another where it was moved from there. */
      readonly found?: number;
      readonly sheet?: string;
    }
  /** [SP2] One tap for a station: all of its numbers stand as in the book, which said this then. */
  | {
      readonly kind: 'asBook';
      readonly station: string;
      readonly settings: readonly SetTo[];
      readonly sheet?: string;
    }
  /** [SP3] The scale was set to zero anew, or a part replaced: what its numbers meant before says nothing from now on. */
  | {
      readonly kind: 'datum';
      readonly station: string;
      readonly adjustment: string;
      readonly why: DatumWhy;
      readonly words?: string;
    }
  /** [SP3] So much has to be added to a number of the datum before, to have the same place under this one. */
  | {
      readonly kind: 'datumOffset';
      readonly adjustment: string;
      readonly datum: number;
      readonly offset: number;
      readonly why: string;
    }
  /** [BK1] A person has approved a number for a size; null takes back what was approved, and the line's file holds. */
  | {
      readonly kind: 'book';
      readonly size: string;
      readonly adjustment: string;
      readonly value: number | null;
      readonly why: string;
      /** What it was approved on, as the screen showed it: in words. */
      readonly seen?: string;
    }
  /**
   * [SP4] The lot of board, or the change parts, that run from now on. `step`: which of the parts that the line's file asks for,
   * and the step that is done with it; without one the whole set of them.
   */
  | {
      readonly kind: 'fitted';
      readonly what: Fitted;
      readonly name: string;
      readonly step?: string;
      readonly sheet?: string;
    }
  /** [DG8] How the cartons look that a station spoils now. */
  | { readonly kind: 'looked'; readonly station: string; readonly symptom: Symptom }
  /** [SH2] A person begins a sheet before the PLC tells of the changeover, or where it never does. */
  | { readonly kind: 'sheetBegun'; readonly size: string; readonly in: ChangeoverKind }
  /** [SH3] A part was changed, or something checked: well, or not. */
  | {
      readonly kind: 'stepDone';
      /** Missing: the one that is open then. */
      readonly sheet?: string;
      readonly step: string;
      readonly well: boolean;
      readonly words?: string;
    }
  /** [SH3] A person, by number, has approved a step; or has not. */
  | {
      readonly kind: 'stepApproved';
      readonly sheet?: string;
      readonly step: string;
      readonly well: boolean;
      readonly words?: string;
    }
  /** [SH5] Left to whoever comes next. */
  | { readonly kind: 'sheetHanded'; readonly sheet: string; readonly words?: string }
  /** [SH4] Closed by a person, perhaps with steps left open. */
  | { readonly kind: 'sheetEnded'; readonly sheet: string; readonly why: string };

export type SheetEntryKind = SheetEntryBody['kind'];

/**
 * [SH6] What a screen may keep while there is no network, and send later: it stands on the tape at the moment it was made, however
 * late it comes. The rest is about what goes on, and too late is too late.
 */
export const KEPT_KINDS = [
  'reading',
  'asBook',
  'datum',
  'fitted',
  'looked',
  'sheetBegun',
  'stepDone',
  'stepApproved',
  'sheetHanded',
] as const satisfies readonly SheetEntryKind[];

/** How far back an entry may stand that was kept: two days. */
export const KEPT_MOST_MS = 172_800_000;
