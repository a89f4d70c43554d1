import type { FigureId } from '../../model/figures/figures.ts';
import type { Report } from '../../model/report/report.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { FILL_OF_CAUSE, type Fill, Filled } from './drawn.tsx';

const { past } = words.screen;
const said = past.report;
const { screen } = past.figures;
const WIDTH = 714;
const HEIGHT = 15;

/** In the order of the bar, and how each is drawn. */
const TIME = [
  ['actualProductionTime', 'board'],
  ['setupTime', 'setting'],
  ['delayTime', 'worked'],
  ['downTime', 'empty'],
  ['plannedDownTime', 'dashedEmpty'],
  ['notSeen', 'hatch'],
] as const satisfies readonly (readonly [FigureId, Fill])[];

/** Where the time went: parts of the time in shifts, which add up to it. */
export function PaperTime({ report }: { readonly report: Report }) {
  const value = (id: FigureId) => report.figures.find((one) => one.id === id)?.value ?? 0;
  const all = value('plannedOperationTime');
  if (!(all > 0)) return null;
  let at = 0;
  const parts = TIME.map(([id, drawn]) => {
    const from = at;
    at += (value(id) / all) * WIDTH;
    return { id, drawn, from, width: at - from };
  }).filter(({ width }) => width > 0);
  return (
    <section>
      <h3>{said.time.title(screen.inUnit('busyTime', all))}</h3>
      <svg viewBox={`-1 -1 ${WIDTH + 2} ${HEIGHT + 2}`} className="timebar" aria-hidden="true">
        {parts.map(({ id, drawn, from, width }) => (
          <Filled key={id} fill={drawn} x={from} y={0} width={width} height={HEIGHT} />
        ))}
      </svg>
      <ul className="barkey">
        {parts.map(({ id, drawn }) => (
          <li key={id}>
            <svg width="14" height="12" aria-hidden="true">
              <Filled fill={drawn} x={1} y={1} width={12} height={10} />
            </svg>
            <Figure of={id}>
              {said.time.parts[id]} {screen.inUnit(id, value(id))}
            </Figure>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Cartons lost by cause; they add up to possible less good. */
export function PaperLosses({ report }: { readonly report: Report }) {
  const { lost } = report;
  if (!lost) return null;
  const good = report.figures.find(({ id }) => id === 'good');
  const shown = lost.causes.filter(({ cartons }) => cartons > 0);
  const all = shown.reduce((sum, { cartons }) => sum + cartons, 0);
  let at = 0;
  return (
    <section>
      <h3>
        <Figure of="lost">{said.lost.title(lost.total)}</Figure>{' '}
        <small>{said.lost.sum(lost.possible, screen.told(good)[0], lost.total)}</small>
      </h3>
      {all > 0 && (
        <svg viewBox={`-1 -1 ${WIDTH + 2} ${HEIGHT + 2}`} className="timebar" aria-hidden="true">
          {shown.map(({ cause, cartons }) => {
            const x = at;
            at += (cartons / all) * WIDTH;
            return (
              <Filled key={cause} fill={FILL_OF_CAUSE[cause]} x={x} y={0} width={at - x} height={HEIGHT} />
            );
          })}
        </svg>
      )}
      <ul className="barkey">
        {lost.causes.map(({ cause, cartons }) => (
          <li key={cause}>
            <svg width="14" height="12" aria-hidden="true">
              <Filled fill={FILL_OF_CAUSE[cause]} x={1} y={1} width={12} height={10} />
            </svg>
            <Figure of="lostByCause">
              {cartons < 0 && cause === 'slow' ? past.report.madeUp : said.causes[cause]}{' '}
              {past.count(Math.abs(cartons))}
            </Figure>
          </li>
        ))}
      </ul>
    </section>
  );
}
