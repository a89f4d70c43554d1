import type { Seldom } from '../normal/measured.ts';

/** False calls of somebody who watches all stations of one line, where nothing was wrong. */
export interface FalseMeasured extends Seldom {
  readonly calls: number;
  /** In a person's week of five shifts. */
  readonly perWeek: number;
  /** In that kind of line and family of levels in which it fared worst. */
  readonly worst: Seldom;
}

/** Troubles of a station that were told within three runs, and how soon. */
export interface ToldMeasured {
  readonly of: number;
  readonly told: number;
  /** Told with the third stop since it began, or sooner; with the sixth. */
  readonly within3: number;
  readonly within6: number;
  /** Stops of the station, and cartons of the line, by which half of all were told, and nine in ten; undefined where fewer ever were. */
  readonly stops: { readonly half: number | undefined; readonly most: number | undefined };
  readonly cartons: { readonly half: number | undefined; readonly most: number | undefined };
}

/**
 * What the proof `notices` measured: it stands in `tests/proof/notices.ndjson`, and `tests/proof/notices.test.ts` holds this equal
 * to it. Shifts of simulated lines in order, over three kinds of line and five families of levels.
 */
export const SHIFTS_MEASURED = 2365;

/** By the budget: one false call in so many shifts, over all stations of the line. */
export const FALSE_MEASURED: Readonly<Record<5 | 20 | 50, FalseMeasured>> = {
  5: {
    calls: 331,
    perWeek: 0.7,
    onceIn: 7.1,
    from: 6.3,
    to: 8.1,
    worst: { onceIn: 4.3, from: 3.1, to: 6.2 },
  },
  20: {
    calls: 108,
    perWeek: 0.23,
    onceIn: 21.9,
    from: 17.6,
    to: 27.7,
    worst: { onceIn: 10.6, from: 6.5, to: 19 },
  },
  50: {
    calls: 61,
    perWeek: 0.13,
    onceIn: 38.8,
    from: 28,
    to: 55.3,
    worst: { onceIn: 13.3, from: 7.6, to: 25.8 },
  },
};

/**
 * Troubles of one station at a budget of one false call in five shifts: by the rule, and by the plain rules that were soonest, known
 * afterwards, of those with no more false calls: one for the whole line, and one for each station.
 */
export const TOLD_MEASURED: Readonly<Record<'own' | 'line' | 'each', ToldMeasured>> = {
  own: {
    of: 525,
    told: 298,
    within3: 184,
    within6: 273,
    stops: { half: 6, most: undefined },
    cartons: { half: 39_198, most: undefined },
  },
  line: {
    of: 525,
    told: 236,
    within3: 26,
    within6: 210,
    stops: { half: undefined, most: undefined },
    cartons: { half: undefined, most: undefined },
  },
  each: {
    of: 525,
    told: 274,
    within3: 60,
    within6: 251,
    stops: { half: 7, most: undefined },
    cartons: { half: 51_258, most: undefined },
  },
};
