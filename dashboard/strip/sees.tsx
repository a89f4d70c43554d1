import type { TrendView } from '../../model/view/trend.ts';
import { words } from '../app/words.ts';
import { SeeIt } from '../replay/seeIt.tsx';
import { usePart } from '../store/use.tsx';
import { type Pip, type StripBox, xOf } from './scale.ts';
import { whatOf } from './table.tsx';

/** What is pressed reaches so far to either side, and no nearer to its neighbour than half way. */
const REACH = 20;

/**
 * [RP20] Over the drawing, each numbered stop and each press as the way to see it happen. It is for a pointer: the table says the
 * same row by row, for the keyboard and for those who listen.
 */
export function StripSees({
  trend,
  box,
  pips,
}: {
  readonly trend: TrendView;
  readonly box: StripBox;
  readonly pips: readonly Pip[];
}) {
  const { stations } = usePart('path');
  const { zone } = usePart('line');
  const { strip, clock } = words.screen.line;
  const stops = reaching([...pips].sort((a, b) => a.x - b.x));
  const presses = reaching(
    trend.presses
      .filter((press) => press.known === 'edge' && press.pressed >= trend.from)
      .map((press) => ({ press, x: xOf(press.pressed, trend, box) })),
  );
  const top = box.top - 4 - box.pip.height;
  return (
    <div className="stripsees" aria-hidden="true">
      {stops.map(({ one: { span }, left, width }) => (
        <SeeIt
          key={span.from}
          className="onstrip"
          named={`${clock(span.from, zone)}, ${whatOf(span)}`}
          style={{ left, top, width, height: box.top + box.height - top }}
          at={span.from}
          until={span.to}
          station={stations.find(({ number }) => number === span.station)?.id}
          reached={false}
        />
      ))}
      {presses.map(({ one: { press }, left, width }) => (
        <SeeIt
          key={press.id}
          className="onstrip"
          named={strip.press(press)}
          style={{ left, top: box.rail - box.rope / 2, width, height: box.rope }}
          at={press.pressed}
          until={press.restarted}
          reached={false}
        />
      ))}
    </div>
  );
}

/** How far each may be pressed, from left to right. */
function reaching<One extends { readonly x: number }>(ordered: readonly One[]) {
  return ordered.map((one, place) => {
    const before = ordered[place - 1]?.x ?? Number.NEGATIVE_INFINITY;
    const after = ordered[place + 1]?.x ?? Number.POSITIVE_INFINITY;
    const left = Math.max(one.x - REACH, (one.x + before) / 2);
    return { one, left, width: Math.min(one.x + REACH, (one.x + after) / 2) - left };
  });
}
