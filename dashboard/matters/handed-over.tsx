import { useState } from 'react';
import { handedDoubtful } from '../../model/entries/handedDoubt.ts';
import type { OrderView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { useEnter, usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { lastEnded } from './ended.ts';

/** The count handed over of the order that ended last, and what it says beside ours. A doubtful one is asked about. */
export function HandedOver() {
  const order = lastEnded(usePart('orders'));
  const enter = useEnter();
  const [typed, type] = useState('');
  const [doubted, doubt] = useState<number>();
  const { page, panel, line } = words.screen;
  if (order === undefined) return null;
  const cartons = /^\d{1,7}$/.test(typed.trim()) ? Number(typed.trim()) : undefined;
  const keep = (count: number) => {
    enter({ kind: 'handedOver', order: order.number, cartons: count });
    type('');
    doubt(undefined);
  };
  return (
    <form
      className="choose"
      onSubmit={(event) => {
        event.preventDefault();
        if (cartons === undefined) return;
        if (handedDoubtful(cartons, order.good)) doubt(cartons);
        else keep(cartons);
      }}
    >
      <label>
        <span>{page.handedOver(order)}</span>
        <input
          inputMode="numeric"
          value={typed}
          onChange={(event) => {
            type(event.target.value);
            doubt(undefined);
          }}
        />
      </label>
      <button type="submit" className="btn plain" disabled={cartons === undefined || doubted !== undefined}>
        {page.enter}
      </button>
      {doubted !== undefined && <Doubt order={order} cartons={doubted} keep={keep} />}
      {order.apart !== undefined && (
        <p className="quietline">
          <Rich
            text={page.handedOverSays(order, panel.apart(order.apart))}
            of={[
              ['orderGood', line.count(order.good)],
              ['handedOver', line.count(order.handedOver ?? 0)],
              ['handedOverDifference', line.count(Math.abs(order.apart))],
            ]}
          />
        </p>
      )}
    </form>
  );
}

/** A count that looks like a slip is asked about in words, and is never changed silently. */
function Doubt({
  order,
  cartons,
  keep,
}: {
  readonly order: OrderView;
  readonly cartons: number;
  readonly keep: (cartons: number) => void;
}) {
  const { panel, line } = words.screen;
  return (
    <div className="doubt">
      <p role="status">
        {panel.doubtCount(cartons)}{' '}
        <Rich text={panel.counted(order.good)} of={[['orderGood', line.count(order.good)]]} />:{' '}
        <Rich
          text={panel.apart(cartons - order.good)}
          of={[['handedOverDifference', line.count(Math.abs(cartons - order.good))]]}
        />
        .
      </p>
      <div className="keys">
        <button type="button" className="btn plain" onClick={() => keep(order.good)}>
          {panel.asCounted(order.good).join(', ')}
        </button>
        <button type="button" className="btn plain" onClick={() => keep(cartons)}>
          {panel.asTyped(cartons).join(', ')}
        </button>
      </div>
    </div>
  );
}
