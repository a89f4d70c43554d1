import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { readAt } from '../store/moment.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { Line } from '../type/line.tsx';
import { useSeen } from '../wall/reads.ts';

/** This position's own last hundred pockets, newest top left. Never set beside another's. Hatched while nobody looks. */
export function OwnPockets({ here }: { readonly here: PositionView }) {
  const { panel } = words.screen;
  const { count } = words.screen.line;
  const seen = useSeen();
  return (
    <g>
      <Line
        x={24}
        y={376}
        size={30}
        max={840}
        least={26}
        value
        of={[
          ['notLoadedHere', count(here.last.filter(Boolean).length)],
          ['notLoadedHere', count(here.last.length)],
          ['notLoadedHere', count(here.notLoadedThisShift)],
        ]}
      >
        {useOwnPockets(here)}
      </Line>
      {here.last.length > 0 && seen && (
        <Line x={1256} y={376} size={26} anchor="end" tone="ink2">
          {panel.newest}
        </Line>
      )}
      {seen ? <SeenPockets last={here.last} /> : <UnseenPockets count={here.last.length} />}
      <path d="M24 433H1256M24 481H1256" stroke="var(--cut)" strokeWidth={2} />
    </g>
  );
}

/** What is said of this position's pockets: how many were not loaded, or since when nobody has seen one. */
export function useOwnPockets({ last, notLoadedThisShift }: PositionView): string {
  const { panel } = words.screen;
  const { zone } = usePart('line');
  const moment = useMoment();
  const seen = useSeen();
  if (last.length === 0) return panel.noPockets;
  if (!seen) return panel.pocketsUnseen(readAt(moment), zone);
  return panel.notLoadedHere(last.filter(Boolean).length, last.length, notLoadedThisShift);
}

function SeenPockets({ last }: { readonly last: readonly boolean[] }) {
  return (
    <>
      <path d={pocketPath(last, false)} fill="var(--board)" stroke="var(--cut)" strokeWidth={1.3} />
      <path
        d={pocketPath(last, true)}
        fill="none"
        stroke="var(--ink)"
        strokeWidth={2.4}
        strokeDasharray="4 3"
      />
    </>
  );
}

/** Places without a word about what came at them. */
function UnseenPockets({ count }: { readonly count: number }) {
  const places = Array.from({ length: count }, () => false);
  return (
    <path
      d={pocketPath(places, false)}
      fill="url(#unseen)"
      stroke="var(--ink3)"
      strokeWidth={1}
      strokeDasharray="3 2.4"
    />
  );
}

/** Pockets that were loaded here, or that were not, as one path: two rows of fifty. */
function pocketPath(last: readonly boolean[], notLoaded: boolean): string {
  return last
    .slice(0, 100)
    .map((missing, i) =>
      missing === notLoaded ? `M${24 + (i % 50) * 24.64} ${398 + Math.floor(i / 50) * 48}h20v30h-20z` : '',
    )
    .join('');
}
