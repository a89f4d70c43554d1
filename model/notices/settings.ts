import type { NoticeKind } from './notice.ts';
import type { NoticeLevel, RecipientSettings } from './recipients.ts';

/** How notices are raised at a line, and who is told: set on screen, as an entry on the tape. */
export interface NoticeSettings {
  readonly when: NoticeRules;
  readonly who: RecipientSettings;
}

/** Which notices are raised, and from when on. A rule that is off raises none. */
export interface NoticeRules {
  /**
   * Repeated stops of a station beyond its own normal. `falseOnceInShifts`: of all stations together, for whoever has no budget
   * of his own. `graceSeconds`: no call so long after a stop began, while operators clear it.
   */
  readonly stops: On & { readonly falseOnceInShifts: number; readonly graceSeconds: number };
  /** The plain rule beside it: so many stops of a station within minutes of running, or within cartons. */
  readonly stopsCounted: On & { readonly stops: number; readonly within: CountedWithin };
  readonly rejects: On;
  /** An adjustment that its sensor sees go away by itself: so many marks of its scale. */
  readonly loose: On & { readonly marks: number };
  /** Below this share of the target over the last minutes in which the line was to produce, since the changeover. */
  readonly rate: On & { readonly share: number; readonly minutes: number };
  /** Longer than so many times the longest usual one of its kind; than so many minutes while too few were seen. */
  readonly changeover: On & { readonly times: number; readonly minutes: number };
  /** More than this share of what is planned so far is lost, once the shift has lasted so many minutes. */
  readonly lost: On & { readonly share: number; readonly minutes: number };
  readonly press: On;
  readonly ranOn: On;
  /** No test of a stop device or guard recorded for so many days. */
  readonly test: On & { readonly days: number };
  readonly unseen: On & { readonly minutes: number };
  readonly server: On & { readonly seconds: number };
  readonly disk: On & { readonly leastMegabytes: number };
  readonly clock: On & { readonly seconds: number };
  readonly levels: Readonly<Record<Exclude<NoticeKind, 'many'>, NoticeLevel>>;
  /** More than so many in so many minutes are told as one. */
  readonly many: { readonly notices: number; readonly minutes: number };
  /** What is back to normal and was never taken ends after so many hours. */
  readonly returnedHours: number;
}

export interface On {
  readonly on: boolean;
}

export type CountedWithin =
  | { readonly kind: 'minutes'; readonly minutes: number }
  | { readonly kind: 'cartons'; readonly cartons: number };

/** "At most one false call per person per week of shifts": a week of a person's shifts. */
export const SHIFTS_OF_A_WEEK = 5;

/** As long as nobody has set anything. Without people nobody is told but by an open page. */
export const FIRST_SETTINGS: NoticeSettings = {
  when: {
    stops: { on: true, falseOnceInShifts: SHIFTS_OF_A_WEEK, graceSeconds: 60 },
    stopsCounted: { on: false, stops: 3, within: { kind: 'minutes', minutes: 30 } },
    rejects: { on: true },
    loose: { on: true, marks: 4 },
    rate: { on: true, share: 0.8, minutes: 30 },
    changeover: { on: true, times: 1.25, minutes: 60 },
    lost: { on: true, share: 0.3, minutes: 90 },
    press: { on: true },
    ranOn: { on: true },
    test: { on: false, days: 30 },
    unseen: { on: true, minutes: 5 },
    server: { on: true, seconds: 60 },
    disk: { on: true, leastMegabytes: 1000 },
    clock: { on: true, seconds: 10 },
    levels: {
      stops: 'call',
      stopsCounted: 'call',
      rejects: 'call',
      loose: 'call',
      rate: 'note',
      changeover: 'note',
      lost: 'note',
      press: 'urgent',
      ranOn: 'urgent',
      test: 'note',
      unseen: 'call',
      server: 'call',
      disk: 'call',
      clock: 'note',
    },
    many: { notices: 10, minutes: 10 },
    returnedHours: 8,
  },
  who: { recipients: [], rotas: [], plans: [] },
};

/** Settings as they stand on the tape, by a version that knew fewer rules: those it did not know are as they are at first. */
export function completed({ when, who }: NoticeSettings): NoticeSettings {
  const first = FIRST_SETTINGS.when;
  return { when: { ...first, ...when, levels: { ...first.levels, ...when.levels } }, who };
}

/** Bounds of what can be set: beyond them a rule would say nothing, or say it all the time. */
export const SETTINGS_BOUNDS = {
  falseOnceInShifts: { least: 1, most: 500 },
  graceSeconds: { least: 0, most: 900 },
  stops: { least: 2, most: 50 },
  marks: { least: 2, most: 100 },
  minutes: { least: 1, most: 1440 },
  cartons: { least: 10, most: 100_000 },
  share: { least: 0.05, most: 1 },
  times: { least: 1, most: 10 },
  days: { least: 1, most: 730 },
  seconds: { least: 1, most: 3600 },
  megabytes: { least: 100, most: 1_000_000 },
  notices: { least: 2, most: 100 },
  hours: { least: 1, most: 72 },
} as const;
