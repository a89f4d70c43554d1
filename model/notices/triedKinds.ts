import type { NoticeKind } from './notice.ts';

/** [NT1] Notices of each kind and for each person, as the settings in use would have raised them in the days looked at. */
export interface TriedKinds {
  /** In the order of the rules; many told as one come last, and only where there were. */
  readonly kinds: readonly TriedKind[];
  /** In the order of the settings. */
  readonly people: readonly TriedPerson[];
  /** Raised, and nobody was to be told by name. */
  readonly nobody: number;
}

export interface TriedKind {
  readonly kind: NoticeKind;
  readonly said: TriedSaid;
  /** Notices of the kind that were really raised in these days, by the settings of then. */
  readonly raised: number;
}

export type TriedSaid =
  | { readonly kind: 'off' }
  /** Of its own, and told within another one that was open: of the same cause, or as many were told as one. */
  | { readonly kind: 'counted'; readonly notices: number; readonly joined: number }
  /** The past cannot tell. */
  | { readonly kind: 'untold'; readonly why: UntoldWhy };

/** Why the past cannot tell: what would have to be known of each moment is not among the records. */
export const UNTOLD_WHYS = ['noRecords', 'crewTag', 'rejects', 'loose', 'server', 'disk', 'clock'] as const;
export type UntoldWhy = (typeof UNTOLD_WHYS)[number];

export interface TriedPerson {
  readonly person: string;
  readonly notices: number;
}
