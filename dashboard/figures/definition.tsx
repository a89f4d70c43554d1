import { useEffect, useRef } from 'react';
import { type FigureId, type FigureRecord, figureOf } from '../../model/figures/figures.ts';
import type { FiguresAnswer } from '../../model/figures/figuresAnswer.ts';
import type { FigureValue } from '../../model/figures/figureValues.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import { words } from '../app/words.ts';
import { useAsked } from '../past/asked.ts';
import { queryOf } from '../past/chosen.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { type FiguresOf, figuresMarked } from './period.ts';

const { past } = words.screen;
const said = past.figures;

/** The screen on which a record is looked up; what has none stands in a file. */
const LOOKED_UP: Partial<Record<FigureRecord, string>> = {
  counters: '/stations',
  stops: '/stops',
  presses: '/safety-stops',
  guards: '/safety-stops',
  changeovers: '/changeovers',
  gaps: '/stops',
  orders: '/figures',
  signals: '/signals',
};
/** Values of a period do not change while somebody reads about them; the shift that runs does. */
const AGAIN_MS = 10_000;

/** A figure that somebody asked about, and of what time it was. */
export interface Opened extends FiguresOf {
  readonly id: FigureId;
}

/** What a figure is, how it is worked out and of what, how good it is, and what it comes to in the time it was asked of. */
export function Definition({
  opened,
  looksUp,
  back,
  close,
}: {
  readonly opened: Opened;
  /** Whether its records are a way to other screens: from a wall or a panel nobody is led away. */
  readonly looksUp: boolean;
  readonly back: (() => void) | undefined;
  readonly close: () => void;
}) {
  const { id } = opened;
  const { name, what, how } = said.of[id];
  const { from: parts } = figureOf(id);
  const told = useTold(opened);
  const heading = useRef<HTMLHeadingElement>(null);
  // what was pressed for this one is gone: who uses the keyboard begins at its heading
  useEffect(() => heading.current?.focus(), []);
  return (
    <div {...figuresMarked(opened)}>
      <header>
        <p className="second">{said.title}</p>
        <h2 id="howmade" ref={heading} tabIndex={-1}>
          {name}
        </h2>
        <Value id={id} told={told} />
      </header>
      <p>{what}</p>
      <p className="how">
        <b>{said.how}</b> {how}
      </p>
      {parts.length > 0 && <Parts parts={parts} told={told} />}
      <Standing id={id} told={told} looksUp={looksUp} />
      <footer>
        {back && (
          <button type="button" className="btn plain" onClick={back}>
            {said.back}
          </button>
        )}
        <button type="button" className="btn" onClick={close}>
          {said.close}
        </button>
      </footer>
    </div>
  );
}

/** What it comes to, and of what: that may be more than what was pressed, which may be of one station alone. */
function Value({ id, told }: { readonly id: FigureId; readonly told: Told | undefined }) {
  const value = valueIn(told, id);
  if (!value || !told) return null;
  const [number, range] = said.screen.told(value);
  return (
    <p className="value">
      <b>{number}</b> {said.screen.unitOf(id)} {range !== '' && <span>{range}</span>}
      <small>{told.of}</small>
    </p>
  );
}

/** What it is made of, each with what it comes to, and each to be asked about. */
function Parts({ parts, told }: { readonly parts: readonly FigureId[]; readonly told: Told | undefined }) {
  return (
    <div className="parts">
      <b>{said.from}</b>
      <ul>
        {parts.map((part) => {
          const value = valueIn(told, part);
          return (
            <li key={part}>
              <button type="button" data-figure={part} aria-haspopup="dialog">
                <span>{said.of[part].name}</span>
                {value && <b>{said.screen.told(value)[0]}</b>}
              </button>
            </li>
          );
        })}
      </ul>
    </div>
  );
}

/** How good it is, where it is looked up, how much of its time was seen, and where its definition comes from. */
function Standing({
  id,
  told,
  looksUp,
}: {
  readonly id: FigureId;
  readonly told: Told | undefined;
  readonly looksUp: boolean;
}) {
  const { kind, records } = figureOf(id);
  const { zone } = usePart('line');
  return (
    <dl>
      <dt>{said.kind}</dt>
      <dd>{said.kinds[kind]}</dd>
      {records.length > 0 && (
        <>
          <dt>{said.records}</dt>
          <dd>
            {records.map((record, place) => (
              <span key={record}>
                {place > 0 && ', '}
                <Record record={record} looksUp={looksUp} />
              </span>
            ))}
          </dd>
        </>
      )}
      {told && valueIn(told, id) && (
        <>
          <dt>{said.seen}</dt>
          <dd>{past.seen(told.answer.seen, zone)}</dd>
        </>
      )}
      <dt>{said.source}</dt>
      <dd>{originOf(id)}</dd>
    </dl>
  );
}

function originOf(id: FigureId): string {
  const { source } = said.of[id];
  const { rule } = figureOf(id);
  if (source === undefined) return rule === undefined ? said.asRead : said.own(rule);
  return rule === undefined ? source : said.withRule(source, rule);
}

/** Over the same time as the screen that is left. */
function Record({ record, looksUp }: { readonly record: FigureRecord; readonly looksUp: boolean }) {
  const screen = LOOKED_UP[record];
  const name = said.recordNames[record];
  const period = new URLSearchParams(location.search).get('period') ?? undefined;
  return screen === undefined || !looksUp ? name : <a href={`${screen}${queryOf({ period })}`}>{name}</a>;
}

interface Told {
  readonly answer: FiguresAnswer;
  /** What all values are of, in words. */
  readonly of: string;
}

function valueIn(told: Told | undefined, id: FigureId): FigureValue | undefined {
  return told?.answer.values.find((one) => one.id === id);
}

/** Figures of what was asked of; while no time is said, of the shift that runs. */
function useTold({ from, to, size, shift, order }: FiguresOf): Told | undefined {
  const { id, zone } = usePart('line');
  const { clock } = useMoment();
  const line = `/api/lines/${encodeURIComponent(id)}/past`;
  const overview = useAsked<PastOverview>(
    from === undefined || shift !== undefined ? line : undefined,
    AGAIN_MS,
  ).data;
  const since = from ?? overview?.shifts.at(-1)?.from;
  const { data } = useAsked<FiguresAnswer>(
    since === undefined ? undefined : `${line}/figures${queryOf({ from: since, to, size, shift, order })}`,
    AGAIN_MS,
  );
  if (!data) return undefined;
  const chosen = [
    data.ideal.find((one) => one.id === size)?.name ?? size,
    overview?.shifts.find(({ rule }) => rule === shift)?.name ?? shift,
    order,
  ].filter((part) => part !== undefined);
  return {
    answer: data,
    of: said.ofWhat(past.period.span(data.seen.from, data.seen.to, clock, zone), chosen),
  };
}
