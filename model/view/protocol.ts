import type { EntryHead, PersonEntryBody } from '../entries/entries.ts';
import type { Aside } from './sheetAside.ts';
import type { LineView } from './view.ts';

/**
 * What travels between gateway and dashboard over socket.io. A client joins a line and says the last number it
 * has; it gets the whole view, then parts that changed. A part's number is one more than the one before; a client
 * that sees a hole joins again and gets the whole.
 */
export interface ServerToClient {
  whole: (message: { readonly line: string; readonly number: number; readonly view: LineView }) => void;
  parts: (message: {
    readonly line: string;
    readonly number: number;
    readonly parts: Partial<LineView>;
  }) => void;
}

export interface ClientToServer {
  /** Whether the page sounds for notices: then whoever is logged in there is told by it. */
  sounds: (message: { readonly on: boolean }) => void;
  join: (
    message: { readonly line: string; readonly have: number | undefined },
    answer: (result: JoinAnswer) => void,
  ) => void;
  enter: (
    message: {
      readonly line: string;
      /** [SH6] `keptFor`: so many milliseconds a screen had it before it could send it. */
      readonly entry: NewEntry & { readonly keptFor?: number };
    },
    answer: (result: EntryAnswer) => void,
  ) => void;
}

export type NewEntry = Pick<EntryHead, 'id' | 'author'> & PersonEntryBody;

export type JoinAnswer = { readonly ok: true } | { readonly ok: false; readonly trouble: string };
/** `position` on the tape, once it is durable there. [SH10] `aside`: it is of a sheet that is not open. */
export type EntryAnswer =
  | { readonly ok: true; readonly position: number; readonly aside?: Aside }
  | { readonly ok: false; readonly trouble: string; readonly why?: string; readonly mend: string };
