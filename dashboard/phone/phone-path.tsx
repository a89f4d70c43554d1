import type { StationView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { Carton } from '../marks/symbols.tsx';
import { LossBar, Swatch } from '../path/bar.tsx';
import { causesSaid, scaleOf } from '../path/loss.ts';
import { sumNumbers } from '../path/path.tsx';
import { causeCount, causeNumbers, flapLines, flapNumbers } from '../path/station.tsx';
import { useMoment, usePart } from '../store/use.tsx';
import { Line, Rich } from '../type/line.tsx';
import { measure, plain } from '../type/measure.ts';

const WIDTH = 366;

/** All stations in one row; the one that loses most, or that holds the line, opens below. */
export function PhonePath() {
  const path = usePart('path');
  const { shift } = usePart('plan');
  const worst = worstOf(path.stations);
  const pitch = WIDTH / Math.max(1, path.stations.length);
  const { path: said, count } = words.screen.line;
  if (shift === undefined) return null;
  const { type, end } = rowOf(path.stations, pitch);
  return (
    <section className="phonepath">
      <p>
        <Rich text={said.lostThisShift(path.total)} of={[['lostByStation', count(Math.abs(path.total))]]} />
      </p>
      {/* biome-ignore lint/a11y/useSemanticElements: a drawing is no fieldset */}
      <svg viewBox={`0 0 ${WIDTH} ${end}`} role="group" aria-label={plain(said.lostThisShift(path.total))}>
        {path.stations.map((station, i) => {
          const x = pitch * (i + 0.5);
          const open = station.id === worst?.id;
          return (
            <g key={station.id}>
              {open && (
                <path
                  d={`M${x - 17.6} ${end}V4Q${x - 17.6} 0 ${x - 12.6} 0H${x + 12.6}Q${x + 17.6} 0 ${x + 17.6} 4V${end}`}
                  fill="var(--sheet)"
                  stroke="var(--cut)"
                  strokeWidth={2}
                />
              )}
              <Carton
                drawing={station.drawing}
                off={station.mark !== 'none'}
                className="small"
                x={x - 20}
                y={0}
                width={40}
              />
              <Line
                x={x}
                y={i % 2 === 1 ? end - 4 : 76}
                size={type}
                max={end > ROW ? 2 * pitch - 4 : pitch - 1}
                least={LEAST}
                anchor="middle"
                value
                bold={open}
                tone={station.lost < path.total * 0.02 ? 'ink2' : 'ink'}
                of={[['lostByStation', count(station.lost)]]}
                quiet
              >
                {count(station.lost)}
              </Line>
            </g>
          );
        })}
        <path d={`M0 56H${WIDTH - 8}`} stroke="var(--cut)" strokeWidth={2} />
        <path d={`M${WIDTH} 56l-9 -5v10z`} fill="var(--cut)" />
      </svg>
      {worst !== undefined && <Worst station={worst} />}
    </section>
  );
}

/** Smallest type on a phone, the type that is wanted, and how far down one row of numbers reaches. */
const LEAST = 14;
const TYPE = 16;
const ROW = 80;

/** The type of the numbers under the drawings; where they are too long for one row, every second one stands lower. */
export function rowOf(
  stations: readonly StationView[],
  pitch: number,
): { readonly type: number; readonly end: number } {
  const widest = (size: number) =>
    Math.max(0, ...stations.map(({ lost }) => measure(words.screen.line.count(lost), size, true)));
  if (widest(TYPE) <= pitch - 1) return { type: TYPE, end: ROW };
  return widest(LEAST) <= pitch - 1 ? { type: LEAST, end: ROW } : { type: LEAST, end: ROW + 18 };
}

function worstOf(stations: readonly StationView[]): StationView | undefined {
  const marked =
    stations.find((station) => station.mark === 'firstFault') ??
    stations.find((station) => station.mark === 'abnormal');
  if (marked !== undefined) return marked;
  const most = [...stations].sort((a, b) => b.lost - a.lost)[0];
  return most !== undefined && most.lost > 0 ? most : undefined;
}

function Worst({ station }: { readonly station: StationView }) {
  const { path, count } = words.screen.line;
  const perCarton = scaleOf([station.lost], 0, 238);
  return (
    <div className="hot">
      <Carton drawing={station.drawing} off={station.mark !== 'none'} width={88} />
      <div>
        <b>{station.name}</b>
        <p>
          <span className="n">
            <Figure of="lostByStation" quiet>
              {count(station.lost)}
            </Figure>
          </span>{' '}
          {path.lostWord}
        </p>
        <svg viewBox="0 0 244 18" className="hotbar" aria-hidden="true">
          <LossBar causes={station.causes} perCarton={perCarton} x={1} y={1} height={16} anchor="start" />
        </svg>
        <p className="causes">
          <Rich text={causesSaid(station.causes)} of={causeNumbers(station.causes)} quiet />
        </p>
        {station.mark !== 'none' && (
          <p className="tab">
            <Rich text={plain(flapLines(station).join(' '))} of={flapNumbers(station)} />
          </p>
        )}
      </div>
    </div>
  );
}

/** Every station in a row, what belongs to none, and the sum without a rest. */
export function PhoneRows() {
  const path = usePart('path');
  const plan = usePart('plan');
  const changeover = usePart('changeover');
  const { now } = useMoment();
  const { path: said, count, changeover: since, duration, roughly } = words.screen.line;
  const perCarton = scaleOf(
    [...path.stations.map((station) => station.lost), path.none.lost],
    plan.planned,
    100,
  );
  const start = changeover.atRate ?? changeover.firstGood ?? changeover.began;
  if (plan.shift === undefined) return null;
  return (
    <section className="rows">
      <h2>{said.byStation}</h2>
      <ul>
        {path.stations.map((station) => (
          <Row
            key={station.id}
            name={station.name}
            lost={station.lost}
            causes={station.causes}
            perCarton={perCarton}
            drawing={station.drawing}
            off={station.mark !== 'none'}
          />
        ))}
        <Row
          name={said.noStation}
          lost={path.none.lost}
          causes={path.none.causes}
          perCarton={perCarton}
          drawing={undefined}
          off={false}
        />
      </ul>
      <p className="sum">
        <span>
          <Rich
            text={said.sumParts(path.possible, path.good, path.possible === plan.plannedSoFar)}
            of={sumNumbers(path, path.possible === plan.plannedSoFar).slice(1)}
          />
        </span>
        <b>
          = {path.total < 0 ? said.more[0] : ''} <Figure of="lost">{count(Math.abs(path.total))}</Figure>
        </b>
      </p>
      <ul className="keyp">
        {path.causes.map(({ cause, cartons }, place) => (
          <li key={cause}>
            <svg width={22} height={13} aria-hidden="true">
              <Swatch cause={cause} x={1} y={1} width={20} height={11} />
            </svg>
            <span>
              {said.cause(cause, cartons)}{' '}
              <Figure of="lostByCause" quiet={place > 0}>
                {causeCount(cause, cartons)}
              </Figure>
            </span>
          </li>
        ))}
      </ul>
      <p className="since">
        <Rich
          text={since.line(start === undefined ? undefined : now - start, changeover.from, changeover.lasted)}
          of={[
            ...(start === undefined ? [] : [['sinceChangeover', duration(now - start)] as const]),
            ...(changeover.lasted === undefined
              ? []
              : [['changeoverTime', roughly(changeover.lasted)] as const]),
          ]}
        />
      </p>
    </section>
  );
}

function Row({
  name,
  lost,
  causes,
  perCarton,
  drawing,
  off,
}: {
  readonly name: string;
  readonly lost: number;
  readonly causes: StationView['causes'];
  readonly perCarton: number;
  readonly drawing: string | undefined;
  readonly off: boolean;
}) {
  return (
    <li>
      <span>
        {drawing !== undefined && <Carton drawing={drawing} off={off} className="small" width={34} />}
      </span>
      <span className={off ? 'name marked' : 'name'}>{name}</span>
      <svg viewBox="0 0 112 20" width={112} height={20} aria-hidden="true">
        <LossBar causes={causes} perCarton={perCarton} x={110} y={2} height={16} anchor="end" />
      </svg>
      <span className={off ? 'n marked' : 'n'}>
        <Figure of="lostByStation" quiet>
          {words.screen.line.path.amount(lost)}
        </Figure>
      </span>
    </li>
  );
}
