import { useState } from 'react';
import type { OrderView, PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { KeypadPage } from './keypad.tsx';

/** Longer numbers than this are a slip of the glove. */
const DIGITS_MOST = 12;

/** Another number, by keys; what is typed is checked against the list, and never changed silently. */
export function NumberPage({
  here,
  back,
  take,
}: {
  readonly here: PositionView;
  readonly back: () => void;
  readonly take: (order: OrderView) => void;
}) {
  const [digits, type] = useState('');
  const orders = usePart('orders');
  const { zone } = usePart('line');
  const { panel, line } = words.screen;
  const found = orders.find((order) => order.number === digits && order.state !== 'running');
  return (
    <KeypadPage
      here={here}
      title={panel.whichOrder}
      right={panel.tap(1)}
      asks={panel.number}
      digits={digits}
      most={DIGITS_MOST}
      type={type}
      typed={panel.typed(digits)}
      take={{
        says: panel.take,
        ready: found !== undefined,
        onTap: () => found && take(found),
      }}
      to={panel.toOrders}
      back={back}
    >
      {found === undefined ? (
        digits !== '' && panel.notListed(digits)
      ) : (
        <>
          <b>{panel.sizeBlend(found.size, found.blend)}</b>
          <br />
          <Rich
            text={panel.quantityDue(found.quantity, found.due, zone)}
            of={[['orderQuantity', line.count(found.quantity)]]}
          />
          ,{' '}
          <Rich
            text={panel.change(found.change, found.usual)}
            of={found.usual === undefined ? [] : [['usualChangeover', usualSaid(found.usual)]]}
          />
          {found.ended !== undefined && (
            <>
              <br />
              {panel.goesOn(found.ended, zone)}
            </>
          )}
        </>
      )}
    </KeypadPage>
  );
}

/** As the words of a kind of changeover have it: whole minutes without seconds. */
function usualSaid(ms: number): string {
  return words.screen.line.duration(ms).replace(/ 00 s$/, '');
}
