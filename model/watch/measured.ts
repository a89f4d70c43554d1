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
