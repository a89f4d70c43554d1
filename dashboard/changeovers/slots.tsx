import type { StripSlot } from '../../model/past/changeoverStrip.ts';
import { words } from '../app/words.ts';
import { Line } from '../type/line.tsx';
import { measure } from '../type/measure.ts';

const said = words.screen.past.changeovers;

/** Cut out of the board: a stop by cut lines, setting and pause by scores, what nobody saw by hatch. */
export function Slot({
  slot,
  x,
  top,
  floor,
}: {
  readonly slot: StripSlot;
  readonly x: (at: number) => number;
  readonly top: number;
  readonly floor: number;
}) {
  const [left, right] = [x(slot.from), Math.max(x(slot.to), x(slot.from) + 2)];
  const box = `M${left} ${top}H${right}V${floor}H${left}Z`;
  const named = slot.kind === 'pause' || slot.kind === 'unseen' ? said.strip[slot.kind] : '';
  const name = right - left > measure(named, 13) + 12 && (
    <Line x={(left + right) / 2} y={(top + floor) / 2} size={13} tone="ink2" anchor="middle">
      {named}
    </Line>
  );
  if (slot.kind === 'unseen')
    return (
      <>
        <path className="unseenbox" d={box} fill="url(#unseen)" />
        {name}
      </>
    );
  const edges = `M${left} ${top}V${floor}M${right} ${top}V${floor}`;
  return (
    <>
      {slot.kind === 'pause' && <path d={box} fill="url(#setting)" />}
      <path className={slot.kind === 'stopped' ? 'cutline thin' : 'scoreline'} d={edges}>
        <title>{said.strip.slot(slot)}</title>
      </path>
      {name}
    </>
  );
}

/** The station of each stop, as far as there is room. */
export function Pips({
  slots,
  x,
  top,
}: {
  readonly slots: readonly StripSlot[];
  readonly x: (at: number) => number;
  readonly top: number;
}) {
  let end = Number.NEGATIVE_INFINITY;
  return slots
    .filter(({ kind, station }) => kind === 'stopped' && station !== undefined)
    .map((slot) => {
      const middle = (x(slot.from) + x(slot.to)) / 2;
      if (middle - 12 < end) return null;
      end = middle + 12;
      return (
        <g key={slot.from}>
          <path className="pip" d={`M${middle - 11} ${top - 2}v-14l4 -4h14l4 4v14Z`} />
          <Line x={middle} y={top - 5} size={13} anchor="middle">
            {String(slot.station)}
          </Line>
        </g>
      );
    });
}
