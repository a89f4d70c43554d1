import type { CrewView, OrderView, PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { Mark } from '../marks/symbols.tsx';
import { orderEntry } from '../matters/orderEntry.ts';
import { useEnter, usePart } from '../store/use.tsx';
import { Ask, BackKey, Key } from './key.tsx';
import { FlowHead } from './panel-head.tsx';

/** The second tap: how many load it, each crew with the target that it gives. It enters the order. */
export function CrewPage({
  here,
  order,
  back,
  done,
}: {
  readonly here: PositionView;
  readonly order: OrderView | undefined;
  readonly back: () => void;
  readonly done: () => void;
}) {
  const crews = usePart('crews');
  const plan = usePart('plan');
  const orders = usePart('orders');
  const enter = useEnter();
  const { panel } = words.screen;
  const running = plan.order ?? orders.find((one) => one.state === 'running');
  // an order that is to follow and is chosen once more begins now
  const begins = running === undefined || order?.state === 'next';
  const shown = crews.slice(0, 4);
  const width = (1232 - 16 * (shown.length - 1)) / Math.max(1, shown.length);
  const choose = (crew: CrewView) => {
    if (order === undefined) enter({ kind: 'crew', people: crew.people });
    else enter(orderEntry(order, begins ? 'now' : 'whenEnded', crew.people));
    done();
  };
  return (
    <>
      <FlowHead
        here={here}
        title={order === undefined ? panel.crewNow(running?.number) : panel.chosen(order, order.size)}
        of={order === undefined ? [] : [['orderQuantity', words.screen.line.count(order.quantity)]]}
        right={order === undefined ? '' : panel.tap(2)}
      />
      <Ask top={188}>{panel.howMany}</Ask>
      {shown.map((crew, i) => (
        <Key
          key={crew.people}
          says={[]}
          left={24 + i * (width + 16)}
          top={270}
          width={width}
          height={250}
          look="asks"
          kind="crew"
          onTap={() => choose(crew)}
        >
          <span className="people">{words.screen.line.count(crew.people)}</span>
          <span className="figures" aria-hidden="true">
            {Array.from({ length: Math.min(6, crew.people) }, (_, n) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: figures are a count
              <Mark key={n} id="m-person" size={44} />
            ))}
          </span>
          <small className="target">{panel.targetOf(targetOf(crew, order ?? running))}</small>
          <small>{crew.now ? panel.asNow : crew.note}</small>
        </Key>
      ))}
      <p className="told" style={{ top: 540 }}>
        {panel.enters(order?.number, running?.number, begins)}
      </p>
      <BackKey to={panel.toOrders} onTap={back} />
    </>
  );
}

function targetOf(crew: CrewView, order: OrderView | undefined): number | undefined {
  return order === undefined ? undefined : crew.targets[order.sizeId];
}
