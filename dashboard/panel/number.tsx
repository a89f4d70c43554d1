import { useState } from 'react';
import type { OrderView, PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { usePart } from '../store/use.tsx';
import { Ask, Key } from './key.tsx';
import { Keypad } from './keypad.tsx';
import { FlowHead } from './order.tsx';

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
  const { panel } = words.screen;
  const found = orders.find((order) => order.number === digits && order.state !== 'running');
  return (
    <>
      <FlowHead here={here} title={panel.whichOrder} right={panel.tap(1)} />
      <Ask top={172}>{panel.number}</Ask>
      <Keypad digits={digits} type={type} />
      <output className="typed">{panel.typed(digits)}</output>
      <p className="found" role="status">
        {found === undefined ? (
          digits !== '' && panel.notListed(digits)
        ) : (
          <>
            <b>{panel.sizeBlend(found.size, found.blend)}</b>
            <br />
            {panel.quantityDue(found.quantity, found.due, zone)}, {panel.change(found.change, found.usual)}
          </>
        )}
      </p>
      <Key
        says={panel.take}
        left={652}
        top={520}
        width={604}
        height={130}
        look="asks"
        kind="take"
        disabled={found === undefined}
        onTap={() => found && take(found)}
      />
      <Key
        says={[panel.back, panel.toOrders]}
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
