import type { Compared } from '../../model/past/compared/compared.ts';
import type { ComparedRow, RowValue } from '../../model/past/compared/rows.ts';
import { words } from '../app/words.ts';
import { Rich } from '../type/line.tsx';

const said = words.screen.past.replay.compared;
const { path } = words.screen.line;

/** [RP11] [RP12] Both numbers up to the moment looked at, and what their difference means. */
export function ComparedSheet({
  compared,
  names,
  zone,
}: {
  readonly compared: Compared | undefined;
  readonly names: { readonly here: string; readonly there: string };
  readonly zone: string;
}) {
  return (
    <section className="sheet comparedsheet">
      <h2>{said.table.title(names.there)}</h2>
      {compared ? <Table compared={compared} names={names} zone={zone} /> : <p>{said.waiting}</p>}
    </section>
  );
}

function Table({
  compared,
  names,
  zone,
}: {
  readonly compared: Compared;
  readonly names: { readonly here: string; readonly there: string };
  readonly zone: string;
}) {
  const { here } = compared;
  const isEmpty = here.window.to <= here.window.from;
  const told = [said.table.ended(compared, names, zone), said.table.sizes(compared, names)];
  return (
    <>
      {told.map((text) => text && <p key={text}>{text}</p>)}
      {isEmpty ? (
        <p>{said.table.nothing}</p>
      ) : (
        <table>
          <thead>
            <tr>
              <th scope="col">{said.table.upTo(compared, zone)}</th>
              <th scope="col" className="n">
                {names.here}
              </th>
              <th scope="col" className="n">
                {names.there}
              </th>
              <th scope="col">{said.table.means}</th>
            </tr>
          </thead>
          <tbody>
            {compared.rows.map((row) => (
              <Row
                key={`${row.kind} ${row.cause} ${row.stops} ${row.station?.id}`}
                row={row}
                compared={compared}
                names={names}
                zone={zone}
              />
            ))}
          </tbody>
        </table>
      )}
      <p className="foot">
        {said.table.level(compared)} {said.table.people}
      </p>
    </>
  );
}

function Row({
  row,
  compared,
  names,
  zone,
}: {
  readonly row: ComparedRow;
  readonly compared: Compared;
  readonly names: { readonly here: string; readonly there: string };
  readonly zone: string;
}) {
  return (
    <tr className={row.kind === 'lostTo' ? 'part' : ''}>
      <th scope="row">{said.row(row, (cause) => path.cause(cause))}</th>
      <Value row={row} value={row.here} />
      <Value row={row} value={row.there} />
      <td className="means">
        <Rich text={said.meaning(row, compared, names, zone)} />
      </td>
    </tr>
  );
}

function Value({ row: { kind }, value }: { readonly row: ComparedRow; readonly value: RowValue }) {
  const range = said.range(value);
  return (
    <td className="n">
      {said.value(kind, value)}
      {range && <small> {range}</small>}
    </td>
  );
}
