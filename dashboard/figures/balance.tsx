import type { BalanceAnswer } from '../../model/past/balanceAnswer.ts';
import { words } from '../app/words.ts';
import { BalanceHistory } from './balanceHistory.tsx';
import { BalanceOrders } from './balanceOrders.tsx';
import { BalanceStrip } from './balanceStrip.tsx';

const said = words.screen.balance.screen;

/** Blanks and cartons of a stretch: what became of them, how the unaccounted came about, and orders as handed over. */
export function Balance({ answer, zone }: { readonly answer: BalanceAnswer; readonly zone: string }) {
  const { parts, counted } = answer;
  const [first, second] = said.lead(parts, counted);
  const unknown = said.unknown(answer, zone);
  return (
    <>
      <section className="sheet balance">
        <h2>{said.title}</h2>
        <p className="lead">
          <b>{first}</b> {second}
        </p>
        {parts && (
          <>
            <BalanceStrip parts={parts} zone={zone} />
            <p className="second">
              {said.takenOut(parts)} {parts.notSeen !== 0 && said.notSeen} {said.about}
            </p>
          </>
        )}
        {unknown !== undefined && <p className="second">{unknown}</p>}
      </section>
      {parts && (
        <div className="balancehalves">
          <BalanceHistory answer={answer} zone={zone} />
          <Changes answer={answer} zone={zone} />
        </div>
      )}
      <BalanceOrders orders={answer.orders} zone={zone} />
    </>
  );
}

function Changes({ answer, zone }: { readonly answer: BalanceAnswer; readonly zone: string }) {
  const { changes } = answer;
  return (
    <section className="sheet balancechanges">
      <h2>{said.changes.title}</h2>
      {changes.length === 0 ? (
        <p className="second">{said.changes.none}</p>
      ) : (
        <>
          <ol>
            {changes.map((change) => {
              const [many, when] = said.changes.said(change, zone);
              return (
                <li key={change.to}>
                  <b>{many}</b>
                  <span>
                    {when}; {said.changes.entered(change)}
                  </span>
                </li>
              );
            })}
          </ol>
          <p className="foot">{said.changes.about}</p>
        </>
      )}
    </section>
  );
}
