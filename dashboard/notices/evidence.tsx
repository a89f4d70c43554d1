import type { StopsPast } from '../../model/past/stopsPast.ts';
import type { NoticeView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import { Mark } from '../marks/symbols.tsx';
import { useAsked } from '../past/asked.ts';
import { queryOf } from '../past/chosen.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { SeeIt } from '../replay/seeIt.tsx';

const said = words.screen.notices;
const AGAIN_MS = 15_000;
const SHOWN = 12;

interface EvidenceRow {
  readonly id: string;
  readonly at: number;
  readonly until: number | undefined;
  readonly said: string;
}

/** The stops that speak for a notice, from the first on, in words, the newest first; and how many more there are. */
export function useEvidence({ facts, station, ended }: NoticeView): {
  readonly rows: readonly EvidenceRow[];
  readonly more: number;
} {
  const line = usePart('line');
  const { clock } = useMoment();
  const from = facts.kind === 'stops' || facts.kind === 'stopsCounted' ? facts.from : undefined;
  const query =
    from !== undefined && station
      ? queryOf({ from, to: ended ? ended.at + 1 : undefined, station: station.id, most: SHOWN })
      : undefined;
  const { data } = useAsked<StopsPast>(
    query && `/api/lines/${encodeURIComponent(line.id)}/past/stops${query}`,
    AGAIN_MS,
  );
  if (!data) return { rows: [], more: 0 };
  const rows = data.list.toReversed().map(({ id, at, until, lasted, name }) => ({
    ...{ id, at, until },
    said: said.stopRow(said.exactly(at, clock, line.zone), name, until === undefined ? undefined : lasted),
  }));
  return { rows, more: data.stops - data.list.length };
}

/** The stops themselves, each with the way to its moment. */
export function Evidence({ notice }: { readonly notice: NoticeView }) {
  const { rows, more } = useEvidence(notice);
  const { station } = notice;
  if (rows.length === 0 || !station) return null;
  return (
    <>
      <h3>{said.evidence}</h3>
      <ol className="evidence">
        {rows.map((row) => (
          <li key={row.id}>
            <Mark id="m-first" size={18} />
            <a href={`/stations/${encodeURIComponent(station.id)}${queryOf({ stop: row.id })}`}>{row.said}</a>{' '}
            <SeeIt at={row.at} until={row.until} station={station.id} named={row.said} />
          </li>
        ))}
      </ol>
      {more > 0 && <p className="second">{said.moreStops(more)}</p>}
    </>
  );
}
