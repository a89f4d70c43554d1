import { useEffect, useRef } from 'react';
import type { FigureRecord } from '../../model/figures/define.ts';
import { type FigureId, figureOf } from '../../model/figures/figures.ts';
import type { FiguresAnswer } from '../../model/figures/figuresAnswer.ts';
import type { FigureValue } from '../../model/figures/figureValues.ts';
import { viewFigures } from '../../model/figures/viewFigures.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import type { SeenTime } from '../../model/past/past.ts';
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
  /** What stood where it was pressed, where that was a number. */
  readonly shown: string | undefined;
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
        <Values opened={opened} told={told} />
      </header>
      <p>{what}</p>
      <p className="how">
        <b>{said.how}</b> {how}
      </p>
      {parts.length > 0 && <Parts parts={parts} told={told} says={!valueIn(told, id)} />}
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

/** What stood there, which may be of one stop or one station alone, and what the line comes to in the same time. */
function Values({
  opened: { id, shown },
  told,
}: {
  readonly opened: Opened;
  readonly told: Told | undefined;
}) {
  const value = valueIn(told, id);
  const [number, range] = value ? said.screen.told(value) : [undefined, ''];
  return (
    <>
      {shown !== undefined && shown !== number && !told?.live.includes(id) && (
        <p className="value">
          <b>{shown}</b>
          <small>{said.asShown}</small>
        </p>
      )}
      {told && number !== undefined && (
        <p className="value">
          <b>{number}</b> {said.screen.unitOf(id)} {range !== '' && <span>{range}</span>}
          <small>{told.of}</small>
        </p>
      )}
    </>
  );
}

/** What it is made of, each with what it comes to, and each to be asked about. */
function Parts({
  parts,
  told,
  says,
}: {
  readonly parts: readonly FigureId[];
  readonly told: Told | undefined;
  /** Nothing above has said what the values are of: that is more than the one number that was pressed. */
  readonly says: boolean;
}) {
  return (
    <div className="parts">
      <b>
        {said.from} {says && parts.some((part) => valueIn(told, part)) && <small>{told?.of}</small>}
      </b>
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
      {told?.seen && valueIn(told, id) && (
        <>
          <dt>{said.seen}</dt>
          <dd>{past.seen(told.seen, zone)}</dd>
        </>
      )}
      <dt>{said.source}</dt>
      <dd>{originOf(id)}</dd>
    </dl>
  );
}

function originOf(id: FigureId): string {
  const { source } = said.of[id];
  const { rule, kind } = figureOf(id);
  if (source === undefined && rule === undefined)
    return kind === 'read' || kind === 'set' ? said.asRead : said.ownPlain;
  if (source === undefined) return said.own(rule!);
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
  readonly values: readonly FigureValue[];
  /** Those that are as they stand on the Line screen now: what was pressed is older. */
  readonly live: readonly FigureId[];
  /** What all values are of, in words. */
  readonly of: string;
  /** How much of it was seen; undefined until the gateway has said so. */
  readonly seen: SeenTime | undefined;
}

function valueIn(told: Told | undefined, id: FigureId): FigureValue | undefined {
  return told?.values.find((one) => one.id === id);
}

/** Figures of what was asked of. While no time is said they are of the shift that runs, and what its screen shows comes first. */
function useTold(of: FiguresOf): Told | undefined {
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const live = useLive(of);
  const { answer, names } = useAnswer(of);
  const { shift } = usePart('plan');
  const span = answer?.seen ?? (live.length > 0 && shift ? { from: shift.from, to: clock } : undefined);
  if (!span) return undefined;
  return {
    live: live.map((one) => one.id),
    values: [...live, ...(answer?.values ?? []).filter(({ id }) => live.every((one) => one.id !== id))],
    of: said.ofWhat(past.period.span(span.from, span.to, clock, zone), names),
    seen: answer?.seen,
  };
}

/** What stands on the Line screen now, as long as somebody vouches for it. */
function useLive({ from }: FiguresOf): readonly FigureValue[] {
  const plan = usePart('plan');
  const path = usePart('path');
  const rate = usePart('rate');
  const { sight } = useMoment();
  return from === undefined && sight === 'live' ? viewFigures({ plan, path, rate }) : [];
}

/** What the gateway says of a stretch of time, and what of it was chosen, by name. */
function useAnswer({ from, to, size, shift, order }: FiguresOf) {
  const { id } = usePart('line');
  const line = `/api/lines/${encodeURIComponent(id)}/past`;
  const overview = useAsked<PastOverview>(
    from === undefined || shift !== undefined ? line : undefined,
    AGAIN_MS,
  ).data;
  const since = from ?? overview?.shifts.at(-1)?.from;
  const { data: answer } = useAsked<FiguresAnswer>(
    since === undefined ? undefined : `${line}/figures${queryOf({ from: since, to, size, shift, order })}`,
    AGAIN_MS,
  );
  const names = [
    answer?.ideal.find((one) => one.id === size)?.name ?? size,
    overview?.shifts.find(({ rule }) => rule === shift)?.name ?? shift,
    order,
  ].filter((part) => part !== undefined);
  return { answer, names };
}
