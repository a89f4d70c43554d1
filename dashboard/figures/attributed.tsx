import type { AttributedAnswer } from '../../model/past/attributedAnswer.ts';
import { words } from '../app/words.ts';
import { Carton } from '../marks/symbols.tsx';
import { Measured } from '../past/measured.tsx';
import { Figure } from './figure.tsx';

const { past } = words.screen;
const said = past.attributed;

const STRIP = 30;
/** A piece that is narrower has no number written on it. */
const WRITTEN = 22;

/** Each reason as a strip of its rejects, cut into what each station may have spoiled; what is nobody's is dashed. */
export function Attributed({ answer, zone }: { readonly answer: AttributedAnswer; readonly zone: string }) {
  const [first, second] = said.lead(answer);
  const most = Math.max(1, ...answer.reasons.map(({ rejects }) => rejects));
  return (
    <section className="sheet attributed">
      <h2>
        <Figure of="rejectsLaid">{said.title}</Figure>
      </h2>
      <p>
        <b>{first}</b> {second}
      </p>
      {answer.rejects !== undefined && answer.rejects > 0 && (
        <>
          <Measured className="reasons">
            {(width) => (
              <ol>
                {answer.reasons.map((reason) => (
                  <li key={reason.id}>
                    <p>
                      <b>{said.reason(reason.name, reason.rejects)}</b>
                    </p>
                    <Strip reason={reason} perCarton={(width - 4) / most} />
                  </li>
                ))}
              </ol>
            )}
          </Measured>
          <Stations answer={answer} />
        </>
      )}
      {answer.doubted.length > 0 && (
        <p>
          <b>{said.doubted(answer)}</b>
        </p>
      )}
      <p className="foot">
        {past.seen(answer.seen, zone)} {said.measured(answer.heldTo)} {said.charged}
      </p>
    </section>
  );
}

function Strip({
  reason,
  perCarton,
}: {
  readonly reason: AttributedAnswer['reasons'][number];
  readonly perCarton: number;
}) {
  const { stations, nobody, rejects } = reason;
  let at = 1;
  const pieces = stations.map(({ station, cartons }) => {
    const x = at;
    at += cartons * perCarton;
    return { station, cartons, x, width: at - x };
  });
  const label = [
    ...stations.map(({ station, cartons }) => said.piece(station.name, cartons, rejects)),
    said.nobodySaid(nobody),
  ].join('; ');
  return (
    <svg width={rejects * perCarton + 2} height={STRIP + 2} role="img" aria-label={label}>
      <rect className="nobody" x={at} y={1} width={nobody * perCarton} height={STRIP} />
      {pieces.map(({ station, cartons, x, width }) => (
        <g key={station.id}>
          <rect className="piece" x={x} y={1} width={width} height={STRIP}>
            <title>{said.piece(station.name, cartons, rejects)}</title>
          </rect>
          {width >= WRITTEN && (
            <text x={x + width / 2} y={STRIP / 2 + 6} textAnchor="middle">
              {station.number}
            </text>
          )}
        </g>
      ))}
    </svg>
  );
}

function Stations({ answer }: { readonly answer: AttributedAnswer }) {
  const { columns } = said;
  const shown = answer.stations.filter(({ cartons, charged }) => cartons >= 0.05 || charged > 0);
  return (
    <table>
      <caption className="unseen">{said.table}</caption>
      <thead>
        <tr>
          <th scope="col">{columns.station}</th>
          <th scope="col" className="n">
            <Figure of="rejectsLaid">{columns.laid}</Figure>
          </th>
          <th scope="col" className="n">
            <Figure of="rejected">{columns.charged}</Figure>
          </th>
          <th scope="col" className="n">
            {columns.apart}
          </th>
        </tr>
      </thead>
      <tbody>
        {shown.map(({ station, cartons, charged }) => (
          <tr key={station.id}>
            <th scope="row">
              <span className="where">
                <Carton drawing={station.drawing} width={24} className="small" />
                {past.station(station.number, station.name)}
              </span>
            </th>
            <td className="n">
              <b>{said.cartons(cartons)}</b>
            </td>
            <td className="n">{past.count(charged)}</td>
            <td className="n">{said.apart(cartons - charged)}</td>
          </tr>
        ))}
        <tr>
          <th scope="row">{said.nobody}</th>
          <td className="n">
            {answer.unattributed !== undefined && (
              <Figure of="unattributed">{said.cartons(answer.unattributed)}</Figure>
            )}
          </td>
          <td className="n" />
          <td className="n" />
        </tr>
      </tbody>
    </table>
  );
}
