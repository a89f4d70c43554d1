import type { TrendSpan } from '../../model/view/trend.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import type { Numbered } from '../figures/pieces.ts';
import { usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { pressNumbers } from './rail.tsx';
import { SeeIt } from '../replay/seeIt.tsx';

/** The table behind the chart: what stopped, was not seen or was planned, and each press, in order of time. */
export function StripTable({ sees = false }: { readonly sees?: boolean }) {
  const trend = usePart('trend');
  const { stations } = usePart('path');
  const { zone } = usePart('line');
  const { strip, clock } = words.screen.line;
  const stationOf = (number: number | undefined) => stations.find((one) => one.number === number);
  const rows = [
    ...trend.spans.map((span) => ({
      key: `${span.kind}${span.from}`,
      ...{ at: span.from, until: span.to, station: stationOf(span.station)?.id },
      ...{ seen: true, time: clock(span.from, zone) },
      what: whatOf(span),
      where: stationOf(span.station)?.name ?? '',
      long: longOf(span),
      of: [] as readonly Numbered[],
    })),
    ...trend.presses.map((press) => ({
      key: press.id,
      ...{ at: press.pressed, until: press.restarted, station: undefined, seen: press.known === 'edge' },
      time: press.known === 'edge' ? clock(press.pressed, zone) : words.screen.pressed.notSeen,
      what: strip.press(press),
      where: '',
      long: '',
      of: pressNumbers(press),
    })),
  ].sort((one, other) => one.at - other.at);
  return (
    <table>
      <caption>{strip.table}</caption>
      <thead>
        <tr>
          <th scope="col">{strip.columns.from}</th>
          <th scope="col">{strip.columns.what}</th>
          <th scope="col">{strip.columns.where}</th>
          <th scope="col">
            <Figure of="stood">{strip.columns.long}</Figure>
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.key}>
            <td>
              {row.seen && sees ? (
                <SeeIt at={row.at} until={row.until} station={row.station}>
                  {row.time}
                </SeeIt>
              ) : (
                row.time
              )}
            </td>
            <td>
              <Rich text={row.what} of={row.of} quiet />
            </td>
            <td>{row.where}</td>
            <td>{row.long}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Reasons that say by themselves what kind of stop it was. */
const SAID_BY_REASON: readonly TrendSpan['kind'][] = ['stopped', 'pause', 'safety'];

/** What a span was, and why where that is known; nothing is said twice. */
export function whatOf(span: TrendSpan): string {
  const { strip } = words.screen.line;
  const kind = strip.span(span.kind);
  if (span.reason === undefined) return span.asks ? `${kind}, ${strip.noReason}` : kind;
  return SAID_BY_REASON.includes(span.kind) || span.reason === kind ? span.reason : `${kind}, ${span.reason}`;
}

export function longOf(span: TrendSpan): string {
  const { strip, duration } = words.screen.line;
  return span.to === undefined ? strip.open : duration(span.to - span.from);
}
