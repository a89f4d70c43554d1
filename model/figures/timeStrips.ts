import type { FigureId } from './figures.ts';
import type { FigureValue } from './figureValues.ts';

/** What is left of the time, one strip below the other, and what was cut off each; minutes. */
export interface TimeStrip {
  readonly id: StripId;
  readonly figure: FigureId;
  readonly minutes: number;
  readonly cuts: readonly TimeCut[];
}

export type StripId =
  | 'plannedOperationTime'
  | 'plannedBusyTime'
  | 'busyTime'
  | 'processingTime'
  | 'actualProductionTime'
  | 'idealTime'
  | 'goodTime';

export interface TimeCut {
  readonly kind: CutKind;
  readonly figure: FigureId;
  readonly minutes: number;
}

export type CutKind =
  | 'plannedDownTime'
  | 'notSeen'
  | 'downTime'
  | 'delayTime'
  | 'setupTime'
  | 'slower'
  | 'faster'
  | 'spoiled';

/**
 * [KP4] From the time in shifts down to the time that the good cartons would have taken at their ideal rate, which over the
 * planned busy time is OEE. Faster than ideal is no cut: the next strip is longer. Without ideal rates it ends where it
 * produced. Empty over no time.
 */
export function timeStrips(values: readonly FigureValue[]): readonly TimeStrip[] {
  const of = (id: FigureId) => values.find((one) => one.id === id)?.value;
  const known = (id: FigureId) => of(id) ?? 0;
  const cut = (kind: CutKind & FigureId): TimeCut => ({ kind, figure: kind, minutes: known(kind) });
  const strip = (id: StripId & FigureId, ...cuts: readonly TimeCut[]): TimeStrip => ({
    id,
    figure: id,
    minutes: known(id),
    cuts: cuts.filter(({ minutes }) => minutes !== 0),
  });
  if (!(known('plannedOperationTime') > 0)) return [];
  const [ran, ideal, quality] = [known('actualProductionTime'), of('idealTime'), of('qualityRatio')];
  const upTo = [
    strip('plannedOperationTime', cut('plannedDownTime'), cut('notSeen')),
    strip('plannedBusyTime', cut('downTime')),
    strip('busyTime', cut('delayTime')),
    strip('processingTime', cut('setupTime')),
  ];
  if (ideal === undefined || quality === undefined) return [...upTo, strip('actualProductionTime')];
  const pace: TimeCut = {
    kind: ideal > ran ? 'faster' : 'slower',
    figure: 'paceTime',
    minutes: Math.abs(ran - ideal),
  };
  const spoiled: TimeCut = { kind: 'spoiled', figure: 'spoiledTime', minutes: ideal * (1 - quality) };
  return [
    ...upTo,
    strip('actualProductionTime', pace),
    strip('idealTime', spoiled),
    { id: 'goodTime', figure: 'goodTime', minutes: ideal * quality, cuts: [] },
  ];
}
