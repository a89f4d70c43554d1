import { useState } from 'react';
import type { OrderView, PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { Carton } from '../marks/symbols.tsx';
import { useMoment, usePart } from '../store/use.tsx';
import { lastEnded } from '../matters/ended.ts';
import { CrewPage } from './crew.tsx';
import { HandedPage } from './handed.tsx';
import { Ask, BackKey, Key } from './key.tsx';
import { NumberPage } from './number.tsx';
import { FlowHead } from './panel-head.tsx';

/** Rows of orders that find room; more are reached by their number. */
const ROWS = 3;

type Page =
  | { readonly kind: 'list' }
  | { readonly kind: 'number' }
  | { readonly kind: 'handed'; readonly order: OrderView }
  | { readonly kind: 'crew'; readonly order: OrderView | undefined };

/** An order is two taps: which one, and how many load it. */
export function OrderFlow({ here, close }: { readonly here: PositionView; readonly close: () => void }) {
  const [page, turn] = useState<Page>({ kind: 'list' });
  const list = () => turn({ kind: 'list' });
  switch (page.kind) {
    case 'list':
      return <ListPage here={here} turn={turn} close={close} />;
    case 'number':
      return <NumberPage here={here} back={list} take={(order) => turn({ kind: 'crew', order })} />;
    case 'handed':
      return <HandedPage here={here} order={page.order} back={list} done={close} />;
    case 'crew':
      return <CrewPage here={here} order={page.order} back={list} done={close} />;
  }
}

function ListPage({
  here,
  turn,
  close,
}: {
  readonly here: PositionView;
  readonly turn: (page: Page) => void;
  readonly close: () => void;
}) {
  const orders = usePart('orders');
  const plan = usePart('plan');
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const { panel } = words.screen;
  const open = orders.filter((order) => order.state === 'open' || order.state === 'next');
  return (
    <>
      <FlowHead
        here={here}
        title={panel.orderEnds(plan.order, plan.shift?.to, clock, zone)}
        of={plan.shift === undefined ? [] : [['untilShiftEnd', untilEnd(plan.shift.to - clock)]]}
        right={panel.tap(1)}
      />
      <Ask top={178}>{panel.whichOrder}</Ask>
      {open.slice(0, ROWS).map((order, i) => (
        <Key
          key={order.number}
          says={[]}
          left={24}
          top={246 + i * 138}
          width={1232}
          height={130}
          look="asks"
          kind="row"
          onTap={() => turn({ kind: 'crew', order })}
        >
          <Carton drawing={order.change === 'size' ? 'open' : 'tuck-cam'} width={84} className="bare plain" />
          <span className="number">{order.number}</span>
          <span className="what">
            {panel.sizeBlend(order.size, order.blend)}
            <small>
              {panel.quantityDue(order.quantity, order.due, zone)}
              {order.state === 'next' && `, ${panel.follows}`}
            </small>
          </span>
          <span className="change">{panel.change(order.change, order.usual)}</span>
        </Key>
      ))}
      {open.length === 0 && (
        <p className="told" style={{ top: 260 }}>
          {panel.noOrders}
        </p>
      )}
      {open.length > ROWS && <p className="more">{panel.moreOrders(open.length - ROWS)}</p>}
      <RowBelow turn={turn} close={close} />
    </>
  );
}

/** Whole minutes, as the title has them. */
function untilEnd(ms: number): string {
  const { minutes } = words.screen.line;
  return minutes(Math.max(0, Math.floor(ms / 60_000) * 60_000));
}

/** What may be wanted instead of an order of the list; a count handed over only where an order has ended. */
function RowBelow({ turn, close }: { readonly turn: (page: Page) => void; readonly close: () => void }) {
  const ended = lastEnded(usePart('orders'));
  const { panel } = words.screen;
  const keys: { readonly kind: string; readonly says: readonly string[]; readonly page: Page }[] = [
    { kind: 'another', says: panel.anotherNumber, page: { kind: 'number' } },
    { kind: 'crewonly', says: panel.crewOnly, page: { kind: 'crew', order: undefined } },
  ];
  if (ended !== undefined)
    keys.push({
      kind: 'handed',
      says: panel.handedOver(ended.number),
      page: { kind: 'handed', order: ended },
    });
  const width = (1232 - 16 * keys.length) / (keys.length + 1);
  return (
    <div className="below">
      {keys.map(({ kind, says, page }, i) => (
        <Key
          key={kind}
          says={says}
          left={24 + i * (width + 16)}
          top={660}
          width={width}
          height={130}
          look="quiet"
          kind={kind}
          onTap={() => turn(page)}
        />
      ))}
      <BackKey left={24 + keys.length * (width + 16)} width={width} onTap={close} />
    </div>
  );
}
