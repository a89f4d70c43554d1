import type { Counted } from '../counters/counters.ts';
import type { Answer } from '../line/line.ts';
import type { EpochMs, Millis } from '../units/units.ts';

/** [CO3] [CO4] Counters that did what a counter does not, this shift. */
export interface CounterMarked {
  readonly kind: 'counterReset';
  /** reset: began again. implausible: jumped further than the machine can count. correction: went back a little. */
  readonly mark: 'reset' | 'set' | 'implausible' | 'correction';
  /** The newest: what it counts, and of what, by name. */
  readonly counts: Counted;
  readonly of: string | undefined;
  readonly at: EpochMs;
  /** How often in all this shift, as far as kept. */
  readonly times: number;
}

/** Something that wants a person, or that a person should know. `lasted` of a finding is undefined while it lasts. */
export type Matter =
  | {
      readonly kind: 'unexplainedStop';
      readonly stop: string;
      readonly at: EpochMs;
      readonly lasted: Millis | undefined;
      /** False where it ended while nobody was looking: it lasted so long, or longer. */
      readonly endSeen: boolean;
      readonly station: string | undefined;
      readonly answers: readonly Answer[];
    }
  | {
      readonly kind: 'stationAbnormal';
      /** By its id. */
      readonly station: string;
      /** When it left its normal. */
      readonly since: EpochMs;
      readonly inLast: number;
      readonly of: number;
      readonly normal: number;
    }
  | {
      readonly kind: 'guardOpenRunning';
      readonly guard: string;
      readonly at: EpochMs;
      readonly lasted: Millis | undefined;
      readonly id: string;
    }
  | {
      readonly kind: 'devicePressedRunning';
      readonly device: string;
      readonly at: EpochMs;
      readonly lasted: Millis | undefined;
      readonly id: string;
    }
  | {
      readonly kind: 'whichButton';
      readonly press: string;
      /** When it was pressed; undefined where nobody saw that. */
      readonly at: EpochMs | undefined;
      readonly candidates: readonly { readonly id: string; readonly name: string }[];
    }
  /** Since when nothing can be recorded, so that nothing new is shown: what is wrong, and how to mend it. */
  | {
      readonly kind: 'notRecorded';
      readonly since: EpochMs;
      readonly what: string;
      readonly mend: string;
    }
  /** [NR4] A mistake in the file of ways: some notices do not go out. */
  | {
      readonly kind: 'waysWrong';
      readonly line: number;
      readonly what: string;
      readonly mend: string;
      readonly more: number;
    }
  /** [CH5] A changeover lasts longer than usual, and its cartons are still trial cartons by the line's tag. */
  | { readonly kind: 'stillTrial'; readonly since: EpochMs; readonly lasted: Millis }
  | { readonly kind: 'clockOff'; readonly server: string; readonly offset: Millis }
  /** Somebody set the clock of a server, forward if `by` is above 0; line time goes on as it was. */
  | { readonly kind: 'clockSet'; readonly server: string; readonly by: Millis }
  | CounterMarked
  | { readonly kind: 'notSeen'; readonly from: EpochMs; readonly to: EpochMs | undefined }
  /** Findings that the list had no room for; a person closes them by `id` all at once. */
  | { readonly kind: 'olderFindings'; readonly count: number; readonly id: string }
  /** What there is beyond what is shown. */
  | { readonly kind: 'further'; readonly count: number };

/** The one question the panels may ask now. */
export interface Question {
  readonly stop: string;
  readonly since: EpochMs;
  readonly until: EpochMs | undefined;
  readonly station: string | undefined;
  readonly answers: readonly (Answer & { readonly times: number })[];
  /** Over how many days `times` counts. */
  readonly days: number;
}
