import { useMemo } from 'react';
import type { ReplayWindow } from '../../model/replay/asked.ts';
import { words } from '../app/words.ts';
import { measure } from '../type/measure.ts';
import { Dragged } from './dragged.tsx';
import { Flag } from './flag.tsx';
import { StationLanes } from './lanes.tsx';
import { type TimeBox, ticksOf, xOf } from './scale.ts';
import { Unheard, type UnheardSpan } from './unheard.tsx';
import { lanesEnd, TOP, WindowLanes } from './windowLanes.tsx';

const said = words.screen.past.replay;
const TYPE = 13;

/** The part that is looked at: what was made, what the machine's state was, each reject, each device. */
export function WindowSheet({
  asked,
  shown,
  width,
  zone,
  at,
  unheard,
  go,
}: {
  readonly asked: { readonly from: number; readonly to: number };
  readonly shown: ReplayWindow | undefined;
  readonly width: number;
  readonly zone: string;
  readonly at: number;
  readonly unheard: readonly UnheardSpan[];
  readonly go: (at: number) => void;
}) {
  const { from, to } = asked;
  const left = width < 700 ? 8 : 168;
  const box = useMemo<TimeBox>(() => ({ from, to, left, right: width - 8 }), [from, to, left, width]);
  const named = left > 100;
  const axis = lanesEnd(shown?.window, named);
  return (
    <>
      <Dragged box={box} go={go} className="windowsheet">
        <svg width={width} height={axis + 28} aria-hidden="true">
          {shown ? (
            <WindowLanes window={shown.window} box={box} named={named} />
          ) : (
            <text x={left} y={TOP + 40} fontSize={15} className="ink2">
              {said.window.reading}
            </text>
          )}
          <Unheard spans={unheard} box={box} y={TOP - 11} />
          <Clock box={box} y={axis} zone={zone} />
          <Here at={at} box={box} floor={axis} zone={zone} />
        </svg>
      </Dragged>
      {shown?.lanes && <StationLanes lanes={shown.lanes} asked={asked} width={width} at={at} />}
    </>
  );
}

function Clock({ box, y, zone }: { readonly box: TimeBox; readonly y: number; readonly zone: string }) {
  const isShort = box.to - box.from <= 600_000;
  const name = (at: number) => (isShort ? said.moment(at, zone) : said.clock(at, zone));
  return (
    <g>
      <path d={`M${box.left} ${y}H${box.right}`} className="edge" />
      {ticksOf(box, isShort ? 110 : 90).map((tick) => {
        const half = measure(name(tick), TYPE) / 2;
        return (
          <g key={tick}>
            <path d={`M${xOf(tick, box)} ${y}v6`} className="edge" />
            <text
              x={Math.min(box.right - half, Math.max(box.left + half, xOf(tick, box)))}
              y={y + 20}
              fontSize={TYPE}
              textAnchor="middle"
              className="ink2"
            >
              {name(tick)}
            </text>
          </g>
        );
      })}
    </g>
  );
}

/** The moment looked at, through all lanes. */
function Here({
  at,
  box,
  floor,
  zone,
}: {
  readonly at: number;
  readonly box: TimeBox;
  readonly floor: number;
  readonly zone: string;
}) {
  if (at < box.from || at > box.to) return null;
  const x = xOf(at, box);
  return (
    <g>
      <path d={`M${x} 4V${floor}`} className="pocketline" />
      <Flag x={x} box={box} name={said.moment(at, zone)} />
    </g>
  );
}
