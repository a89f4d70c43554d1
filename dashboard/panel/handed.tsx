import { useState } from 'react';
import type { OrderView, PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { useEnter } from '../store/use.tsx';
import { KeypadPage } from './keypad.tsx';

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
    <KeypadPage
      here={here}
      title={panel.handedOf(order)}
      asks={panel.howManyHanded}
      digits={digits}
      most={DIGITS_MOST}
      type={type}
      typed={digits === '' ? panel.noCount : line.count(cartons)}
      take={{
        says: panel.enterCount,
        ready: digits !== '',
        onTap: () => {
          enter({ kind: 'handedOver', order: order.number, cartons });
          done();
        },
      }}
      back={back}
    >
      {panel.counted(order.good)}
      <br />
      {digits !== '' && <b>{panel.apart(cartons - order.good)}</b>}
    </KeypadPage>
  );
}
