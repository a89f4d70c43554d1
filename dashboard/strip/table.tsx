import type { TrendSpan } from '../../model/view/trend.ts';
import { words } from '../app/words.ts';
import { usePart } from '../store/use.tsx';

/** The table behind the chart: what stopped, was not seen or was planned, in order. */
export function StripTable() {
  const trend = usePart('trend');
  const { stations } = usePart('path');
  const { zone } = usePart('line');
  const { strip, clock } = words.screen.line;
  const station = (number: number | undefined) => stations.find((one) => one.number === number)?.name ?? '';
  return (
    <table>
      <caption>{strip.table}</caption>
      <thead>
        <tr>
          <th scope="col">{strip.columns.from}</th>
          <th scope="col">{strip.columns.what}</th>
          <th scope="col">{strip.columns.where}</th>
          <th scope="col">{strip.columns.long}</th>
        </tr>
      </thead>
      <tbody>
        {trend.spans.map((span) => (
          <tr key={`${span.kind}${span.from}`}>
            <td>{clock(span.from, zone)}</td>
            <td>{whatOf(span)}</td>
            <td>{station(span.station)}</td>
            <td>{longOf(span)}</td>
          </tr>
        ))}
        {trend.presses.map((press) => (
          <tr key={press.id}>
            <td>{press.known === 'edge' ? clock(press.pressed, zone) : words.screen.pressed.notSeen}</td>
            <td>{strip.press(press)}</td>
            <td />
            <td />
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** What a span was, and why where that is known. */
export function whatOf(span: TrendSpan): string {
  const { strip } = words.screen.line;
  const kind = strip.span(span.kind);
  if (span.reason !== undefined)
    return span.kind === 'stopped' || span.kind === 'pause' ? span.reason : `${kind}, ${span.reason}`;
  return span.asks ? `${kind}, ${strip.noReason}` : kind;
}

export function longOf(span: TrendSpan): string {
  const { strip, duration } = words.screen.line;
  return span.to === undefined ? strip.open : duration(span.to - span.from);
}
