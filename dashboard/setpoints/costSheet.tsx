import type { SetPointRow } from '../../model/past/setPointsPast.ts';
import { type CostAgainst, costAgainst } from '../../model/setpoints/costAgainst.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { Measured } from '../past/measured.tsx';
import { CostChart } from './costChart.tsx';

const said = words.screen.past.setPoints;
const { cost } = said.one;

/** What another number costs: drawn, in a sentence, and as a table. */
export function CostSheet({ row }: { readonly row: SetPointRow }) {
  const points = row.learned ? costAgainst(row.learned) : [];
  if (points.length === 0)
    return (
      <section className="sheet cost1">
        <h2>{cost.title}</h2>
        <p>{cost.none}</p>
      </section>
    );
  return (
    <section className="sheet cost1">
      <h2>{cost.title}</h2>
      <figure aria-label={`${cost.lost}. ${cost.said(row, points)}`}>
        <Measured className="costchart">{(width) => <CostChart row={row} width={width} />}</Measured>
      </figure>
      <p className="foot">{cost.foot}</p>
      <details>
        <summary>{cost.table}</summary>
        <CostTable row={row} points={points} />
      </details>
    </section>
  );
}

function CostTable({ row, points }: { readonly row: SetPointRow; readonly points: readonly CostAgainst[] }) {
  const { columns } = cost;
  const marks = row.learned?.marks ?? [];
  const runsAt = (at: number) =>
    marks.find((mark) => said.number(mark.at, row) === said.number(at, row))?.runs;
  return (
    <table>
      <caption className="unseen">{cost.title}</caption>
      <thead>
        <tr>
          <th scope="col" className="n">
            {columns.at}
          </th>
          <th scope="col" className="n">
            <Figure of="setPointCost">{columns.lost}</Figure>
          </th>
          <th scope="col" className="n">
            <Figure of="setPointRejects">{columns.rejects}</Figure>
          </th>
          <th scope="col" className="n">
            <Figure of="setPointRejects">{columns.interval}</Figure>
          </th>
          <th scope="col" className="n">
            <Figure of="setPointRunStops">{columns.stops}</Figure>
          </th>
          <th scope="col" className="n">
            <Figure of="setPointRuns">{columns.tried}</Figure>
          </th>
        </tr>
      </thead>
      <tbody>
        {points.map(({ at, more, rejectsPerThousand, low, high, stopsPerThousand }) => (
          <tr key={at}>
            <td className="n">{said.number(at, row)}</td>
            <td className="n">{cost.moreSaid(more)}</td>
            <td className="n">{cost.rejectsSaid(rejectsPerThousand)}</td>
            <td className="n">{cost.interval(low, high)}</td>
            <td className="n">{cost.stopsSaid(stopsPerThousand)}</td>
            <td className="n">{runsAt(at) ?? cost.notTried}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
