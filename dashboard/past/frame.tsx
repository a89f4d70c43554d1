import type { ReactNode } from 'react';
import type { PastOverview } from '../../model/past/overview.ts';
import type { PastScreen } from '../app/route.ts';
import { Screens, ThemeSwitch } from '../app/screens.tsx';
import { words } from '../app/words.ts';
import type { FiguresMark } from '../figures/period.ts';
import { type Numbered, piecesOf } from '../figures/pieces.ts';
import { Entries } from '../matters/entries.tsx';
import type { Sent } from '../store/store.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import type { Asked } from './asked.ts';

const { past } = words.screen;

/** What every screen that looks back has: the way to the others, its answer as a heading, and how far it can be trusted. */
export function Frame({
  screen,
  title,
  lead,
  actions,
  overview,
  asked,
  seen,
  of = NONE,
  saidBelow,
  children,
}: {
  readonly screen: PastScreen | 'notices';
  readonly title: string;
  /** The answer in bold, and the rest. */
  readonly lead: readonly [string, string];
  readonly actions?: ReactNode;
  readonly overview: PastOverview | undefined;
  readonly asked: Pick<Asked<unknown>, 'state' | 'trouble'>;
  /** The stretch of time that its figures are of, if they are, and what of it was chosen. */
  readonly seen?: FiguresMark;
  /** Which numbers of the lead are figures. */
  readonly of?: readonly Numbered[] | undefined;
  /** What was entered here and the screen tells of by itself. */
  readonly saidBelow?: (sent: Sent) => boolean;
  readonly children: ReactNode;
}) {
  return (
    <div className="desk past">
      <header className="deskbar">
        <Screens current={screen} />
        <ThemeSwitch />
      </header>
      <main {...seen}>
        <div className="pasthead">
          <div>
            <h1>{title}</h1>
            <p className="lead">
              <b>
                <Rich text={lead[0]} of={of} />
              </b>{' '}
              <Rich text={lead[1]} of={unsaid(lead[0], of)} />
            </p>
          </div>
          <div className="actions noprint">{actions}</div>
          <Line />
        </div>
        {overview && <Making overview={overview} />}
        {asked.state === 'noAnswer' && <p className="saying">{past.noAnswer}</p>}
        {asked.state === 'refused' && <p className="saying">{past.refused(asked.trouble ?? '')}</p>}
        <Entries saidBelow={saidBelow} />
        {children}
      </main>
    </div>
  );
}

const NONE: readonly Numbered[] = [];

/** Numbers that the first half of the lead does not say. */
function unsaid(first: string, of: readonly Numbered[]): readonly Numbered[] {
  const said = piecesOf(first, of).flatMap(({ text, figure }) =>
    figure === undefined ? [] : [`${figure} ${text}`],
  );
  return of.filter(([figure, words]) => {
    const place = said.indexOf(`${figure} ${words}`);
    if (place >= 0) said.splice(place, 1);
    return place < 0;
  });
}

function Line() {
  const { name, product, zone } = usePart('line');
  const { clock } = useMoment();
  return (
    <p className="ofline">
      <b>{name}</b>, {product}
      <br />
      <span className="noprint">{past.exactly(clock, zone)}</span>
      <span className="onpaper">{past.printed(clock, zone)}</span>
    </p>
  );
}

/** While the past is being made, up to where it is; a person may leave it at that. */
function Making({ overview }: { readonly overview: PastOverview }) {
  const { id } = usePart('line');
  const said = past.making(overview.past, overview.zone);
  if (said === undefined) return null;
  return (
    <p className="saying" role="status">
      {said}
      {overview.past.kind === 'history' && (
        <button
          type="button"
          className="btn plain noprint"
          onClick={() => void fetch(`/api/lines/${encodeURIComponent(id)}/past/cancel`, { method: 'POST' })}
        >
          {past.stopMaking}
        </button>
      )}
    </p>
  );
}
