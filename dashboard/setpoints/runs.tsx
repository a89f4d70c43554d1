import { useState } from 'react';
import type { SetPointOpened, SetPointRow, SetPointRun } from '../../model/past/setPointsPast.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { usePart } from '../store/use.tsx';

const { past } = words.screen;
const { runs: said } = past.setPoints.one;

/** Runs that the list has at first. */
const SHOWN = 12;

/** Where it stood in each run, how that is known, and what came of it. */
export function RunByRun({ opened }: { readonly opened: SetPointOpened }) {
  const [all, showAll] = useState(false);
  const { runs, row } = opened;
  if (runs.length === 0)
    return (
      <section className="sheet">
        <h2>{said.title}</h2>
        <p>{said.none}</p>
      </section>
    );
  return (
    <section className="sheet runbyrun">
      <h2>{said.title}</h2>
      <table>
        <Head />
        <tbody>
          {(all ? runs : runs.slice(0, SHOWN)).map((run) => (
            <Run key={`${run.from} ${run.to}`} run={run} row={row} />
          ))}
        </tbody>
      </table>
      {!all && runs.length > SHOWN && (
        <button type="button" className="btn plain noprint" onClick={() => showAll(true)}>
          {said.more(runs.length)}
        </button>
      )}
      <p className="foot">{said.foot}</p>
    </section>
  );
}

function Head() {
  const { columns } = said;
  return (
    <thead>
      <tr>
        <th scope="col">{columns.from}</th>
        <th scope="col" className="n">
          <Figure of="adjustmentReading">{columns.value}</Figure>
        </th>
        <th scope="col">{columns.known}</th>
        <th scope="col">{columns.lot}</th>
        <th scope="col">{columns.parts}</th>
        <th scope="col" className="n">
          <Figure of="setPointCartons">{columns.cartons}</Figure>
        </th>
        <th scope="col" className="n">
          <Figure of="setPointRejects">{columns.rejects}</Figure>
        </th>
        <th scope="col" className="n">
          <Figure of="setPointRunStops">{columns.stops}</Figure>
        </th>
      </tr>
    </thead>
  );
}

function Run({ run, row }: { readonly run: SetPointRun; readonly row: SetPointRow }) {
  const { zone } = usePart('line');
  const { columns } = said;
  return (
    <tr>
      <td className="began1">{said.from(run, zone)}</td>
      <td className="n" data-label={columns.value}>
        <b>{said.value(run, row)}</b>
      </td>
      <td>
        {said.known(run, row)} <small>{said.datum(run, row)}</small>
      </td>
      <td className="named1" data-label={columns.lot}>
        {said.name(run.lot)}
      </td>
      <td className="named1" data-label={columns.parts}>
        {said.name(run.parts)}
      </td>
      <td className="n" data-label={columns.cartons}>
        {past.count(run.cartons)}
      </td>
      <td className="n" data-label={columns.rejects}>
        {said.rejects(run.rejectsPerThousand)}
      </td>
      <td className="n" data-label={columns.stops}>
        {past.count(run.stops)}
      </td>
    </tr>
  );
}
