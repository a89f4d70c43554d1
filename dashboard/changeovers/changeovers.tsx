import { useEffect, useRef } from 'react';
import type { ChangeoversPast } from '../../model/past/changeoversPast.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import { words } from '../app/words.ts';
import { useAsked } from '../past/asked.ts';
import { type Chosen, periodOf, queryOf, useChosen } from '../past/chosen.ts';
import { Choice, PeriodChoice } from '../past/choose.tsx';
import { Frame } from '../past/frame.tsx';
import { figuresSeen } from '../figures/period.ts';
import { usePart } from '../store/use.tsx';
import { Changed } from './changed.tsx';
import { Curves } from './curves.tsx';
import { ChangeoverList } from './list.tsx';
import { leadNumbers } from './numbers.ts';
import { Parts } from './parts.tsx';
import { OpenedStrip } from './strip.tsx';

const { past } = words.screen;
const said = past.changeovers;

/** How often a stretch that goes on until now is asked for again. */
const AGAIN_MS = 10_000;
/** Changeovers that the list has at first, and so many more each time. */
const SHOWN = 12;
const MOST = 200;

/** Changeovers of any stretch of time, one of them opened beside the earlier ones of its pair. */
export function Changeovers({ overview }: { readonly overview: PastOverview | undefined }) {
  const [chosen, choose] = useChosen();
  const asked = useAsked<ChangeoversPast>(usePath(overview, chosen), AGAIN_MS);
  const changeovers = asked.data;
  const opened = changeovers?.opened;
  const sheet = useRef<HTMLDivElement>(null);
  const opening = useRef<string | undefined>(undefined);
  // who opened another one from the list stands before it, also with the keyboard
  useEffect(() => {
    if (opened === undefined || opening.current !== opened.changeover.id) return;
    opening.current = undefined;
    sheet.current?.focus();
  }, [opened]);
  return (
    <Frame
      screen="changeovers"
      title={said.title(opened, overview?.zone ?? 'UTC')}
      lead={changeovers ? said.lead(changeovers) : [past.asking, '']}
      of={changeovers && leadNumbers(changeovers)}
      seen={figuresSeen(changeovers?.seen)}
      overview={overview}
      asked={asked}
    >
      {overview && changeovers && opened && (
        <div ref={sheet} tabIndex={-1} className="openedchangeover">
          <OpenedStrip opened={opened} zone={overview.zone} />
          <div className="changeoversheets">
            <Curves opened={opened} zone={overview.zone} />
            <Parts opened={opened} />
          </div>
          <Changed opened={opened} zone={overview.zone} />
        </div>
      )}
      {overview && (
        <div className="choices">
          <PeriodChoice
            overview={overview}
            chosen={chosen.period ?? 'week'}
            choose={(period) => choose({ period, at: undefined })}
          />
          {changeovers && <Filter changeovers={changeovers} chosen={chosen} choose={choose} />}
        </div>
      )}
      {overview && changeovers && (
        <ChangeoverList
          changeovers={changeovers}
          zone={overview.zone}
          open={(at) => {
            opening.current = at;
            choose({ at });
          }}
          more={() => choose({ most: String(Math.min(MOST, changeovers.list.length + 2 * SHOWN)) })}
        />
      )}
    </Frame>
  );
}

/** By kind and by pair; another choice opens its newest. */
function Filter({
  changeovers,
  chosen,
  choose,
}: {
  readonly changeovers: ChangeoversPast;
  readonly chosen: Chosen;
  readonly choose: ReturnType<typeof useChosen>[1];
}) {
  const kinds = changeovers.kinds.map((id) => ({ id, said: said.kinds[id] }));
  return (
    <>
      <Choice
        label={said.kind}
        options={[{ id: undefined, said: said.allKinds }, ...kinds]}
        chosen={chosen.kind}
        choose={(kind) => choose({ kind, pair: undefined, at: undefined })}
      />
      {changeovers.pairs.length > 0 && (
        <label className="period noprint">
          <span className="unseen">{said.pair}</span>
          <select
            value={chosen.pair ?? ''}
            onChange={({ target }) =>
              choose({ pair: target.value || undefined, kind: undefined, at: undefined })
            }
          >
            <option value="">{said.allPairs}</option>
            {changeovers.pairs.map(({ id, from, to }) => (
              <option key={id} value={id}>
                {said.fromTo(from, to)}
              </option>
            ))}
          </select>
        </label>
      )}
    </>
  );
}

function usePath(overview: PastOverview | undefined, chosen: Chosen): string | undefined {
  const { id } = usePart('line');
  if (!overview) return undefined;
  const { from, to } = periodOf(chosen.period ?? 'week', overview);
  const { kind, pair, at } = chosen;
  return `/api/lines/${encodeURIComponent(id)}/past/changeovers${queryOf({ from, to, kind, pair, at, most: Number(chosen.most ?? SHOWN) })}`;
}
