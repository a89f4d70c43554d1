import type { Line } from '../line/line.ts';
import type { AttributionRecord } from './attribution.ts';
import { type PocketsLook, pocketsLook } from './offsets.ts';
import type { AttributionIndex } from './suspects.ts';

/**
 * What was measured that a line's shares may be held to. sensed: every station that a reason may come from tells of near misses;
 * unnamed: so it is, but the line's file does not name these stations; file, fileUnnamed: nobody sees what happens to a carton
 * at a station, and the shares are those of the line's file.
 */
export const MEASURED_FOR = ['sensed', 'unnamed', 'file', 'fileUnnamed'] as const;
export type MeasuredFor = (typeof MEASURED_FOR)[number];

/** Where a reason may come from any station, some of which do nothing that a sensor could see. */
const SENSED_OF_ALL = 0.85;
/** Shares of prior weights are sums of decimals. */
const ROUNDING = 1e-9;

/** [AT5] Undefined where no such line was measured. */
export function measuredFor(
  { rejects }: Pick<Line, 'rejects'>,
  index: AttributionIndex,
  record: AttributionRecord,
): MeasuredFor | undefined {
  const several = index.suspects.filter(({ stations }) => stations.length > 1);
  const named = several.filter(({ reason }) => rejects.some(({ id, from }) => id === reason && from));
  if (named.length > 0 && named.length < several.length) return undefined;
  const isNamed = several.length === named.length;
  if (several.every(({ sensed }) => sensed === 0)) return isNamed ? 'file' : 'fileUnnamed';
  if (pocketsDoubted(index, record).length > 0) return undefined;
  const charged = several.map(({ sensed }) => sensed).sort((a, b) => b - a);
  if (isNamed) return charged.every((share) => share > 1 - ROUNDING) ? 'sensed' : undefined;
  // one whose own station has no sensor, as of print, was among those measured
  const seen = charged.filter((share) => share > SENSED_OF_ALL - ROUNDING);
  return seen.length >= several.length - 1 ? 'unnamed' : undefined;
}

/** Stations whose near misses do not lie where the line's file says that cartons were then. */
export function pocketsDoubted(
  { sensors }: AttributionIndex,
  { offsets }: AttributionRecord,
): readonly { readonly station: number; readonly look: PocketsLook }[] {
  return sensors.flatMap((sensor, station) => {
    const look = pocketsLook(offsets[station]!);
    return sensor >= 0 && (look.kind === 'off' || look.kind === 'blurred') ? [{ station, look }] : [];
  });
}
