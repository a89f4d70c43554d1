import { useMemo } from 'react';
import type { PastOverview } from '../../model/past/overview.ts';
import { type ServerReading, serverPanels } from '../../model/past/serverPanels.ts';
import {
  type SignalChoice,
  type SignalMeaning,
  type SignalReading,
  type SignalSheets,
  signalSheets,
} from '../../model/past/signalSheets.ts';
import { words } from '../app/words.ts';
import { ExportForm } from '../export/exportForm.tsx';
import { useAsked } from '../past/asked.ts';
import { useChosen } from '../past/chosen.ts';
import { Choice } from '../past/choose.tsx';
import { Frame } from '../past/frame.tsx';
import type { Numbered } from '../figures/pieces.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { Servers } from './servers.tsx';
import { Sheets } from './sheets.tsx';
import { Unread, type UnreadStretch } from './unread.tsx';

const { past } = words.screen;
const said = past.signals;

const VALUES_MS = 2_000;
const MEANINGS_MS = 600_000;
const UNREAD_MS = 60_000;

/** Every signal as it reads now, and the servers it comes from. It shows, and asks for nothing that writes. */
export function Signals({ overview }: { readonly overview: PastOverview | undefined }) {
  const { id } = usePart('line');
  const { clock } = useMoment();
  const [chosen, choose] = useChosen();
  const line = `/api/lines/${encodeURIComponent(id)}`;
  const meanings = useAsked<readonly SignalMeaning[]>(`${line}/past/signals`, MEANINGS_MS).data;
  const asked = useAsked<readonly SignalReading[]>(`${line}/signals`, VALUES_MS);
  const servers = useAsked<readonly ServerReading[]>(`${line}/servers`, VALUES_MS).data;
  const unread = useAsked<readonly UnreadStretch[]>(`${line}/unread`, UNREAD_MS).data ?? [];
  const readings = asked.data;
  const choice = choiceOf(chosen.which);
  const sheets = useMemo(
    () => meanings && readings && overview && signalSheets(meanings, readings, overview.stations, choice),
    [meanings, readings, overview, choice],
  );
  const down = (servers ?? []).filter(({ up }) => !up).map((server) => server.id);
  return (
    <Frame
      screen="signals"
      title={said.title}
      lead={sheets ? said.lead(sheets, down) : [past.asking, '']}
      of={sheets && leadNumbers(sheets)}
      overview={overview}
      asked={asked}
    >
      {servers && readings && overview && (
        <Servers panels={serverPanels(servers, readings, clock)} zone={overview.zone} />
      )}
      {unread.length > 0 && overview && <Unread stretches={unread} zone={overview.zone} />}
      {sheets && (
        <>
          <div className="choices">
            <Choice
              label={said.choice}
              options={[
                { id: undefined, said: said.all(sheets.all) },
                { id: 'mend', said: said.mend(sheets.mend) },
                { id: 'devices', said: said.devices(sheets.devices) },
              ]}
              chosen={choice === 'all' ? undefined : choice}
              choose={(which) => choose({ which })}
            />
          </div>
          <Sheets key={choice} sheets={sheets} choice={choice} several={(servers?.length ?? 0) > 1} />
        </>
      )}
      {clock !== undefined && <ExportForm line={id} {...lastDay(clock)} />}
    </Frame>
  );
}

/** Numbers of the heading's answer. */
function leadNumbers({ all, mend, withoutTwin, good, uncertain, silent }: SignalSheets): readonly Numbered[] {
  return [
    ['toMend', mend === 0 ? '' : past.count(mend)],
    ['signals', past.count(all)],
    ['toMend', withoutTwin === 0 ? '' : past.count(withoutTwin)],
    ...[good, uncertain, silent].map((n) => ['signals', past.count(n)] as const),
  ];
}

/** The day before, in whole hours. */
function lastDay(now: number): { readonly from: number; readonly to: number } {
  const to = Math.floor(now / HOUR_MS) * HOUR_MS;
  return { from: to - 24 * HOUR_MS, to };
}

const HOUR_MS = 3_600_000;

function choiceOf(which: string | undefined): SignalChoice {
  return which === 'mend' || which === 'devices' ? which : 'all';
}
