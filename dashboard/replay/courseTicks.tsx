import { memo } from 'react';
import type { Alignment } from '../../model/past/compared/aligned.ts';
import { words } from '../app/words.ts';
import { measure } from '../type/measure.ts';
import { countTicks, type TimeBox, ticksOf, xOf } from './scale.ts';

const said = words.screen.past.replay;
const TYPE = 13;
/** Names stand so far apart. */
const ROOM = 90;

/** Under a strip the clock; between two of them what both are laid over one another by. */
export const CourseTicks = memo(function CourseTicks({
  box,
  zone,
  y,
  alignment,
}: {
  readonly box: TimeBox;
  readonly zone: string;
  readonly y: number;
  readonly alignment: Alignment;
}) {
  return ticksIn(box, zone, alignment).map(({ x, name }) => {
    const half = measure(name, TYPE) / 2;
    return (
      <g key={`${x} ${name}`}>
        <path d={`M${x} ${y}v6`} className="edge" />
        <text
          x={Math.min(box.right - half, Math.max(box.left + half, x))}
          y={y + 20}
          fontSize={TYPE}
          textAnchor="middle"
          className="ink2"
        >
          {name}
        </text>
      </g>
    );
  });
});

function ticksIn(box: TimeBox, zone: string, alignment: Alignment) {
  const { left, right, aligned } = box;
  if (!aligned)
    return ticksOf(box, ROOM).map((tick) => ({ x: xOf(tick, box), name: said.clock(tick, zone) }));
  const { axis, side } = aligned;
  const x = (place: number) => left + ((place - axis.from) / (axis.to - axis.from)) * (right - left);
  if (alignment === 'cartons')
    return countTicks(axis, right - left, ROOM).map((tick) => ({
      x: x(tick),
      name: said.compared.cartons(tick),
    }));
  // the clock of the first, as long as both
  const zero = alignment === 'changeover' ? 0 : side.origin;
  return ticksOf({ from: zero + axis.from, to: zero + axis.to, left, right }, ROOM).map((tick) => ({
    x: x(tick - zero),
    name: alignment === 'changeover' ? said.compared.offset(tick) : said.clock(tick, zone),
  }));
}
