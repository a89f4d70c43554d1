import { CONFIDENCE } from '../figures/figureValues.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import { type Counted, totalOf } from '../normal/evidence.ts';
import { levelsOf, spreadBy } from '../normal/levels.ts';
import { predicted } from '../normal/predicted.ts';
import { SETTINGS } from '../normal/settings.ts';
import { pastTooThin } from '../normal/sinceChangeover.ts';
import { type Judged, judgedBy, sumOf } from '../past/stationCounts.ts';
import { clopperPearson } from '../statistics/proportion.ts';

/** What one carton size brought in a stretch, and in each of the runs with it before; the oldest first. */
export interface SizeShare {
  readonly size: string;
  readonly gained: readonly number[];
  readonly earlier: readonly (readonly number[])[];
}

/** A station of a report: what was charged to it, and what as many cartons usually bring. */
export interface ReportStation {
  readonly id: string;
  readonly kind: 'reject' | 'notLoaded' | 'missed' | undefined;
  readonly counted: number;
  readonly among: number;
  /** Of as many cartons of these sizes, by its own past; undefined where that is too thin. */
  readonly usual: number | undefined;
  /** In 1,000 cartons, and between which the true rate lies with 95 %. */
  readonly perThousand: number | undefined;
  readonly lower: number | undefined;
  readonly upper: number | undefined;
  /** More than runs of these sizes differ by: such a one comes less often than once in `ONCE_IN` reports. */
  readonly more: boolean;
}

/** False calls that a whole report may bring, all of its stations and sizes together. */
const ONCE_IN = 100;
/** A shift is a part of a run, and its level wanders so far from the run's: standard deviation of the logarithm. */
const WANDER = 0.3;

/**
 * [RE2] By its rejects, else its empty cartons, else its missed picks, size by size against earlier runs with that size. What
 * is usual allows for how those runs differed from one another, and the wanted rate of false calls is divided over all that
 * is looked at.
 */
export function reportStations(index: LineIndex, shares: readonly SizeShare[]): readonly ReportStation[] {
  const { stations } = index.line;
  const looks = stations.filter(({ id }) => judgedBy(index, id)).length * Math.max(1, shares.length);
  return stations.map(({ id }) => {
    const judged = judgedBy(index, id);
    return judged
      ? reportStation(id, judged, looksAt(judged, shares), 1 / ONCE_IN / Math.max(1, looks))
      : { ...NOT_JUDGED, id };
  });
}

const NOT_JUDGED = {
  kind: undefined,
  counted: 0,
  among: 0,
  usual: undefined,
  perThousand: undefined,
  lower: undefined,
  upper: undefined,
  more: false,
} as const;

/** One size at one station. */
interface Look {
  readonly now: Counted;
  readonly past: readonly Counted[];
}

function looksAt(judged: Judged, shares: readonly SizeShare[]): readonly Look[] {
  const of = (gained: readonly number[]): Counted => ({
    count: sumOf(gained, judged.counted) ?? 0,
    of: sumOf(gained, judged.among) ?? 0,
  });
  return shares
    .map(({ gained, earlier }) => ({
      now: of(gained),
      past: earlier
        .map(of)
        .filter((run) => run.of > 0)
        .slice(-SETTINGS.runsMost),
    }))
    .filter(({ now }) => now.of > 0);
}

function reportStation(id: string, { kind }: Judged, looks: readonly Look[], wanted: number): ReportStation {
  const { count: counted, of: among } = totalOf(looks.map(({ now }) => now));
  const known = looks.length > 0 && looks.every(({ past }) => !pastTooThin(past));
  const usual = known ? looks.map((look) => usualOf(look, wanted)) : undefined;
  const range = clopperPearson(Math.min(counted, among), among, CONFIDENCE);
  return {
    id,
    kind,
    counted,
    among,
    usual: usual?.reduce((sum, { expected }) => sum + expected, 0),
    perThousand: among > 0 ? (1000 * counted) / among : undefined,
    lower: range && 1000 * range.lower,
    upper: range && 1000 * range.upper,
    more: looks.some(({ now }, place) => now.count > (usual?.[place]?.most ?? Number.POSITIVE_INFINITY)),
  };
}

function usualOf({ now, past }: Look, wanted: number): { readonly expected: number; readonly most: number } {
  const levels = spreadBy(levelsOf(past, 'rejects'), WANDER);
  const { expected, interval } = predicted(levels, {
    of: now.of,
    uneven: SETTINGS.unevenFirst,
    share: 1 - 2 * wanted,
  });
  return { expected, most: interval.upper };
}
