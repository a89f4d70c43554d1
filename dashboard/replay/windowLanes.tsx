import { memo } from 'react';
import type { WindowView } from '../../model/replay/window.ts';
import { words } from '../app/words.ts';
import { Mark } from '../marks/symbols.tsx';
import { measure } from '../type/measure.ts';
import { boardOf } from './board.ts';
import { type TimeBox, xOf } from './scale.ts';

const said = words.screen.past.replay;
const TYPE = 13;
/** Rows from the top: the board, the machine's state, then each station and device. */
export const TOP = 30;
const HEIGHT = 100;
const FLOOR = TOP + HEIGHT;
const STATE = FLOOR + 18;
const FIRST = STATE + 44;
const ROW = 24;
/** Where names have no column of their own they stand above their lane. */
const NARROW_ROW = 38;

/** A window on its scale; `named`: names have a column of their own. */
interface Drawn {
  readonly window: WindowView;
  readonly box: TimeBox;
  readonly named: boolean;
}

/** How far down the lanes reach. */
export function lanesEnd(window: WindowView | undefined, named: boolean): number {
  const rows = (window?.rejects.length ?? 0) + (window?.devices.length ?? 0);
  return FIRST + rows * (named ? ROW : NARROW_ROW);
}

/** What was made, what the machine's state was, each reject, and each device that read pressed or open. */
export const WindowLanes = memo(function WindowLanes({ window, box, named }: Drawn) {
  const row = named ? ROW : NARROW_ROW;
  const devices = FIRST + window.rejects.length * row;
  return (
    <g>
      <Made window={window} box={box} named={named} />
      <States window={window} box={box} named={named} />
      {window.rejects.map(({ station, marks }, place) => {
        const y = FIRST + place * row;
        return (
          <g key={station.id}>
            <Name
              x={box.left}
              y={y}
              named={named}
              text={words.screen.past.station(station.number, station.name)}
            />
            <path d={`M${box.left} ${y}H${box.right}`} className="laneline" />
            {marks.map((mark) => (
              <rect
                key={`${mark.at} ${mark.name}`}
                x={xOf(mark.at, box) - 3}
                y={y - 7}
                width={6}
                height={14}
                className={mark.beyond ? 'rejectmark beyond' : 'rejectmark'}
              />
            ))}
          </g>
        );
      })}
      {window.devices.map((device, place) => {
        const y = devices + place * row;
        return (
          <g key={`${device.kind} ${device.id}`}>
            <Mark
              id={device.kind === 'guard' ? 'd-door' : 'd-button'}
              size={18}
              x={named ? 0 : box.left}
              y={y - (named ? 10 : 24)}
            />
            <Name
              x={named ? 24 : box.left + 22}
              y={y}
              named={named}
              text={device.name}
              start={named ? 24 : undefined}
            />
            <path d={`M${box.left} ${y}H${box.right}`} className="laneline" />
            {device.spans.map((span, nth) => {
              const next = device.spans[nth + 1];
              const end = next === undefined ? box.right : xOf(next.from, box);
              return <DeviceSpan key={span.from} span={span} kind={device.kind} box={box} y={y} end={end} />;
            })}
          </g>
        );
      })}
    </g>
  );
});

function Name({
  x,
  y,
  named,
  text,
  start,
}: {
  readonly x: number;
  readonly y: number;
  readonly named: boolean;
  readonly text: string;
  readonly start?: number | undefined;
}) {
  return (
    <text x={named ? (start ?? 0) : x} y={named ? y : y - 14} dy=".36em" fontSize={TYPE}>
      {text}
    </text>
  );
}

function DeviceSpan({
  span,
  kind,
  box,
  y,
  end,
}: {
  readonly span: WindowView['devices'][number]['spans'][number];
  readonly kind: 'device' | 'guard';
  readonly box: TimeBox;
  readonly y: number;
  /** Where the next one begins: so far its words have room. */
  readonly end: number;
}) {
  const [left, right] = [xOf(span.from, box), xOf(span.to, box)];
  const text = kind === 'guard' ? said.window.open(span.lasted) : said.window.held(span.lasted);
  const wide = measure(text, TYPE);
  return (
    <g>
      <rect x={left} y={y - 6} width={Math.max(3, right - left)} height={12} className="devicespan" />
      {right + wide + 16 < end && (
        <>
          <rect x={right + 4} y={y - 8} width={wide + 8} height={16} fill="var(--sheet)" />
          <text x={right + 8} y={y} dy=".36em" fontSize={TYPE} className="ink2">
            {text}
          </text>
        </>
      )}
    </g>
  );
}

/** Good cartons a minute as board, stops cut out of it, and what nobody saw as hatch. */
function Made({ window, box, named }: Drawn) {
  const most = Math.max(10, (window.target ?? 0) * 1.2, ...window.rates.map((rate) => rate ?? 0));
  const y = (rate: number) => FLOOR - (HEIGHT * rate) / most;
  const own = {
    ...box,
    from: window.from,
    to: window.to,
    left: xOf(window.from, box),
    right: xOf(window.to, box),
  };
  const board = boardOf(window, own, y, FLOOR);
  return (
    <g>
      <path d={board.filled} className="boardfill" />
      <path d={board.line} className="boardline" />
      {window.stops.map((stop) => {
        const [left, right] = [xOf(stop.from, box), Math.max(xOf(stop.from, box) + 2, xOf(stop.to, box))];
        return (
          <g key={stop.id}>
            <rect x={left} y={TOP} width={right - left} height={HEIGHT} fill="var(--sheet)" />
            <path d={`M${left} ${TOP}V${FLOOR}M${right} ${TOP}V${FLOOR}`} className="edge" />
            {stop.number !== undefined && right - left > 14 && (
              <>
                <path d={tabShape((left + right) / 2)} className="piptab" />
                <text x={(left + right) / 2} y={TOP - 13} dy=".36em" fontSize={12} textAnchor="middle">
                  {stop.number}
                </text>
              </>
            )}
          </g>
        );
      })}
      {window.unseen.map((gap) => (
        <rect
          key={gap.from}
          x={xOf(gap.from, box)}
          y={TOP}
          width={Math.max(2, xOf(gap.to, box) - xOf(gap.from, box))}
          height={HEIGHT}
          className={gap.kind === 'isolated' ? 'unseenspan stood' : 'unseenspan'}
        />
      ))}
      {window.target !== undefined && (
        <path d={`M${box.left} ${y(window.target)}H${box.right}`} className="targetline" />
      )}
      <path d={`M${box.left} ${FLOOR}H${box.right}`} className="floorline" />
      {named && (
        <>
          {said.window.rate.split(/ (?=per)/).map((part, place) => (
            <text key={part} x={0} y={TOP + 14 + place * 17} fontSize={TYPE}>
              {part}
            </text>
          ))}
          <text x={box.left - 8} y={FLOOR} fontSize={TYPE} textAnchor="end" className="ink2">
            0
          </text>
          {window.target !== undefined && (
            <text
              x={box.left - 8}
              y={y(window.target)}
              dy=".36em"
              fontSize={TYPE}
              textAnchor="end"
              className="ink2"
            >
              {words.screen.past.count(Math.round(window.target))}
            </text>
          )}
        </>
      )}
    </g>
  );
}

function tabShape(x: number): string {
  return `M${x - 9} ${TOP - 3}V${TOP - 19}L${x - 5} ${TOP - 23}H${x + 5}L${x + 9} ${TOP - 19}V${TOP - 3}Z`;
}

function States({ window, box, named }: Drawn) {
  return (
    <g>
      {named && (
        <text x={0} y={STATE + 9} dy=".36em" fontSize={TYPE}>
          {said.window.state}
        </text>
      )}
      {window.states.map(({ from, to, state }) => {
        const [left, right] = [xOf(from, box), xOf(to, box)];
        const name = said.window.stateOf(state);
        return (
          // two states may be told within one millisecond
          <g key={`${from} ${state}`}>
            <rect
              x={left}
              y={STATE - 2}
              width={Math.max(1, right - left)}
              height={22}
              className={
                state === 'Execute' ? 'statebox runs' : state === undefined ? 'statebox dark' : 'statebox'
              }
            />
            {measure(name, TYPE) + 10 < right - left && (
              <text x={left + 6} y={STATE + 9} dy=".36em" fontSize={TYPE}>
                {name}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}
