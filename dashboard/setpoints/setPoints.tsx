import { useEffect, useRef } from 'react';
import type { PastOverview } from '../../model/past/overview.ts';
import type { SetPointRow, SetPointsPast } from '../../model/past/setPointsPast.ts';
import { words } from '../app/words.ts';
import { Caution } from '../matters/caution.tsx';
import { type Asked, useAsked } from '../past/asked.ts';
import { queryOf, useChosen } from '../past/chosen.ts';
import { Frame } from '../past/frame.tsx';
import { usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { type Goes, paperOf, pathOf, useSetPointPlace } from './address.ts';
import { Book } from './book.tsx';
import { leadNumbers, learnedNumbers } from './numbers.ts';
import { SetPointOne } from './one.tsx';
import { SetPointPaper } from './paper.tsx';

const { past } = words.screen;
const said = past.setPoints;

/** Where a sensor reads moves by the second, what was learned by the run: between the two. */
export const AGAIN_MS = 5_000;

/** The set-point book of a size: all of it, one adjustment opened, or the page to print. */
export function SetPoints({ overview }: { readonly overview: PastOverview | undefined }) {
  const [place, goes] = useSetPointPlace();
  const { id } = usePart('line');
  const asked = useAsked<SetPointsPast>(
    `/api/lines/${encodeURIComponent(id)}/past/setpoints${queryOf({ size: place.size })}`,
    AGAIN_MS,
  );
  const shown = { overview, asked, goes };
  const opened = useReturning(place.number);
  if (asked.data && place.number !== undefined)
    return <SetPointOne key={place.number} {...shown} book={asked.data} number={place.number} />;
  if (asked.data && place.paper) return <SetPointPaper {...shown} book={asked.data} />;
  return <Whole {...shown} opened={opened} />;
}

/** Which one was opened last: who comes back from it stands before its row again. */
function useReturning(number: string | undefined): string | undefined {
  const last = useRef<string | undefined>(undefined);
  useEffect(() => {
    if (number !== undefined) last.current = number;
  }, [number]);
  return number === undefined ? last.current : undefined;
}

export interface SetPointsShown {
  readonly overview: PastOverview | undefined;
  readonly asked: Asked<SetPointsPast>;
  readonly goes: Goes;
}

function Whole({ overview, asked, goes, opened }: SetPointsShown & { readonly opened: string | undefined }) {
  const [chosen, choose] = useChosen();
  const book = asked.data;
  const zone = usePart('line').zone;
  const only = chosen.only === 'differs';
  return (
    <Frame
      screen="setpoints"
      title={book ? said.title(book.size.name) : said.asking}
      lead={book ? said.lead(book, zone) : [past.asking, '']}
      of={book && leadNumbers(book)}
      actions={
        book && (
          <>
            <a className="btn" {...goes(paperOf(book.size.id))}>
              {said.print}
            </a>
            <button
              type="button"
              className="btn plain"
              aria-pressed={only}
              onClick={() => choose({ only: only ? undefined : 'differs' })}
            >
              {said.onlyDiffers}
            </button>
          </>
        )
      }
      overview={overview}
      asked={asked}
    >
      {book && (
        <>
          <div className="choices">
            <Sizes book={book} goes={goes} />
            <p className="second learnedfrom">
              <Rich text={said.learnedFrom(book, zone)} of={learnedNumbers(book)} />
            </p>
          </div>
          <Book book={book} rows={rowsShown(book, only)} goes={goes} opened={opened} />
          <Caution title={said.caution.title} text={said.caution.text} />
        </>
      )}
    </Frame>
  );
}

function rowsShown({ rows }: SetPointsPast, only: boolean): readonly SetPointRow[] {
  return only ? rows.filter(({ stands }) => stands.off !== undefined && stands.off !== 0) : rows;
}

/** Each is a way, so that a size can be sent to somebody. */
function Sizes({ book, goes }: { readonly book: SetPointsPast; readonly goes: Goes }) {
  return (
    <nav className="sizechoice noprint" aria-label={said.sizes}>
      {book.sizes.map(({ id, name }) => (
        <a key={id} {...goes(pathOf(id))} {...(id === book.size.id ? { 'aria-current': 'page' } : {})}>
          {name}
        </a>
      ))}
    </nav>
  );
}
