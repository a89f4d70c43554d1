import type { FigureId } from '../../model/figures/figures.ts';
import type { StationTold, WorseRow } from '../../model/past/worsePast.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { Rich } from '../type/line.tsx';

const { past } = words.screen;
const said = past.stations.normal;

/** Whether the station is worse than its own normal, one row a rule: seen, usual, and how often that is said falsely. */
export function OwnNormal({ one, zone }: { readonly one: StationTold; readonly zone: string }) {
  const { normal, judged } = one;
  if (!normal)
    return (
      <section className="sheet">
        <h2>{said.noTitle}</h2>
        <p>{said.none}</p>
      </section>
    );
  const { columns } = said;
  const [answer, rest] = said.answer(normal, judged);
  return (
    <section className="sheet ownnormal">
      <h2>{said.title(normal.size.name)}</h2>
      <p className="second">
        <Rich
          text={said.about(
            normal,
            past.when(normal.from, zone),
            past.when(normal.to, zone),
            normal.since === undefined ? undefined : past.when(normal.since, zone),
          )}
          of={[['earlierRuns', past.count(normal.earlierRuns)]]}
        />
      </p>
      <p className="says">
        <b>{answer}</b> {rest}
      </p>
      <table>
        <thead>
          <tr>
            <th scope="col">{columns.what}</th>
            <th scope="col">{columns.seen}</th>
            <th scope="col">{columns.usual}</th>
            <th scope="col">{columns.so}</th>
            <th scope="col">{columns.falsely}</th>
          </tr>
        </thead>
        <tbody>
          {normal.rules.map((row) => (
            <Row key={row.rule} row={row} judged={judged} zone={zone} />
          ))}
        </tbody>
      </table>
      <p className="foot">
        {normal.byHand && `${said.byHand} `}
        {said.found} {said.foot}
      </p>
    </section>
  );
}

const FIGURE_OF = {
  run: 'rejectsAgainstRuns',
  drift: 'rejectsDrift',
  stops: 'stopsAgainstRuns',
} as const satisfies Record<WorseRow['rule'], FigureId>;

function Row({
  row,
  judged,
  zone,
}: {
  readonly row: WorseRow;
  readonly judged: StationTold['judged'];
  readonly zone: string;
}) {
  const { columns } = said;
  const falsely = said.falsely(row);
  return (
    <tr>
      <th scope="row">
        <Figure of={FIGURE_OF[row.rule]}>{said.what(row.rule, judged)}</Figure>
      </th>
      <td data-label={columns.seen}>
        <span>
          <b>{said.seen(row, judged)}</b>
          <small>{said.since(row, past.when(row.since, zone))}</small>
        </span>
      </td>
      <td data-label={columns.usual}>
        <span>
          {said.usual(row)}
          <small>{said.limit(row)}</small>
        </span>
      </td>
      <td data-label={columns.so}>
        <span>
          <span className={row.outside ? 'offtab abnormal' : ''}>{said.so(row)}</span>
          <small>{row.tooThin ? said.thin(row) : said.seenFrom(row)}</small>
        </span>
      </td>
      <td data-label={columns.falsely}>
        <span>
          {falsely.rate}
          <small>{falsely.range}</small>
        </span>
      </td>
    </tr>
  );
}
