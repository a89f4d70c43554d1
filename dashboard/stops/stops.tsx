import type { PastOverview } from '../../model/past/overview.ts';
import type { StopsPast } from '../../model/past/stopsPast.ts';
import { words } from '../app/words.ts';
import { useAsked } from '../past/asked.ts';
import { type Chosen, periodOf, queryOf, useChosen } from '../past/chosen.ts';
import { Frame } from '../past/frame.tsx';
import { EntriesSheet } from '../entries/entriesSheet.tsx';
import { figuresSeen } from '../figures/period.ts';
import { seenNumbers } from '../past/numbers.ts';
import { ToMaintenance } from '../maintenance/toMaintenance.tsx';
import { usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { namesOf, StopChoices } from './choices.tsx';
import { Groups } from './groups.tsx';
import { leadNumbers } from './numbers.ts';
import { StopList } from './list.tsx';
import { Wanted } from './wanted.tsx';

const { past } = words.screen;
const said = past.stops;

/** How often a stretch that goes on until now is asked for again. */
const AGAIN_MS = 10_000;
/** Stops that the list has at first, and so many more each time. */
const SHOWN = 40;

/** Stops of any stretch of time: what took most, what nobody explained, and each of them with what it set off. */
export function Stops({ overview }: { readonly overview: PastOverview | undefined }) {
  const [chosen, choose] = useChosen();
  const path = usePath(overview, chosen);
  const asked = useAsked<StopsPast>(path?.('stops', Number(chosen.most ?? SHOWN)), AGAIN_MS);
  const stops = asked.data;
  const span =
    stops && overview ? past.period.span(stops.seen.from, stops.seen.to, overview.now, overview.zone) : '…';
  return (
    <Frame
      screen="stops"
      title={said.title(span, overview && namesOf(chosen, overview))}
      lead={stops ? said.lead(stops) : [past.asking, '']}
      of={stops && leadNumbers(stops)}
      seen={figuresSeen(stops?.seen, chosen)}
      actions={
        path && (
          <>
            <ToMaintenance />
            <a className="btn" href={path('stops.csv', undefined)} download>
              {said.export}
            </a>
          </>
        )
      }
      overview={overview}
      asked={asked}
    >
      {overview && (
        <StopChoices
          overview={overview}
          chosen={chosen}
          // another choice has another list, and in it no stop is open yet
          choose={(change) => choose({ ...change, stop: undefined, most: undefined })}
        />
      )}
      {stops && overview && stops.stops === 0 && (
        <section className="sheet">
          <p className="second">
            <Rich text={past.seen(stops.seen, overview.zone)} of={seenNumbers(stops.seen)} /> {said.none}
          </p>
        </section>
      )}
      {stops && overview && stops.stops > 0 && (
        <>
          <div className="stopsheets">
            <Groups stops={stops} zone={overview.zone} />
            <Wanted stops={stops} zone={overview.zone} again={asked.again} />
          </div>
          <StopList
            stops={stops}
            zone={overview.zone}
            again={asked.again}
            opened={chosen.stop}
            open={(stop) => choose({ stop })}
            more={() => choose({ most: String(Math.min(1000, stops.list.length + 2 * SHOWN)) })}
            stations={overview.stations}
          />
        </>
      )}
      {stops && overview && (
        <EntriesSheet overview={overview} period={periodOf(chosen.period ?? 'shift', overview)} />
      )}
    </Frame>
  );
}

/** Where the stops that are chosen are asked for, as the screen wants them or as a file. */
function usePath(overview: PastOverview | undefined, chosen: Chosen) {
  const { id } = usePart('line');
  if (!overview) return undefined;
  const { from, to } = periodOf(chosen.period ?? 'shift', overview);
  const { station, size, shift, order } = chosen;
  return (name: 'stops' | 'stops.csv', most: number | undefined) =>
    `/api/lines/${encodeURIComponent(id)}/past/${name}${queryOf({ from, to, station, size, shift, order, most })}`;
}
