import type { EpochMs, Millis } from '../../../model/units/units.ts';
import type { TrendSpan } from '../../../model/view/trend.ts';
import type { LineView, LossCause, LossPart, Pocket, StationView } from '../../../model/view/view.ts';

/** An instant of Tuesday 17 March 2026 in Berlin: "10:42:14". */
export function t(clock: string, day = 17): EpochMs {
  const [hours = 0, minutes = 0, seconds = 0] = clock.split(':').map(Number);
  return Date.UTC(2026, 2, day, hours - 1, minutes, seconds) as EpochMs;
}

export const ms = (minutes: number, seconds = 0) => (minutes * 60_000 + seconds * 1000) as Millis;

type Causes = Partial<Record<LossCause, number>>;

const NAMES: readonly (readonly [id: string, name: string])[] = [
  ['magazine', 'magazine'],
  ['pick', 'pick'],
  ['open', 'open'],
  ['bottom-minor', 'bottom minor flaps'],
  ['bottom-major', 'bottom major flap'],
  ['capture', 'top flap capture'],
  ['loading', 'loading'],
  ['top-minor', 'top minor flaps'],
  ['top-major', 'top major flap'],
  ['tuck-cam', 'tuck cam'],
  ['discharge', 'discharge'],
];

export function parts(causes: Causes): readonly LossPart[] {
  return (Object.entries(causes) as [LossCause, number][])
    .filter(([, cartons]) => cartons !== 0)
    .map(([cause, cartons]) => ({ cause, cartons }))
    .sort((a, b) => b.cartons - a.cartons);
}

export function sum(list: readonly LossPart[]): number {
  return list.reduce((total, { cartons }) => total + cartons, 0);
}

/** The path from causes by station: every sum is made here, so the numbers agree with each other. */
export function pathOf(
  good: number,
  byStation: { readonly [id: string]: Causes },
  none: Causes,
  marks: { readonly [id: string]: Pick<StationView, 'mark' | 'rejects'> } = {},
): LineView['path'] {
  const stations = NAMES.map(([id, name], i) => {
    const causes = parts(byStation[id] ?? {});
    const mark = marks[id] ?? { mark: 'none' as const, rejects: undefined };
    return { id, number: i + 1, name, drawing: id, lost: sum(causes), causes, stops: 0, ...mark };
  });
  const noneParts = parts(none);
  const all: Causes = {};
  for (const { cause, cartons } of [...stations.flatMap((station) => station.causes), ...noneParts])
    all[cause] = (all[cause] ?? 0) + cartons;
  const total = stations.reduce((lost, station) => lost + station.lost, 0) + sum(noneParts);
  return {
    total,
    possible: total + good,
    good,
    stations,
    none: { lost: sum(noneParts), causes: noneParts },
    causes: parts(all),
  };
}

/** Minute buckets that add up to `good`: level where it ran, zero in stops, undefined where nobody looked. */
export function bucketsOf(
  good: number,
  from: EpochMs,
  now: EpochMs,
  spans: readonly TrendSpan[],
): LineView['trend']['buckets'] {
  const starts: EpochMs[] = [];
  for (let at = from; at < now; at = (at + 60_000) as EpochMs) starts.push(at);
  const weights = starts.map((at, i) => {
    const end = Math.min(at + 60_000, now);
    const stood = spans.reduce(
      (lost, span) => lost + Math.max(0, Math.min(end, span.to ?? now) - Math.max(at, span.from)),
      0,
    );
    const share = Math.max(0, end - at - stood) / 60_000;
    return share * (1 - 0.025 * Math.abs(Math.sin(i * 1.7)) - 0.02 * Math.abs(Math.sin(i * 0.31)));
  });
  const each =
    good /
    Math.max(
      1,
      weights.reduce((a, b) => a + b, 0),
    );
  let owed = 0;
  return starts.map((at, i) => {
    owed += (weights[i] ?? 0) * each;
    const rate = Math.round(owed);
    owed -= rate;
    const unseen = spans.some((span) => span.kind === 'unknown' && span.from <= at && at < (span.to ?? now));
    return { at, rate: unseen ? undefined : rate };
  });
}

export function span(
  kind: TrendSpan['kind'],
  from: string,
  to: string | undefined,
  station?: number,
  reason?: string,
  asks = false,
): TrendSpan {
  return {
    kind,
    from: t(from),
    to: to === undefined ? undefined : t(to),
    stop: `s-${from}`,
    station,
    reason,
    minor: true,
    asks,
  };
}

/** A minute of pockets: `good` of `target`, with what spoiled others at fixed places. */
export function pocketsOf(
  target: number,
  spoiled: { readonly [at: number]: Pocket } = {},
  made = target,
): readonly Pocket[] {
  return Array.from({ length: target }, (_, i) => spoiled[i] ?? (i < made ? 'good' : 'none'));
}
