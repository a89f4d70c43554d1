import { useMemo } from 'react';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { usePart } from '../store/use.tsx';
import { isStop, PHONE_STRIP, pips } from '../strip/scale.ts';
import { Strip, useStripTitle } from '../strip/strip.tsx';
import { longOf, whatOf } from '../strip/table.tsx';
import { useColumnBox } from '../strip/width.ts';
import { Rich } from '../type/line.tsx';
import { SeeIt } from '../replay/seeIt.tsx';

/** The strip, and under it every stop in a row that unfolds: those too short for a number are there too. */
export function PhoneStrip() {
  const trend = usePart('trend');
  const { stations } = usePart('path');
  const { zone } = usePart('line');
  const box = useColumnBox(PHONE_STRIP, 24, 616);
  const numbered = useMemo(() => pips(trend, box).length, [trend, box]);
  const stops = trend.spans.filter(isStop);
  const caused = trend.presses.filter((press) => press.role === 'caused').length;
  const { strip, clock, count } = words.screen.line;
  return (
    <section className="phonestrip">
      <h2 className="unseen">{useStripTitle()}</h2>
      <div className="stripfit">
        <Strip box={box} />
      </div>
      {trend.presses.length > 0 && (
        <p className="presses">
          <Rich
            text={strip.presses(caused, trend.presses.length - caused)}
            of={[
              ['causedStops', count(caused)],
              ['usedDuring', count(trend.presses.length - caused)],
            ]}
          />
        </p>
      )}
      {stops.length === 0 ? (
        <p className="nostops">{strip.noStops}</p>
      ) : (
        <details className="all">
          <summary>
            <span>
              <Rich text={strip.stops(stops.length, numbered)} />
            </span>
            <svg width="20" height="14" viewBox="0 0 20 14" aria-hidden="true">
              <path d="M3 3l7 7l7 -7" fill="none" stroke="currentColor" strokeWidth="2.4" />
            </svg>
          </summary>
          <ol>
            {[...stops].reverse().map((span, place) => (
              <li key={span.from}>
                <SeeIt
                  at={span.from}
                  until={span.to}
                  station={stations.find(({ number }) => number === span.station)?.id}
                >
                  {clock(span.from, zone)}
                </SeeIt>
                <span>
                  {span.station === undefined ? '' : `${span.station}, `}
                  {whatOf(span)}
                </span>
                <span>
                  <Figure of="stood" quiet={place > 0}>
                    {longOf(span)}
                  </Figure>
                </span>
              </li>
            ))}
          </ol>
        </details>
      )}
    </section>
  );
}
