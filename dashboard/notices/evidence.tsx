import type { StopsPast } from '../../model/past/stopsPast.ts';
import type { NoticeView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import { Mark } from '../marks/symbols.tsx';
import { useAsked } from '../past/asked.ts';
import { queryOf } from '../past/chosen.ts';
import { usePart } from '../store/use.tsx';

const said = words.screen.notices;
const AGAIN_MS = 15_000;
const SHOWN = 12;

/** The stops themselves, from the first that speaks for it on, each with the way to its moment. */
export function Evidence({ notice: { facts, station, ended } }: { readonly notice: NoticeView }) {
  const line = usePart('line');
  const from = facts.kind === 'stops' || facts.kind === 'stopsCounted' ? facts.from : undefined;
  const query =
    from !== undefined && station
      ? queryOf({ from, to: ended ? ended.at + 1 : undefined, station: station.id, most: SHOWN })
      : undefined;
  const { data } = useAsked<StopsPast>(
    query && `/api/lines/${encodeURIComponent(line.id)}/past/stops${query}`,
    AGAIN_MS,
  );
  if (!data || data.list.length === 0 || !station) return null;
  return (
    <>
      <h3>{said.evidence}</h3>
      <ol className="evidence">
        {data.list.toReversed().map(({ id, at, until, lasted, name }) => (
          <li key={id}>
            <Mark id="m-first" size={18} />
            <a href={`/stations/${encodeURIComponent(station.id)}${queryOf({ stop: id })}`}>
              {said.stopRow(said.exactly(at, line.zone), name, until === undefined ? undefined : lasted)}
            </a>
          </li>
        ))}
      </ol>
      {data.stops > data.list.length && (
        <p className="second">{said.moreStops(data.stops - data.list.length)}</p>
      )}
    </>
  );
}
