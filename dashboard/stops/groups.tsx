import type { StopGroup, StopRow, StopsPast } from '../../model/past/stopsPast.ts';
import { words } from '../app/words.ts';
import { Carton, Mark } from '../marks/symbols.tsx';
import { Figure } from '../figures/figure.tsx';
import { useChosen } from '../past/chosen.ts';
import { Choice } from '../past/choose.tsx';
import { seenNumbers } from '../past/numbers.ts';
import { Rich } from '../type/line.tsx';
import { groupNumbers, stoodOf } from './numbers.ts';

const { past } = words.screen;
const said = past.stops;

/** Marks drawn of one row; of more, how many more there are. */
const MARKS_MOST = 34;

/** What stopped the line: three lists that are never added into one bar. */
export function Groups({ stops, zone }: { readonly stops: StopsPast; readonly zone: string }) {
  const [chosen, choose] = useChosen();
  const byCount = chosen.by === 'count';
  const groups = (['own', 'outside', 'unknown'] as const).filter((name) => stops[name].stops > 0);
  const most = Math.max(1, ...groups.flatMap((name) => stops[name].rows.map(stoodOf)));
  return (
    <section className="sheet stopgroups">
      <div className="pastkey">
        <ul>
          <li>
            <i className="mark1" />{' '}
            <span>
              <Rich
                text={said.key.minor(stops.minorMinutes)}
                of={[['minorLimit', past.count(stops.minorMinutes)]]}
              />
            </span>
          </li>
          <li>
            <i className="mark1 long" /> {said.key.long}
          </li>
          <li>{said.key.one}</li>
          {groups.some((name) => stops[name].rows.some(({ ordinary }) => ordinary !== undefined)) && (
            <li>
              <i className="ordinary1" />{' '}
              <span>
                <Figure of="ordinaryStops">{said.key.ordinary}</Figure>
              </span>
            </li>
          )}
        </ul>
        <Choice
          label={said.order}
          options={[
            { id: undefined, said: said.byMinutes },
            { id: 'count', said: said.byCount },
          ]}
          chosen={chosen.by}
          choose={(by) => choose({ by })}
        />
      </div>
      {groups.map((name) => (
        <Group key={name} name={said.groups[name]} group={stops[name]} most={most} byCount={byCount} />
      ))}
      <p className="foot">
        <Rich text={past.seen(stops.seen, zone)} of={seenNumbers(stops.seen)} /> {said.foot}{' '}
        <Rich text={said.moved(stops.moved)} of={[['stops', past.count(stops.moved)]]} />
      </p>
    </section>
  );
}

function Group({
  name,
  group,
  most,
  byCount,
}: {
  readonly name: string;
  readonly group: StopGroup;
  readonly most: number;
  readonly byCount: boolean;
}) {
  const rows = byCount ? [...group.rows].sort((a, b) => countOf(b) - countOf(a)) : group.rows;
  return (
    <>
      <h2>
        {name}{' '}
        <span>
          <b>
            <Rich text={said.group(group)} of={groupNumbers(group)} />
          </b>
          <Rich text={said.groupLong(group)} of={groupNumbers(group).slice(2)} quiet />
        </span>
      </h2>
      <ul className="stoprows">
        {rows.map((row) => (
          <Row key={row.id} row={row} most={most} />
        ))}
      </ul>
    </>
  );
}

function Row({ row, most }: { readonly row: StopRow; readonly most: number }) {
  const { station, minor, long, ordinary } = row;
  const share = (ms: number) => `${(100 * Math.max(0, ms)) / most}%`;
  const unknown = row.kind === 'unknown' || said.name(row) === said.noReason;
  return (
    <li aria-label={said.rowSaid(row)}>
      {unknown ? (
        <Mark id="n-want" size={26} />
      ) : (
        <Carton drawing={station?.drawing ?? 'discharge'} width={30} className="small" />
      )}
      <div className="what">
        <b>{station ? past.station(station.number, station.name) : past.noStation}</b>
        <span>
          {said.name(row)}
          {row.moved && <small> {said.causeBy}</small>}
        </span>
      </div>
      <div className="marks1" aria-hidden="true">
        <Tally long={long.stops} minor={minor.stops} />
        <b>
          <Figure of="stops" quiet>
            {past.count(countOf(row))}
          </Figure>
        </b>
      </div>
      <div className="bar1" aria-hidden="true">
        {long.stood > 0 && <i className="long" style={{ width: share(long.stood) }} />}
        {minor.stood > 0 && <i style={{ width: share(minor.stood) }} />}
        {ordinary !== undefined && <u style={{ left: share(Math.min(most, ordinary)) }} />}
        <b>
          <Figure of="stood" quiet>
            {said.minutes(stoodOf(row))}
          </Figure>
        </b>
      </div>
    </li>
  );
}

/** One mark is one stop: solid is long, open is minor. */
function Tally({ long, minor }: { readonly long: number; readonly minor: number }) {
  const solid = Math.min(long, MARKS_MOST);
  const open = Math.min(minor, MARKS_MOST - solid);
  const marks = (from: number, to: number) =>
    Array.from({ length: to - from }, (_, n) => `M${(from + n) * 8 + 1} 1h5v16h-5z`).join('');
  return (
    <svg className="tally" width={(solid + open) * 8} height={18} aria-hidden="true">
      <path className="long" d={marks(0, solid)} />
      <path d={marks(solid, solid + open)} />
    </svg>
  );
}

function countOf({ minor, long }: StopRow): number {
  return minor.stops + long.stops;
}
