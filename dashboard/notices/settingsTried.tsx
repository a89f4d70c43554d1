import { type ReactNode, useState } from 'react';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import type { Tried, TriedRow } from '../../model/notices/tried.ts';
import { words } from '../app/words.ts';
import { usePart } from '../store/use.tsx';

const said = words.screen.noticeSettings.tried;

const LONG = 340;
const TALL = 24;
const DAY_MS = 86_400_000;

/** A budget of false notices, chosen by what it would have done: each row shows the same days again. */
export function TriedBudgets({
  tried,
  inUse,
  days,
  may,
  isSending,
  use,
}: {
  readonly tried: Tried;
  /** The budget in use, which may be newer than what was judged with it. */
  readonly inUse: number;
  readonly days: number;
  /** Whether it can be chosen from here. */
  readonly may: boolean;
  readonly isSending: boolean;
  readonly use: (falseOnceInShifts: number, why: string) => void;
}) {
  const { zone } = usePart('line');
  const [asked, ask] = useState<number>();
  const [why, say] = useState('');
  return (
    <section className="sheet tried" aria-labelledby="tried">
      <h2 id="tried">{said.title(days)}</h2>
      <p className="second">{said.about}</p>
      {tried.shifts === 0 && <p className="saying">{said.none}</p>}
      <div className="scrolls">
        <table>
          <thead>
            <tr>
              {said.columns.map((column, place) => (
                <th key={column} scope="col" className={place > 1 && place < 8 ? 'n' : ''}>
                  {column}
                  {place === 1 && <small>{said.days(tried.from, tried.to, zone)}</small>}
                </th>
              ))}
              <td />
            </tr>
          </thead>
          <tbody>
            {tried.rows.map((row) => (
              <Row
                key={row.falseOnceInShifts}
                row={row}
                tried={tried}
                isInUse={row.falseOnceInShifts === inUse}
                may={may}
                isAsked={asked === row.falseOnceInShifts && asked !== inUse}
                ask={(on) => ask(on ? row.falseOnceInShifts : undefined)}
              >
                <Why
                  budget={row.falseOnceInShifts}
                  why={why}
                  say={say}
                  isSending={isSending}
                  use={() => use(row.falseOnceInShifts, why.trim())}
                  cancel={() => ask(undefined)}
                />
              </Row>
            ))}
          </tbody>
        </table>
      </div>
      <Legend tried={tried} />
    </section>
  );
}

function Row({
  row,
  tried,
  isInUse,
  may,
  isAsked,
  ask,
  children,
}: {
  readonly row: TriedRow;
  readonly tried: Tried;
  readonly isInUse: boolean;
  readonly may: boolean;
  readonly isAsked: boolean;
  readonly ask: (on: boolean) => void;
  /** What is asked before it is used. */
  readonly children: ReactNode;
}) {
  const { falseOnceInShifts: budget, notices, found, nothing, unsaid, falseExpected, missed } = row;
  return (
    <>
      <tr className={isInUse ? 'inuse' : ''} data-budget={budget}>
        <th scope="row">{said.row(budget)}</th>
        <td>
          <Days row={row} tried={tried} />
        </td>
        <td className="n">
          <b>{words.count(notices.length)}</b>
        </td>
        {[found, nothing, unsaid].map((n, place) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: three columns, always these
          <td key={place} className="n">
            {words.count(n)}
          </td>
        ))}
        <td className="n">{said.expected(falseExpected)}</td>
        <td className="n">{words.count(missed)}</td>
        <td>{said.later(row, tried.inUse)}</td>
        <td className="act-cell">
          {isInUse ? (
            <b>{said.inUse}</b>
          ) : (
            may && (
              <button
                type="button"
                className="btn plain"
                aria-expanded={isAsked}
                onClick={() => ask(!isAsked)}
              >
                {said.use}
              </button>
            )
          )}
        </td>
      </tr>
      {isAsked && (
        <tr className="asks">
          <td colSpan={10}>{children}</td>
        </tr>
      )}
    </>
  );
}

function Why({
  budget,
  why,
  say,
  isSending,
  use,
  cancel,
}: {
  readonly budget: number;
  readonly why: string;
  readonly say: (why: string) => void;
  readonly isSending: boolean;
  readonly use: () => void;
  readonly cancel: () => void;
}) {
  const isSaid = why.trim() !== '';
  return (
    <form
      className="usewhy"
      onSubmit={(event) => {
        event.preventDefault();
        if (isSaid && !isSending) use();
      }}
    >
      <label className="textfield wide">
        <span>{said.useWhy(budget)}</span>
        <input
          value={why}
          maxLength={ENTRY_MOST.words}
          autoComplete="off"
          onChange={({ currentTarget }) => say(currentTarget.value)}
        />
      </label>
      <button type="submit" className="btn" disabled={!isSaid || isSending}>
        {isSending ? words.screen.noticeSettings.save.onItsWay : said.useSave}
      </button>
      <button type="button" className="btn plain" onClick={cancel}>
        {said.cancel}
      </button>
    </form>
  );
}

/** The days as a line with a tick for each, and a mark for each notice. */
function Days({ row, tried: { from, to } }: { readonly row: TriedRow; readonly tried: Tried }) {
  const x = (at: number) => 6 + ((at - from) / Math.max(1, to - from)) * (LONG - 12);
  const days = Math.floor((to - from) / DAY_MS);
  return (
    <svg
      className="trieddays"
      viewBox={`0 0 ${LONG} ${TALL}`}
      width={LONG}
      height={TALL}
      role="img"
      aria-label={said.drawn(row)}
    >
      <line className="axis" x1={x(from)} x2={x(to)} y1={TALL / 2} y2={TALL / 2} />
      {Array.from({ length: days + 1 }, (_, day) => {
        const at = x(from + day * DAY_MS);
        const long = day % 7 === 0 ? 6 : 3;
        return <line key={at} className="axis" x1={at} x2={at} y1={TALL / 2 - long} y2={TALL / 2 + long} />;
      })}
      {row.notices.map(({ at, station, became }) => (
        <BecameMark key={`${at} ${station}`} x={x(at)} y={TALL / 2} became={became} />
      ))}
    </svg>
  );
}

type Became = TriedRow['notices'][number]['became'];

function BecameMark({ x, y, became }: { readonly x: number; readonly y: number; readonly became: Became }) {
  return <rect className={`became was-${became}`} x={x - 4} y={y - 7} width={8} height={14} />;
}

function Legend({ tried }: { readonly tried: Tried }) {
  return (
    <div className="pastkey triedkey">
      <ul>
        {(['found', 'nothing', 'unsaid'] as const).map((became) => (
          <li key={became}>
            <svg width={12} height={18} aria-hidden="true">
              <BecameMark x={6} y={9} became={became} />
            </svg>
            {said.key[became]}
          </li>
        ))}
      </ul>
      <p>
        {said.missed} {said.seen(tried)} {said.unlike}
      </p>
    </div>
  );
}
