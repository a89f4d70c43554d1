import { useState } from 'react';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { Ask, BackKey, Key } from '../panel/key.tsx';
import { FlowHead } from '../panel/panel-head.tsx';
import { useEnter, usePart } from '../store/use.tsx';
import { send } from './session.ts';

const said = words.screen.people.panel;
const { methods } = words.screen.past.safety.test;

/** Keys on a page of devices, in two columns. */
const KEYS = 6;

interface Device {
  readonly id: string;
  readonly name: string;
  /** Ways in which it can have been tested. */
  readonly ways: readonly string[];
}

/** A test of a stop device or guard as a person did it: which one, then how. */
export function PanelTest({
  here,
  number,
  close,
}: {
  readonly here: PositionView;
  readonly number: string;
  readonly close: () => void;
}) {
  const [device, choose] = useState<Device>();
  const [last, sent] = useState<string>();
  const enter = useEnter();
  if (device === undefined)
    return <DevicePage here={here} number={number} last={last} choose={choose} close={close} />;
  return (
    <>
      <FlowHead here={here} title={device.name} right={words.screen.panel.tap(2)} />
      <Ask top={178}>{said.how}</Ask>
      {device.ways.map((way, i) => (
        <Key
          key={way}
          says={[way]}
          left={24}
          top={246 + i * 138}
          width={1232}
          height={130}
          look="asks"
          kind="way"
          onTap={() => {
            enter({ kind: 'tested', device: device.id, method: way, person: number });
            sent(device.name);
            choose(undefined);
          }}
        />
      ))}
      <BackKey to={said.toDevices} left={652} onTap={() => choose(undefined)} />
    </>
  );
}

function DevicePage({
  here,
  number,
  last,
  choose,
  close,
}: {
  readonly here: PositionView;
  readonly number: string;
  readonly last: string | undefined;
  readonly choose: (device: Device) => void;
  readonly close: () => void;
}) {
  const devices = useDevices();
  const [from, turn] = useState(0);
  const isLong = devices.length > KEYS;
  const shown = devices.slice(from, from + (isLong ? KEYS - 1 : KEYS));
  const more = () => turn(from + shown.length < devices.length ? from + shown.length : 0);
  const leave = () => {
    void send('DELETE', '/api/session');
    close();
  };
  return (
    <>
      <FlowHead here={here} title={said.tests(number)} right={words.screen.panel.tap(1)} />
      <Ask top={178}>{said.whichDevice(last)}</Ask>
      {shown.map((device, i) => (
        <Key
          key={device.id}
          says={[device.name]}
          {...placeOf(i)}
          look="asks"
          kind="device"
          onTap={() => choose(device)}
        />
      ))}
      {isLong && <Key says={said.more} {...placeOf(KEYS - 1)} kind="more" onTap={more} />}
      <Key
        says={said.logOut}
        left={24}
        top={660}
        width={604}
        height={130}
        look="quiet"
        kind="logout"
        onTap={leave}
      />
      <BackKey left={652} onTap={close} />
    </>
  );
}

function placeOf(i: number) {
  return { left: 24 + (i % 2) * 628, top: 246 + Math.floor(i / 2) * 138, width: 604, height: 130 };
}

/** Those of the line's file: first the stop devices, then the guards. */
function useDevices(): readonly Device[] {
  const { devices, guards } = usePart('devices');
  const [pressed, pressedRunning, opened, openedRunning, procedure] = methods;
  return [
    ...devices.map(({ id, name }) => ({ id, name, ways: [pressed, pressedRunning, procedure] })),
    ...guards.map(({ id, name }) => ({ id, name, ways: [opened, openedRunning, procedure] })),
  ];
}
