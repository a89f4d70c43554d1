import { useEffect, useRef, useState } from 'react';
import { type FigureId, type FigureRecord, figureOf, isFigure } from '../../model/figures/figures.ts';
import type { FiguresAnswer } from '../../model/figures/figuresAnswer.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import { words } from '../app/words.ts';
import { useAsked } from '../past/asked.ts';
import { queryOf } from '../past/chosen.ts';
import { usePart } from '../store/use.tsx';

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

interface Period {
  readonly from: string | undefined;
  readonly to: string | undefined;
}

interface Opened extends Period {
  readonly id: FigureId;
}

/**
 * How is this made? Opens for any element that bears a figure, wherever it stands: at a press of a pointer, Enter or space.
 * `data-from` and `data-to` above it say of which period it is; without them it is the shift that runs.
 */
export function HowMade() {
  const [path, go] = useState<readonly Opened[]>([]);
  const dialog = useRef<HTMLDialogElement>(null);
  const opened = path.at(-1);
  useEffect(() => {
    const open = (event: Event) => {
      const found = openedBy(event.target);
      if (!found) return;
      event.preventDefault();
      go((before) => (inDialog(event.target) ? [...before, found] : [found]));
    };
    const key = (event: KeyboardEvent) => {
      if (event.key === 'Enter' || event.key === ' ') open(event);
    };
    document.addEventListener('click', open);
    document.addEventListener('keydown', key);
    return () => {
      document.removeEventListener('click', open);
      document.removeEventListener('keydown', key);
    };
  }, []);
  useEffect(() => {
    if (opened && !dialog.current?.open) dialog.current?.showModal();
  }, [opened]);
  return (
    <dialog
      ref={dialog}
      className="howmade"
      aria-labelledby="howmade"
      onClose={() => go([])}
      // a press beside it closes it
      onClick={(event) => event.target === dialog.current && dialog.current?.close()}
      onKeyDown={(event) => event.key === 'Escape' && dialog.current?.close()}
    >
      {opened && (
        <Made
          key={`${path.length} ${opened.id}`}
          opened={opened}
          back={path.length > 1 ? () => go(path.slice(0, -1)) : undefined}
          close={() => dialog.current?.close()}
        />
      )}
    </dialog>
  );
}

function openedBy(target: EventTarget | null): Opened | undefined {
  if (!(target instanceof Element)) return undefined;
  const element = target.closest<HTMLElement | SVGElement>('[data-figure]');
  const id = element?.dataset.figure ?? '';
  // what is pressed within a link or a button of its own does what that does
  if (!element || !isFigure(id) || (target.closest('a, button') && !element.closest('a, button')))
    return undefined;
  const period = element.closest<HTMLElement>('[data-from]')?.dataset;
  return { id, from: period?.from, to: period?.to };
}

function inDialog(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest('dialog.howmade') !== null;
}

function Made({
  opened: { id, from, to },
  back,
  close,
}: {
  readonly opened: Opened;
  readonly back: (() => void) | undefined;
  readonly close: () => void;
}) {
  const { name, what, how, source } = said.of[id];
  const { kind, from: parts, records, rule } = figureOf(id);
  const answer = useValues({ from, to });
  const value = answer?.values.find((one) => one.id === id);
  const [number, range] = said.screen.told(value);
  const origin =
    source === undefined
      ? rule === undefined
        ? said.asRead
        : said.own(rule)
      : rule === undefined
        ? source
        : said.withRule(source, rule);
  return (
    <div data-from={from} data-to={to}>
      <header>
        <p className="second">{said.title}</p>
        <h2 id="howmade">{name}</h2>
        {value && (
          <p className="value">
            <b>{number}</b> {said.screen.unitOf(id)} <span>{range}</span>
          </p>
        )}
      </header>
      <p>{what}</p>
      <p className="how">
        <b>{said.how}</b> {how}
      </p>
      {parts.length > 0 && <Parts parts={parts} answer={answer} />}
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
                  <Record record={record} period={from} />
                </span>
              ))}
            </dd>
          </>
        )}
        {answer && (
          <>
            <dt>{said.seen}</dt>
            <dd>{past.seen(answer.seen, answer.zone)}</dd>
          </>
        )}
        <dt>{said.source}</dt>
        <dd>{origin}</dd>
      </dl>
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

/** What it is made of, each with what it comes to, and each to be asked about. */
function Parts({
  parts,
  answer,
}: {
  readonly parts: readonly FigureId[];
  readonly answer: FiguresAnswer | undefined;
}) {
  return (
    <div className="parts">
      <b>{said.from}</b>
      <ul>
        {parts.map((part) => {
          const value = answer?.values.find((one) => one.id === part);
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

function Record({ record, period }: { readonly record: FigureRecord; readonly period: string | undefined }) {
  const screen = LOOKED_UP[record];
  const name = said.recordNames[record];
  return screen === undefined ? name : <a href={`${screen}${queryOf({ period })}`}>{name}</a>;
}

/** Figures of the period; while none is said, of the shift that runs. */
function useValues({ from, to }: Period): (FiguresAnswer & { readonly zone: string }) | undefined {
  const { id, zone } = usePart('line');
  const line = `/api/lines/${encodeURIComponent(id)}/past`;
  const overview = useAsked<PastOverview>(from === undefined ? line : undefined, AGAIN_MS);
  const running = from ?? overview.data?.shifts.at(-1)?.from;
  const asked = useAsked<FiguresAnswer>(
    running === undefined ? undefined : `${line}/figures${queryOf({ from: running, to })}`,
    AGAIN_MS,
  );
  return asked.data && { ...asked.data, zone };
}
