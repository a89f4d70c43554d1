import type { ChangedNumber, ChangeoverNumbers } from '../../model/past/changeoverNumbers.ts';
import type { OpenedChangeover } from '../../model/past/changeoverOpened.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';

const said = words.screen.past.changeovers.changed;

/** What was changed: numbers that did not go to the book in one move, each in a row; those that did are only numbers. */
export function Changed({ opened, zone }: { readonly opened: OpenedChangeover; readonly zone: string }) {
  const { numbers } = opened;
  const all = numbers.told.length + numbers.toBook.length + numbers.same.length + numbers.unknown.length;
  if (all === 0) return null;
  return (
    <section className="sheet changednumbers" aria-labelledby="changednumbers">
      <h2 id="changednumbers">{said.title}</h2>
      <p className="second">{said.lead(numbers)}</p>
      {numbers.told.length > 0 && <Told rows={numbers.told} zone={zone} />}
      <ToBook numbers={numbers} />
      <p className="foot">{said.rest(numbers)}</p>
    </section>
  );
}

function Told({ rows, zone }: { readonly rows: readonly ChangedNumber[]; readonly zone: string }) {
  const { columns } = said;
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">{columns.what}</th>
          <th scope="col" className="n">
            <Figure of="adjustmentReading">{columns.was}</Figure>
          </th>
          <th scope="col" className="n">
            <Figure of="adjustmentBook">{columns.book}</Figure>
          </th>
          <th scope="col" className="n">
            <Figure of="adjustmentReading">{columns.stood}</Figure>
          </th>
          <th scope="col" className="n">
            <Figure of="adjustmentOff">{columns.off}</Figure>
          </th>
          <th scope="col">{columns.moved}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((one) => (
          <tr key={one.number}>
            <th scope="row">
              <b>{one.number}</b> {one.name}
            </th>
            <td className="n ink2" data-label={columns.was}>
              {said.value(one.was, one)}
            </td>
            <td className="n" data-label={columns.book}>
              {said.value(one.book, one)}
            </td>
            <td className="n" data-label={columns.stood}>
              <b>{said.value(one.stood, one)}</b>
            </td>
            <td className="n" data-label={columns.off}>
              {one.off !== undefined && one.off !== 0 && <span className="offtab">{said.off(one)}</span>}
            </td>
            <td data-label={columns.moved}>{said.moves(one, zone)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function ToBook({ numbers: { toBook } }: { readonly numbers: ChangeoverNumbers }) {
  if (toBook.length === 0) return null;
  return (
    <>
      <h3>
        <Figure of="adjustmentBook">{said.toBook(toBook.length)}</Figure>
      </h3>
      <ul className="tobook">
        {toBook.map((one) => (
          <li key={one.number} title={one.name}>
            {one.number} <b>{said.value(one.stood, one)}</b>
          </li>
        ))}
      </ul>
    </>
  );
}
