import type { StopRecord } from '../fold/state.ts';
import { type EpochMs, epochMs, type Instant, MINUTE } from '../units/units.ts';
import { type ChangeoversAsked, MARGIN } from './changeover.ts';
import { goodBetween, type Measured } from './changeoverMeasure.ts';
import { joined, type Stretch, without } from './stretches.ts';

/** From some minutes before it to some minutes after: what the line made, and where it stood. */
export interface ChangeoverStrip {
  readonly from: EpochMs;
  readonly to: EpochMs;
  /** What was made: good cartons per minute. Nothing is drawn where the line stood or nobody looked. */
  readonly board: readonly { readonly from: EpochMs; readonly to: EpochMs; readonly rate: number }[];
  readonly slots: readonly StripSlot[];
  readonly rateMax: number;
}

export interface StripSlot {
  readonly from: EpochMs;
  readonly to: EpochMs;
  readonly kind: 'changeover' | 'stopped' | 'pause' | 'unseen';
  /** Number of its station, and what it was. */
  readonly station: number | undefined;
  readonly name: string | undefined;
}

export function stripOf({ index, now }: ChangeoversAsked, measured: Measured): ChangeoverStrip {
  const { record, over, nearby, unseen, target } = measured;
  const whole = {
    from: (record.begin - MARGIN) as Instant,
    to: Math.min(now, over + MARGIN) as Instant,
  };
  const stood = nearby.stops.map(({ begin, end }) => ({ from: begin, to: end ?? whole.to }));
  const board = ran(whole, joined([...stood, ...unseen])).flatMap(({ from, to }) => {
    const good = goodBetween(index, measured, from, to);
    return good === undefined || to - from < MINUTE / 20
      ? []
      : [{ from: epochMs(from), to: epochMs(to), rate: Math.max(0, (good * MINUTE) / (to - from)) }];
  });
  return {
    from: epochMs(whole.from),
    to: epochMs(whole.to),
    board,
    slots: [
      ...nearby.stops.flatMap((stop) => slotOf(index, stop, whole)),
      ...unseen.flatMap((gap) =>
        clipped(gap, whole, { kind: 'unseen', station: undefined, name: undefined }),
      ),
    ],
    rateMax: Math.max(target.perMinute * 1.1, ...board.map(({ rate }) => rate), 1),
  };
}

/** Stretches in which the line ran, each within one minute, as counters are kept by the minute. */
function ran(whole: Stretch, stood: readonly Stretch[]): readonly Stretch[] {
  return without(whole, stood).flatMap(({ from, to }) => {
    const parts: Stretch[] = [];
    for (let at = from; at < to; ) {
      const next = Math.min(to, at - (at % MINUTE) + MINUTE) as Instant;
      parts.push({ from: at, to: next });
      at = next;
    }
    return parts;
  });
}

function slotOf(index: ChangeoversAsked['index'], stop: StopRecord, whole: Stretch): readonly StripSlot[] {
  const kind = stop.class === 'changeover' || stop.class === 'pause' ? stop.class : 'stopped';
  return clipped({ from: stop.begin, to: stop.end ?? whole.to }, whole, {
    kind,
    station: index.line.stations.find(({ id }) => id === stop.station)?.number,
    name: index.reasonByNumber.get(stop.reason)?.name,
  });
}

function clipped(
  { from, to }: Stretch,
  whole: Stretch,
  slot: Omit<StripSlot, 'from' | 'to'>,
): readonly StripSlot[] {
  const [begin, end] = [Math.max(from, whole.from) as Instant, Math.min(to, whole.to) as Instant];
  return end > begin ? [{ from: epochMs(begin), to: epochMs(end), ...slot }] : [];
}
