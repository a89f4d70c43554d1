import { useState } from 'react';
import type { OrderView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { useEnter, usePart } from '../store/use.tsx';
import { Typed } from './answers.tsx';
import { HandedOver } from './handed-over.tsx';
import { orderEntry } from './orderEntry.ts';
import { TakenOut } from './taken-out.tsx';

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
      <TakenOut />
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
              {optionOf(order, zone)}
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

/** An order in the list to choose from, with what it takes, and whether it was chosen already. */
function optionOf(order: OrderView, zone: string): string {
  const { panel, line } = words.screen;
  const due = order.due === undefined ? '' : `, ${line.weekday(order.due, zone)}`;
  const follows = order.state === 'next' ? `, ${panel.follows}` : '';
  return `${panel.chosen(order, order.size)}${due}; ${panel.change(order.change, order.usual)}${follows}`;
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
