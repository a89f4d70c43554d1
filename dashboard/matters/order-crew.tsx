import { useState } from 'react';
import { words } from '../app/words.ts';
import { useEnter, usePart } from '../store/use.tsx';
import { Typed } from './answers.tsx';
import { lastEnded } from './ended.ts';
import { orderEntry } from './orderEntry.ts';

/** Order, crew and a note, entered at a desk or on a phone as on a panel. */
export function OrderCrew() {
  const { page } = words.screen;
  const enter = useEnter();
  return (
    <section className="ordercrew">
      <h2>{page.orderAndCrew}</h2>
      <NextOrder />
      <Crew />
      <HandedOver />
      <Typed label={`${page.note}: ${page.noteHint}`} keep={(said) => enter({ kind: 'note', words: said })} />
    </section>
  );
}

function NextOrder() {
  const orders = usePart('orders');
  const plan = usePart('plan');
  const { zone } = usePart('line');
  const enter = useEnter();
  const [number, take] = useState('');
  const { page, panel } = words.screen;
  const open = orders.filter((order) => order.state === 'open' || order.state === 'next');
  const chosen = open.find((order) => order.number === number);
  if (open.length === 0) return <p className="quietline">{page.noOrders}</p>;
  const choose = (starts: 'now' | 'whenEnded') => {
    if (chosen === undefined) return;
    enter(orderEntry(chosen, starts));
    take('');
  };
  return (
    <form
      className="choose"
      onSubmit={(event) => {
        event.preventDefault();
        choose(plan.order === undefined ? 'now' : 'whenEnded');
      }}
    >
      <label>
        <span>{page.chooseOrder}</span>
        <select value={number} onChange={(event) => take(event.target.value)}>
          <option value="">{panel.whichOrder}</option>
          {open.map((order) => (
            <option key={order.number} value={order.number}>
              {`${panel.chosen(order, order.size)}${order.due === undefined ? '' : `, ${words.screen.line.weekday(order.due, zone)}`}; ${panel.change(order.change, order.usual)}`}
            </option>
          ))}
        </select>
      </label>
      <div className="keys">
        <button type="submit" className="btn plain" disabled={chosen === undefined}>
          {plan.order === undefined ? page.enter : page.follows}
        </button>
        {plan.order !== undefined && (
          <button
            type="button"
            className="btn plain"
            disabled={chosen === undefined}
            onClick={() => choose('now')}
          >
            {page.runsNow}
          </button>
        )}
      </div>
    </form>
  );
}

/** The count handed over of the order that ended last, and what it says beside ours. */
function HandedOver() {
  const order = lastEnded(usePart('orders'));
  const enter = useEnter();
  const [typed, type] = useState('');
  const { page, panel } = words.screen;
  if (order === undefined) return null;
  const cartons = /^\d{1,7}$/.test(typed.trim()) ? Number(typed.trim()) : undefined;
  return (
    <form
      className="choose"
      onSubmit={(event) => {
        event.preventDefault();
        if (cartons === undefined) return;
        enter({ kind: 'handedOver', order: order.number, cartons });
        type('');
      }}
    >
      <label>
        <span>{page.handedOver(order)}</span>
        <input inputMode="numeric" value={typed} onChange={(event) => type(event.target.value)} />
      </label>
      <button type="submit" className="btn plain" disabled={cartons === undefined}>
        {page.enter}
      </button>
      {order.apart !== undefined && (
        <p className="quietline">{page.handedOverSays(order, panel.apart(order.apart))}</p>
      )}
    </form>
  );
}

function Crew() {
  const crews = usePart('crews');
  const enter = useEnter();
  const { page, line, panel } = words.screen;
  return (
    <fieldset className="crews">
      <legend>{page.chooseCrew}</legend>
      {crews.map((crew) => (
        <button
          type="button"
          key={crew.people}
          className="btn plain"
          aria-pressed={crew.now}
          title={crew.note}
          onClick={() => enter({ kind: 'crew', people: crew.people })}
        >
          {crew.now ? `${line.count(crew.people)}, ${panel.asNow}` : line.count(crew.people)}
        </button>
      ))}
    </fieldset>
  );
}
