import { useState } from 'react';
import { words } from '../app/words.ts';
import { useEnter, usePart } from '../store/use.tsx';
import { Typed } from './answers.tsx';

/** Order, crew and a note, entered at a desk or on a phone as on a panel. */
export function OrderCrew() {
  const { page } = words.screen;
  const enter = useEnter();
  return (
    <section className="ordercrew">
      <h2>{page.orderAndCrew}</h2>
      <NextOrder />
      <Crew />
      <Typed label={`${page.note}: ${page.noteHint}`} keep={(said) => enter({ kind: 'note', words: said })} />
    </section>
  );
}

function NextOrder() {
  const orders = usePart('orders');
  const plan = usePart('plan');
  const { zone } = usePart('line');
  const enter = useEnter();
  const [number, choose] = useState('');
  const { page, panel } = words.screen;
  const open = orders.filter((order) => order.state === 'open' || order.state === 'next');
  const chosen = open.find((order) => order.number === number);
  if (open.length === 0) return <p className="quietline">{panel.noOrders}</p>;
  return (
    <form
      className="choose"
      onSubmit={(event) => {
        event.preventDefault();
        if (chosen === undefined) return;
        enter({
          kind: 'order',
          number: chosen.number,
          size: chosen.sizeId,
          blend: chosen.blend,
          quantity: chosen.quantity,
          starts: plan.order === undefined ? 'now' : 'whenEnded',
        });
        choose('');
      }}
    >
      <label>
        <span>{page.chooseOrder}</span>
        <select value={number} onChange={(event) => choose(event.target.value)}>
          <option value="">{panel.whichOrder}</option>
          {open.map((order) => (
            <option key={order.number} value={order.number}>
              {`${panel.chosen(order, order.size)}${order.due === undefined ? '' : `, ${words.screen.line.weekday(order.due, zone)}`}; ${panel.change(order.change, order.usual)}`}
            </option>
          ))}
        </select>
      </label>
      <button type="submit" className="btn plain" disabled={chosen === undefined}>
        {page.enter}
      </button>
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
