import { memo } from 'react';
import type { LossCause, LossPart, PathView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import type { Numbered } from '../figures/pieces.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { Mark } from '../marks/symbols.tsx';
import { Line } from '../type/line.tsx';
import { measure, wrap } from '../type/measure.ts';
import { LossBar, Swatch } from './bar.tsx';
import { Chain } from './chain.tsx';
import { keyPlaces, scaleOf } from './loss.ts';
import { causeCount, Column, Station } from './station.tsx';

const LEFT = 164;
const RIGHT = 1646;
/** What belongs to no one station: from here on, and its middle. */
const NONE_LEFT = 1662;
const NONE = (NONE_LEFT + 1840) / 2;

/** The carton's path: every station on the chain, cartons lost below it, and the sum with the key of patterns. */
export const Path = memo(function Path({ caution = false }: { readonly caution?: boolean }) {
  const path = usePart('path');
  const { planned, plannedSoFar, shift } = usePart('plan');
  const { lossPatterns } = usePart('line');
  const { sight } = useMoment();
  // whoever walks up to a line nobody sees may find it locked out, or starting
  const stopped = usePart('head').kind === 'stopped' || sight === 'lost' || sight === 'never';
  const width = (RIGHT - LEFT) / Math.max(1, path.stations.length);
  const largest = Math.max(0, ...path.stations.map((station) => station.lost));
  const perCarton = scaleOf([...path.stations.map((station) => station.lost), path.none.lost], planned, 123);
  const weight = (lost: number) =>
    lost > 0 && lost === largest ? 'first' : lost < path.total * 0.02 || lost === 0 ? 'little' : 'some';
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing is no fieldset
    <svg
      viewBox="0 0 1840 404"
      className={sight === 'live' ? 'path' : 'path stale'}
      role="group"
      aria-label={
        shift === undefined ? words.screen.line.path.noShift : words.screen.line.path.said(path.total)
      }
    >
      <Caption total={shift && path.total} jam={caution && stopped} />
      {path.stations.map((station, i) =>
        station.mark === 'none' ? null : (
          <Column key={station.id} x={LEFT + width * (i + 0.5)} width={width} />
        ),
      )}
      <Chain from={LEFT} to={RIGHT + 4} y={228} />
      <g>
        {path.stations.map((station, i) => (
          <Station
            key={station.id}
            station={station}
            x={LEFT + width * (i + 0.5)}
            width={width}
            perCarton={perCarton}
            weight={shift === undefined ? 'none' : weight(station.lost)}
          />
        ))}
      </g>
      {shift !== undefined && (
        <>
          <NoStation none={path.none} perCarton={perCarton} />
          <Sum path={path} same={path.possible === plannedSoFar} patterns={lossPatterns} />
        </>
      )}
    </svg>
  );
});

/** Title and sum; while it stands or is not seen, the caution beside the drawings of where hands might go. */
function Caption({ total, jam }: { readonly total: number | undefined; readonly jam: boolean }) {
  const { path, count } = words.screen.line;
  const [first = '', ...rest] = path.title.split(/ (?=\S+$)/);
  return (
    <>
      {[first, ...rest].map((part, i) => (
        <Line key={part} x={0} y={22 + i * 28} size={24} max={156} bold>
          {part}
        </Line>
      ))}
      {jam && <BesideCaution />}
      {(total === undefined ? path.noShiftShort : total < 0 ? path.more : path.lost).map((part, i) => (
        <Line key={part} x={0} y={232 + i * 26} size={22} max={150} tone="ink2">
          {part}
        </Line>
      ))}
      {total !== undefined && (
        <>
          <Line
            x={0}
            y={304}
            size={44}
            max={150}
            least={28}
            bold
            value
            of={[['lostByStation', count(Math.abs(total))]]}
          >
            {count(Math.abs(total))}
          </Line>
          <Line x={0} y={334} size={22} max={150} tone="ink2">
            {path.inAll}
          </Line>
        </>
      )}
    </>
  );
}

function BesideCaution() {
  return (
    <g>
      <Mark id="m-lock" size={30} x={0} y={62} />
      {wrap(words.screen.caution.beside, 158, 22).map((part, i) => (
        <Line key={part} x={i === 0 ? 38 : 0} y={86 + i * 24} size={22} max={i === 0 ? 120 : 158} least={20}>
          {part}
        </Line>
      ))}
    </g>
  );
}

/** What belongs to no one station, behind a score. */
function NoStation({ none, perCarton }: { readonly none: PathView['none']; readonly perCarton: number }) {
  const { path } = words.screen.line;
  const rows = folded(none.causes);
  const [first = '', second = ''] = path.noStation.split(/ (?=\S+$)/);
  return (
    <g>
      <path className="scoreline" d={`M${NONE_LEFT - 10} 0V352`} />
      <Line x={NONE} y={18} size={22} anchor="middle">
        {first}
      </Line>
      <Line x={NONE} y={42} size={22} anchor="middle">
        {second}
      </Line>
      {rows.map(({ name, figure }, i) => (
        <g key={name}>
          <Line
            x={NONE_LEFT}
            y={90 + i * 27}
            size={22}
            max={1840 - NONE_LEFT - measure(figure, 22) - 6}
            least={20}
          >
            {name}
          </Line>
          <Line
            x={1840}
            y={90 + i * 27}
            size={22}
            anchor="end"
            tone="ink2"
            value
            of={[['lostByCause', figure]]}
            quiet={i > 0}
          >
            {figure}
          </Line>
        </g>
      ))}
      <Line
        x={NONE}
        y={266}
        size={34}
        max={160}
        anchor="middle"
        value
        tone={none.lost === 0 ? 'ink2' : 'ink'}
        of={[['lostByStation', path.amount(none.lost)]]}
        quiet
      >
        {path.amount(none.lost)}
      </Line>
      <LossBar causes={none.causes} perCarton={perCarton} x={NONE} y={276} height={18} anchor="middle" />
    </g>
  );
}

/** At most five rows; what is beyond them is one row, so that they still add up. What was made up says so. */
function folded(causes: readonly LossPart[]): readonly { readonly name: string; readonly figure: string }[] {
  const { path, count } = words.screen.line;
  const rows = causes.map(({ cause, cartons }) => ({
    name: path.cause(cause, cartons),
    figure: causeCount(cause, cartons),
  }));
  if (rows.length <= 5) return rows;
  const rest = causes.slice(4).reduce((sum, { cartons }) => sum + cartons, 0);
  return [...rows.slice(0, 4), { name: path.others, figure: count(rest) }];
}

/** The three numbers of the sum; where nothing is planned but what is possible, that is the plan. */
export function sumNumbers(
  { total, possible, good }: Pick<PathView, 'total' | 'possible' | 'good'>,
  same: boolean,
): readonly Numbered[] {
  const { count } = words.screen.line;
  const whole: Numbered = [same ? 'planned' : 'possible', count(possible)];
  const made: Numbered = ['good', count(good)];
  return [['lost', count(Math.abs(total))], ...(total < 0 ? [made, whole] : [whole, made])];
}

/** No rounding and no rest: what was lost is what was possible less what is good. */
function Sum({
  path,
  same,
  patterns,
}: {
  readonly path: PathView;
  readonly same: boolean;
  readonly patterns: readonly LossCause[];
}) {
  const { line } = words.screen;
  const sum = line.path.sum(path.total, path.possible, path.good, same);
  return (
    <g>
      <path d="M0 376H1840" className="scoreline" />
      <Line x={0} y={402} size={22} max={900} value of={sumNumbers(path, same)}>
        {sum}
      </Line>
      {keyPlaces(patterns, { right: 1840, left: measure(sum, 22) + 40, size: 22 }).map(
        ({ cause, x, text }) => (
          <g key={cause}>
            <Line x={text} y={402} size={22} tone="ink2">
              {line.path.cause(cause)}
            </Line>
            <Swatch cause={cause} x={x} y={386} width={26} height={16} />
          </g>
        ),
      )}
    </g>
  );
}
