import { useState } from 'react';
import type { OrderView, PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { markOf } from '../blank/state.ts';
import { Carton } from '../marks/symbols.tsx';
import { useMoment, usePart } from '../store/use.tsx';
import { Line } from '../type/line.tsx';
import { lastEnded } from '../matters/ended.ts';
import { CrewPage } from './crew.tsx';
import { HandedPage } from './handed.tsx';
import { Ask, Key } from './key.tsx';
import { NumberPage } from './number.tsx';
import { PanelClock, PanelHead } from './panel-head.tsx';

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
  const ended = lastEnded(orders);
  const width = ended === undefined ? 400 : 296;
  const left = (place: number) => 24 + place * (width + 16);
  return (
    <>
      <FlowHead
        here={here}
        title={panel.orderEnds(plan.order, plan.shift?.to, clock, zone)}
        right={panel.tap(1)}
      />
      <Ask top={172}>{panel.whichOrder}</Ask>
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
            <small>{panel.quantityDue(order.quantity, order.due, zone)}</small>
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
      <Key
        says={panel.anotherNumber}
        left={left(0)}
        top={660}
        width={width}
        height={130}
        look="quiet"
        kind="another"
        onTap={() => turn({ kind: 'number' })}
      />
      <Key
        says={panel.crewOnly}
        left={left(1)}
        top={660}
        width={width}
        height={130}
        look="quiet"
        kind="crewonly"
        onTap={() => turn({ kind: 'crew', order: undefined })}
      />
      {ended !== undefined && (
        <Key
          says={panel.handedOver(ended.number)}
          left={left(2)}
          top={660}
          width={width}
          height={130}
          look="quiet"
          kind="handed"
          onTap={() => turn({ kind: 'handed', order: ended })}
        />
      )}
      <Key
        says={[panel.back, panel.nothingChanges]}
        left={left(ended === undefined ? 2 : 3)}
        top={660}
        width={width}
        height={130}
        look="quiet"
        kind="back"
        onTap={close}
      />
    </>
  );
}

/** A low head for pages that a person opened: what it is about, and how far along. */
export function FlowHead({
  here,
  title,
  right,
}: {
  readonly here: PositionView;
  readonly title: string;
  readonly right: string;
}) {
  const head = usePart('head');
  return (
    <PanelHead edges={[1080]} bottom={160} look="rest" mark={markOf(head)} position={here.name} said={title}>
      <PanelClock x={1168} />
      <Line x={120} y={128} size={40} max={940} least={26} bold>
        {title}
      </Line>
      <Line x={1168} y={126} size={30} max={168} least={26} anchor="middle" tone="ink2">
        {right}
      </Line>
    </PanelHead>
  );
}
