import { useEffect, useRef } from 'react';
import type { PastOverview } from '../../model/past/overview.ts';
import { words } from '../app/words.ts';
import { Carton } from '../marks/symbols.tsx';
import { usePart } from '../store/use.tsx';

const said = words.screen.past.stations;

/** The stations as the carton passes them; the current one is folded up. The time that was chosen goes along. */
export function StationStrip({
  overview,
  current,
}: {
  readonly overview: PastOverview;
  readonly current: string | undefined;
}) {
  const { stations } = usePart('path');
  const strip = useRef<HTMLElement>(null);
  useEffect(() => {
    const [frame, chosen] = [strip.current, strip.current?.querySelector<HTMLElement>('[aria-current]')];
    // where the strip is wider than the screen it shows the current one
    if (frame && chosen) frame.scrollLeft = chosen.offsetLeft - (frame.clientWidth - chosen.clientWidth) / 2;
  }, []);
  const isMarked = (id: string) => stations.some((one) => one.id === id && one.mark !== 'none');
  return (
    <nav ref={strip} className="stationstrip noprint" aria-label={said.strip}>
      <a href={`/stations${kept()}`} {...(current === undefined ? { 'aria-current': 'page' } : {})}>
        {said.all}
      </a>
      {overview.stations.map(({ id, number, name, drawing }) => (
        <a key={id} href={addressOf(id)} {...(current === id ? { 'aria-current': 'page' } : {})}>
          <Carton drawing={drawing} off={isMarked(id)} width={38} className="small" />
          <span>
            {number} {name}
          </span>
        </a>
      ))}
    </nav>
  );
}

/** A station's own screen, with the same time and line as here. */
export function addressOf(id: string): string {
  return `/stations/${encodeURIComponent(id)}${kept()}`;
}

function kept(): string {
  const search = new URLSearchParams(location.search);
  for (const name of [...search.keys()]) if (!KEPT.includes(name)) search.delete(name);
  return search.size > 0 ? `?${search}` : '';
}
const KEPT: readonly string[] = ['period', 'line', 'theme'];
