import { memo } from 'react';
import type { DeviceView } from '../../model/view/devices.ts';
import type { StationView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { Carton, Mark } from '../marks/symbols.tsx';
import { Chain } from '../path/chain.tsx';
import { usePart } from '../store/use.tsx';
import { Line } from '../type/line.tsx';
import { balance, measure } from '../type/measure.ts';
import { useReads } from './reads.ts';

const LEFT = 164;
const RIGHT = 1840;

/** Where the stop devices are along the carton's path: back side above, front side below, each with what it reads. */
export const DevicePath = memo(function DevicePath() {
  const { stations } = usePart('path');
  const { devices, guards } = useReads();
  const head = usePart('head');
  const { pressed } = words.screen;
  const width = (RIGHT - LEFT) / Math.max(1, stations.length);
  const middle = (id: string | undefined) => {
    const i = stations.findIndex((station) => station.id === id);
    return i < 0 ? undefined : LEFT + width * (i + 0.5);
  };
  const fault = head.kind === 'pressed' ? head.firstFault : undefined;
  const held = head.kind === 'pressed' ? head.press : undefined;
  return (
    <svg
      viewBox="0 0 1840 380"
      className="path"
      role="img"
      aria-label={[
        ...devices.map((one) => pressed.device(one.name, one.reads, one.uncertain)),
        ...guards.map((one) => pressed.guard(one.name, one.reads, one.uncertain)),
      ].join('; ')}
    >
      {fault && <FaultColumn x={middle(fault.station)} width={width} />}
      <Chain from={LEFT} to={1838} y={232} />
      {stations.map((station, i) => (
        <StationBare
          key={station.id}
          station={station}
          x={LEFT + width * (i + 0.5)}
          width={width}
          off={station.id === fault?.station}
          bold={
            station.id === fault?.station ||
            devices.some((device) => device.id === held?.device && device.station === station.id)
          }
        />
      ))}
      {guards.map((guard) => {
        const [from, to] = [
          (middle(guard.from) ?? LEFT) - width / 2 + 5,
          (middle(guard.to) ?? RIGHT) + width / 2 - 5,
        ];
        return (
          <GuardBox
            key={guard.id}
            text={pressed.guard(guard.name, guard.reads, guard.uncertain)}
            doubt={guard.uncertain || guard.reads === 'unknown'}
            open={guard.reads === 'open'}
            from={from}
            to={to}
            back={guard.side === 'back'}
          />
        );
      })}
      <Line x={0} y={22} size={24} max={156} bold>
        {pressed.devices}
      </Line>
      <Line x={0} y={48} size={22} max={156} tone="ink2">
        {pressed.backSide}
      </Line>
      <Line x={0} y={260} size={22} max={156} tone="ink2">
        {pressed.frontSide}
      </Line>
      {devices.map((device) => (
        <Device
          key={device.id}
          device={device}
          x={middle(device.station)}
          latched={device.reads === 'pressed'}
          station={stations.find((one) => one.id === device.station)?.name}
        />
      ))}
      {fault && held && (
        <Link
          from={middle(fault.station)}
          to={middle(devices.find((device) => device.id === held.device)?.station)}
          ms={fault.untilPress}
        />
      )}
    </svg>
  );
});

function FaultColumn({ x, width }: { readonly x: number | undefined; readonly width: number }) {
  if (x === undefined) return null;
  const half = width / 2;
  return (
    <g>
      <path
        d={`M${x - half} 58H${x + half}V300L${x + half - 10} 340H${x - half + 10}L${x - half} 300Z`}
        fill="var(--sheet)"
        stroke="var(--cut)"
        strokeWidth={2}
      />
      <path
        d={`M${x - half} 300H${x + half}L${x + half - 10} 340H${x - half + 10}Z`}
        fill="var(--abnormal)"
        stroke="var(--cut)"
        strokeWidth={2}
      />
      <Line x={x} y={328} size={24} max={width - 24} least={20} anchor="middle" tone="onAbnormal" bold>
        {words.screen.line.path.firstFault}
      </Line>
    </g>
  );
}

function StationBare({
  station,
  x,
  width,
  off,
  bold,
}: {
  readonly station: StationView;
  readonly x: number;
  readonly width: number;
  readonly off: boolean;
  readonly bold: boolean;
}) {
  const drawn = Math.min(140, width);
  return (
    <g>
      <Carton drawing={station.drawing} off={off} x={x - drawn / 2} y={50} width={drawn} />
      {balance(station.name, 22).map((part, i) => (
        <Line
          key={part}
          x={x}
          y={260 + i * 24}
          size={22}
          max={width - 6}
          least={20}
          anchor="middle"
          bold={bold}
        >
          {part}
        </Line>
      ))}
    </g>
  );
}

/** A doubtful input is dotted; an open one has no bottom edge. Nothing here is ever green. */
function GuardBox({
  text,
  doubt,
  open,
  from,
  to,
  back,
}: {
  readonly text: string;
  readonly doubt: boolean;
  readonly open: boolean;
  readonly from: number;
  readonly to: number;
  readonly back: boolean;
}) {
  const y = back ? 2 : 342;
  const x = (from + to) / 2;
  const half = Math.min(measure(text, 22), to - from - 12) / 2;
  return (
    <g>
      <path
        d={open ? `M${from} ${y + 38}V${y}H${to}V${y + 38}` : `M${from} ${y}H${to}V${y + 38}H${from}Z`}
        fill="var(--sheet)"
        stroke="var(--cut)"
        strokeWidth={2}
      />
      <Line x={x} y={y + 27} size={22} max={to - from - 12} least={20} anchor="middle" bold={open}>
        {text}
      </Line>
      {doubt && (
        <path
          d={`M${x - half} ${y + 33}H${x + half}`}
          stroke="var(--cut)"
          strokeWidth={3}
          strokeDasharray="1 6"
          strokeLinecap="round"
        />
      )}
    </g>
  );
}

function Device({
  device,
  x,
  latched,
  station,
}: {
  readonly device: DeviceView;
  readonly x: number | undefined;
  readonly latched: boolean;
  readonly station: string | undefined;
}) {
  if (latched) return <LatchedDevice name={device.name} x={x ?? LEFT + 126} back={device.side === 'back'} />;
  const doubt = device.reads === 'unknown' || device.uncertain;
  const short =
    station !== undefined && device.name.startsWith(`${station} `)
      ? device.name.slice(station.length + 1)
      : device.name;
  const lines = balance(words.screen.pressed.device(short, device.reads, device.uncertain), 22);
  const top = device.side === 'back' ? 0 : 304;
  const left = x === undefined ? LEFT - 8 : x - 80;
  return (
    <g>
      <g style={{ color: 'var(--ink)' }}>
        <Mark id={doubt ? 'd-button-dotted' : 'd-button-open'} size={36} x={left} y={top + 4} />
      </g>
      {lines.map((text, i) => (
        <Line
          key={text}
          x={left + 40}
          y={top + 19 + i * 24}
          size={22}
          max={x === undefined ? 300 : 120}
          least={20}
        >
          {text}
        </Line>
      ))}
    </g>
  );
}

/** Red only here: a device that reads pressed now, on the flap that hangs from the chain where it is. */
function LatchedDevice({
  name,
  x,
  back,
}: {
  readonly name: string;
  readonly x: number;
  readonly back: boolean;
}) {
  const top = back ? -6 : 300;
  const hang = `M${x - 126} ${top}H${x + 126}V${top + 54}Q${x + 126} ${top + 76} ${x + 108} ${top + 76}H${x - 108}Q${x - 126} ${top + 76} ${x - 126} ${top + 54}Z`;
  return (
    <g>
      <path d={hang} fill="var(--emergency)" stroke="var(--cut)" strokeWidth={3} />
      <path
        d={`M${x - 120} ${top}H${x + 120}`}
        stroke="var(--on-emergency)"
        strokeWidth={2}
        strokeDasharray="6 4"
      />
      <g style={{ color: 'var(--on-emergency)' }}>
        <Mark id="d-button" size={52} x={x - 110} y={top + 14} />
      </g>
      <Line x={x - 46} y={top + 34} size={26} max={166} least={20} bold tone="onEmergency">
        {name}
      </Line>
      <Line x={x - 46} y={top + 63} size={25} max={166} least={20} tone="onEmergency">
        {words.screen.pressed.latchedNow}
      </Line>
    </g>
  );
}

/** The arrow from the first fault to the device, with the seconds between. */
function Link({
  from,
  to,
  ms,
}: {
  readonly from: number | undefined;
  readonly to: number | undefined;
  readonly ms: number;
}) {
  if (from === undefined || to === undefined || ms <= 0) return null;
  const leftwards = to < from;
  const start = leftwards ? from - 72 : from + 72;
  const end = leftwards ? to + 132 : to - 132;
  if (leftwards ? end >= start : end <= start) return null;
  return (
    <g>
      <path d={`M${start} 322H${end}`} stroke="var(--cut)" strokeWidth={2.5} />
      <path d={`M${end} 322l${leftwards ? 14 : -14} -7v14z`} fill="var(--cut)" />
      <Line
        x={(start + end) / 2}
        y={352}
        size={22}
        anchor="middle"
        of={[['firstFaultAfter', words.screen.pressed.secondsOn(ms)]]}
        quiet
      >
        {words.screen.pressed.secondsOn(ms)}
      </Line>
    </g>
  );
}
