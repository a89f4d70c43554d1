import type { AdjustmentNow } from '../../model/past/adjustmentsNow.ts';
import type { StationPast } from '../../model/past/stationPast.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { placeOn, Ruler } from '../setpoints/ruler.tsx';
import { Stands } from '../setpoints/scale.tsx';
import { usePart } from '../store/use.tsx';

const { past } = words.screen;
const said = past.stations.adjustments;

const KNOWN = ['sensor', 'typed', 'confirmed', 'silent'] as const;

/** The station's numbered adjustments as they read now, each on the part of its scale around the book's number. */
export function Adjustments({
  station,
  adjustments: { size, list },
  zone,
}: Pick<StationPast, 'adjustments'> & { readonly station: string; readonly zone: string }) {
  const outside = usePart('path').stations.some(({ id, rejects }) => id === station && rejects !== undefined);
  const { columns } = said;
  return (
    <section className="sheet adjustments">
      <h2>{said.title(size)}</h2>
      {list.length === 0 ? (
        <p>{said.none}</p>
      ) : (
        <>
          <Key />
          <table>
            <thead>
              <tr>
                <th scope="col">{columns.what}</th>
                <th scope="col" className="n">
                  <Figure of="adjustmentBook">{columns.book}</Figure>
                </th>
                <th scope="col" className="n">
                  <Figure of="adjustmentReading">{columns.now}</Figure>
                </th>
                <th scope="col" className="n">
                  <Figure of="adjustmentOff">{columns.off}</Figure>
                </th>
                <th scope="col">{columns.scale}</th>
              </tr>
            </thead>
            <tbody>
              {list.map((each) => (
                <Row key={each.number} one={each} zone={zone} outside={outside} />
              ))}
            </tbody>
          </table>
        </>
      )}
      <p className="foot">{said.foot}</p>
      <a className="btn plain noprint" href="/setpoints">
        {said.toBook}
      </a>
    </section>
  );
}

function Key() {
  return (
    <ul className="pastkey">
      <li>
        <svg width={10} height={18} aria-hidden="true">
          <line className="book1" x1={5} x2={5} y1={0} y2={18} />
        </svg>
        {said.key.book}
      </li>
      {KNOWN.map((known) => (
        <li key={known}>
          <svg width={16} height={14} aria-hidden="true">
            <Stands x={8} y={0} known={known} outside={false} />
          </svg>
          {said.key[known]}
        </li>
      ))}
    </ul>
  );
}

function Row({
  one,
  zone,
  outside,
}: {
  readonly one: AdjustmentNow;
  readonly zone: string;
  readonly outside: boolean;
}) {
  const off = one.off !== undefined && one.off !== 0;
  return (
    <tr>
      <th scope="row">
        <b>{one.number}</b> {one.name}
      </th>
      <td className="n big" data-label={said.columns.book}>
        {said.book(one)}
      </td>
      <td className="n now1">
        <span className={`big ${one.known}`}>{said.value(one)}</span>
        <small>{said.known(one, zone, past.when)}</small>
      </td>
      <td className="n off1" data-label={one.known === 'none' ? undefined : said.columns.off}>
        {one.known !== 'none' && (
          <span className={off ? (outside ? 'offtab abnormal' : 'offtab') : ''}>{said.off(one)}</span>
        )}
      </td>
      <td className="scale1">
        <Scale one={one} />
      </td>
    </tr>
  );
}

/** A small part of the scale on the machine: the book dashed, the reading as a triangle on it. */
function Scale({ one }: { readonly one: AdjustmentNow }) {
  const { scale, book, value, known } = one;
  const on = placeOn(scale);
  const place = (at: number) => `${on(at)}%`;
  return (
    <svg width="100%" height={52} role="img" aria-label={said.scaleSaid(one)}>
      <Ruler scale={scale} y={30} label={{ y: 51, size: 13 }} said={(at) => said.tick(at, one.unit)} />
      {book !== undefined && <line className="book1" x1={place(book)} x2={place(book)} y1={2} y2={30} />}
      {value !== undefined && <Stands x={place(value)} y={15} known={known} outside={false} />}
    </svg>
  );
}
