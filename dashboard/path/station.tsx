import { memo } from 'react';
import type { LossPart, StationView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import type { Numbered } from '../figures/pieces.ts';
import { Carton } from '../marks/symbols.tsx';
import { Line } from '../type/line.tsx';
import { balance, measure } from '../type/measure.ts';
import { LossBar } from './bar.tsx';
import { causesSaid } from './loss.ts';

/** No smaller type than this on a flap. */
const LEAST = 20;

/** Column of a station: drawing on the chain, cartons lost below it, its largest causes in words. */
export const Station = memo(function Station({
  station,
  x,
  width,
  perCarton,
  weight,
}: {
  readonly station: StationView;
  /** Middle of the column. */
  readonly x: number;
  readonly width: number;
  readonly perCarton: number;
  /** first: the largest loss, in bold. little: next to nothing of the whole, in grey. none: no shift, nothing to lose. */
  readonly weight: 'first' | 'some' | 'little' | 'none';
}) {
  const marked = station.mark !== 'none';
  const drawn = Math.min(136, width);
  const room = width - 4;
  return (
    <g
      aria-label={
        weight === 'none'
          ? station.name
          : words.screen.line.path.station(
              station.number,
              station.name,
              station.lost,
              causesSaid(station.causes),
            )
      }
    >
      {balance(station.name, 22).map((part, i) => (
        <Line key={part} x={x} y={18 + i * 24} size={22} max={room} least={20} anchor="middle" bold={marked}>
          {part}
        </Line>
      ))}
      <Carton drawing={station.drawing} off={marked} x={x - drawn / 2} y={46} width={drawn} />
      {weight !== 'none' && (
        <Line
          x={x}
          y={266}
          size={weight === 'first' && marked ? 40 : 34}
          max={room}
          anchor="middle"
          value
          bold={weight === 'first'}
          tone={weight === 'little' ? 'ink2' : 'ink'}
          of={[['lostByStation', words.screen.line.path.amount(station.lost)]]}
          quiet
        >
          {words.screen.line.path.amount(station.lost)}
        </Line>
      )}
      <LossBar causes={station.causes} perCarton={perCarton} x={x} y={276} height={18} anchor="middle" />
      {marked ? (
        <Flap station={station} x={x} width={width} />
      ) : (
        <Causes station={station} x={x} max={room} />
      )}
    </g>
  );
});

/** A station outside its own normal, or that holds the line, stands on its own sheet with a yellow flap below; drawn before its neighbours. */
export function Column({ x, width }: { readonly x: number; readonly width: number }) {
  const half = Math.min(82, width / 2 + 14);
  return (
    <g>
      <path d={`M${x - half} -7H${x + half}V308H${x - half}Z`} fill="var(--sheet)" />
      <path d={`M${x - half} 308V-7H${x + half}V308`} fill="none" stroke="var(--cut)" strokeWidth={2} />
      <path
        d={`M${x - half} 308H${x + half}V352L${x + half - 10} 364H${x - half + 10}L${x - half} 352Z`}
        fill="var(--abnormal)"
        stroke="var(--cut)"
        strokeWidth={2}
      />
    </g>
  );
}

function Flap({
  station,
  x,
  width,
}: {
  readonly station: StationView;
  readonly x: number;
  readonly width: number;
}) {
  const room = Math.min(156, width + 20);
  return flapLines(station, room).map((text, i) => (
    <Line
      key={text}
      x={x}
      y={332 + i * 23}
      size={22}
      max={room}
      least={LEAST}
      anchor="middle"
      tone="onAbnormal"
      of={flapNumbers(station)}
    >
      {text}
    </Line>
  ));
}

/**
 * The flap's two lines: rejects beside their normal, or that the first fault is here with its largest cause. A number
 * is never cut: where there is no room for how many cartons that was of, the normal stands alone.
 */
export function flapLines(station: StationView, room = Number.POSITIVE_INFINITY): readonly string[] {
  const { path } = words.screen.line;
  if (station.rejects !== undefined) {
    const { inLast, of, normal } = station.rejects;
    const lines = path.rejects(inLast, of, normal);
    return lines.every((text) => measure(text, LEAST) <= room) ? lines : path.rejectsShort(inLast, normal);
  }
  const largest = station.causes[0];
  const what = station.mark === 'firstFault' ? path.firstFault : path.abnormal;
  return largest === undefined
    ? [`**${what}**`]
    : [`**${what}**`, path.counted(largest.cause, largest.cartons)];
}

/** Which numbers of the flap's lines are figures. */
export function flapNumbers({ rejects, causes }: StationView): readonly Numbered[] {
  const { count } = words.screen.line;
  if (rejects !== undefined)
    return [
      ['recentRejects', count(rejects.inLast)],
      ['recentRejects', count(rejects.of)],
      ['normalRejects', count(rejects.normal)],
    ];
  return causes.slice(0, 1).map(({ cause, cartons }) => ['lostByCause', causeCount(cause, cartons)]);
}

export function causeNumbers(causes: readonly LossPart[]): readonly Numbered[] {
  return causes.map(({ cause, cartons }) => ['lostByCause', causeCount(cause, cartons)]);
}

/** The cartons of a cause as its words have them: what was made up is told without a sign. */
export function causeCount(cause: LossPart['cause'], cartons: number): string {
  return words.screen.line.count(cause === 'slow' ? Math.abs(cartons) : cartons);
}

function Causes({
  station,
  x,
  max,
}: {
  readonly station: StationView;
  readonly x: number;
  readonly max: number;
}) {
  return station.causes.slice(0, 2).map(({ cause, cartons }, i) => (
    <Line
      key={cause}
      x={x}
      y={322 + i * 25}
      size={22}
      max={max}
      least={20}
      anchor="middle"
      tone="ink2"
      value
      of={[['lostByCause', causeCount(cause, cartons)]]}
      quiet
    >
      {words.screen.line.path.counted(cause, cartons)}
    </Line>
  ));
}
