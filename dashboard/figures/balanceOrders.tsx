import type { BalanceAnswer } from '../../model/past/balanceAnswer.ts';
import { words } from '../app/words.ts';

const said = words.screen.balance.screen.orders;

/** Orders of the stretch, the newest first: what was counted of each, what was handed over, and the difference. */
export function BalanceOrders({
  orders: { list, further },
  zone,
}: {
  readonly orders: BalanceAnswer['orders'];
  readonly zone: string;
}) {
  const { columns } = said;
  const isRange = list.some(({ counted }) => counted.least !== counted.most);
  return (
    <section className="sheet balanceorders">
      <h2>{said.title}</h2>
      {list.length === 0 ? (
        <p className="second">{said.none}</p>
      ) : (
        <table>
          <thead>
            <tr>
              <th scope="col">{columns.order}</th>
              <th scope="col">{columns.ran}</th>
              <th scope="col" className="n">
                {columns.counted}
              </th>
              <th scope="col" className="n">
                {columns.handedOver}
              </th>
              <th scope="col" className="n">
                {columns.apart}
              </th>
            </tr>
          </thead>
          <tbody>
            {list.map((order) => (
              <tr key={`${order.number} ${order.from}`}>
                <td>
                  <b>{order.number}</b>
                  <small>{said.what(order)}</small>
                </td>
                <td>{said.ran(order, zone)}</td>
                <td className="n" data-says={columns.counted}>
                  {said.bounds(order.counted)}
                </td>
                <td
                  className={order.handedOver === undefined ? 'n none' : 'n'}
                  data-says={columns.handedOver}
                >
                  {order.handedOver !== undefined
                    ? words.count(order.handedOver)
                    : order.to === undefined
                      ? said.runs
                      : said.notEntered}
                </td>
                <td className="n" data-says={order.apart && columns.apart}>
                  {order.apart && <b>{said.apart(order.apart)}</b>}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {further > 0 && <p className="foot">{said.further(further)}</p>}
      {isRange && <p className="foot">{said.about}</p>}
    </section>
  );
}
