import { useState } from 'react';
import type { OrderView, PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { useEnter } from '../store/use.tsx';
import { Ask, Key } from './key.tsx';
import { Keypad } from './keypad.tsx';
import { FlowHead } from './order.tsx';

/** Cartons of an order that nobody counts by more digits than this. */
const DIGITS_MOST = 7;

/** Cartons handed over at an order's end, by keys, beside what was counted as good. */
export function HandedPage({
  here,
  order,
  back,
  done,
}: {
  readonly here: PositionView;
  readonly order: OrderView;
  readonly back: () => void;
  readonly done: () => void;
}) {
  const [digits, type] = useState('');
  const enter = useEnter();
  const { panel, line } = words.screen;
  const cartons = Number(digits);
  return (
    <>
      <FlowHead here={here} title={panel.handedOf(order)} right="" />
      <Ask top={172}>{panel.howManyHanded}</Ask>
      <Keypad digits={digits} most={DIGITS_MOST} type={type} />
      <output className="typed">{digits === '' ? panel.noCount : line.count(cartons)}</output>
      <p className="found" role="status">
        {panel.counted(order.good)}
        <br />
        {digits !== '' && <b>{panel.apart(cartons - order.good)}</b>}
      </p>
      <Key
        says={panel.enterCount}
        left={652}
        top={520}
        width={604}
        height={130}
        look="asks"
        kind="take"
        disabled={digits === ''}
        onTap={() => {
          enter({ kind: 'handedOver', order: order.number, cartons });
          done();
        }}
      />
      <Key
        says={[panel.back, panel.nothingChanges]}
        left={652}
        top={657}
        width={604}
        height={130}
        look="quiet"
        kind="back"
        onTap={back}
      />
    </>
  );
}
