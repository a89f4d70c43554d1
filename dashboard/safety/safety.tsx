import type { PastOverview } from '../../model/past/overview.ts';
import type { SafetyPast } from '../../model/past/safetyPast.ts';
import { words } from '../app/words.ts';
import { Caution } from '../matters/caution.tsx';
import { useAsked } from '../past/asked.ts';
import { periodOf, queryOf, useChosen } from '../past/chosen.ts';
import { PeriodChoice } from '../past/choose.tsx';
import { Frame } from '../past/frame.tsx';
import { figuresSeen } from '../figures/period.ts';
import { usePart } from '../store/use.tsx';
import { Before } from './before.tsx';
import { Devices } from './devices.tsx';
import { leadNumbers } from './numbers.ts';
import { Places } from './places.tsx';
import { RanOnSheet } from './ran-on.tsx';
import { RecordTest } from './record-test.tsx';
import { Uses } from './uses.tsx';

const { past } = words.screen;
const said = past.safety;

/** How often a stretch that goes on until now is asked for again. */
const AGAIN_MS = 15_000;
/** Rows that a list has at first, and so many more each time. */
const SHOWN = 20;
const SHOWN_MOST = 1000;

/** What read open or pressed while the line ran; each device; from pressed to the first good carton. It shows, and ranks nothing. */
export function SafetyStops({ overview }: { readonly overview: PastOverview | undefined }) {
  const { id } = usePart('line');
  const [chosen, choose] = useChosen();
  const period = chosen.period ?? 'week';
  const span = overview && periodOf(period, overview);
  const most = Number(chosen.most ?? SHOWN);
  const path = (file: string, fields: Parameters<typeof queryOf>[0]) =>
    `/api/lines/${encodeURIComponent(id)}/past/${file}${queryOf({ ...span, ...fields })}`;
  const asked = useAsked<SafetyPast>(
    span && path('safety', { device: chosen.device, most: String(most) }),
    AGAIN_MS,
  );
  const safety = asked.data;
  const title =
    safety && overview
      ? past.period.span(safety.seen.from, safety.seen.to, overview.now, overview.zone)
      : '…';
  return (
    <Frame
      screen="safety-stops"
      title={said.title(title)}
      lead={safety ? said.lead(safety) : [past.asking, '']}
      of={safety && leadNumbers(safety)}
      seen={figuresSeen(safety?.seen)}
      actions={
        span && (
          <a className="btn" href={path('safety.csv', {})} download>
            {said.export}
          </a>
        )
      }
      overview={overview}
      asked={asked}
    >
      {overview && (
        <div className="choices">
          <PeriodChoice overview={overview} chosen={period} choose={(name) => choose({ period: name })} />
        </div>
      )}
      <Caution title={said.caution.title} text={said.caution.text} />
      {safety && overview && (
        <>
          <RanOnSheet safety={safety} zone={overview.zone} again={asked.again} />
          <Places safety={safety} stations={overview.stations} />
          <Devices safety={safety} zone={overview.zone} />
          <Uses
            safety={safety}
            zone={overview.zone}
            device={chosen.device}
            choose={(device) => choose({ device, most: undefined })}
            more={() => choose({ most: String(Math.min(SHOWN_MOST, safety.list.length + 2 * SHOWN)) })}
            again={asked.again}
          />
          <div className="halves safetyhalves">
            <Before safety={safety} />
            <RecordTest safety={safety} again={asked.again} />
          </div>
        </>
      )}
    </Frame>
  );
}
