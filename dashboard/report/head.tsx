import type { FigureId } from '../../model/figures/figures.ts';
import type { Report } from '../../model/report/report.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';

const { past } = words.screen;
const said = past.report.head;
const { screen } = past.figures;

/** The opened blank, on paper: what was made, how fast, how often it stood, how much of it was seen. */
export function PaperHead({ report }: { readonly report: Report }) {
  const { figures, lost, line, sizes, strip, safety } = report;
  const find = (id: FigureId) => figures.find((one) => one.id === id);
  const told = (id: FigureId) => screen.told(find(id))[0];
  const known = (id: FigureId) => find(id)?.value;
  const unseen = known('notSeen') ?? 0;
  return (
    <div className="paperblank">
      <i className="glue" aria-hidden="true" />
      <section className="made">
        <p className="flap">
          <b>{line.name}</b> {sizes.join(', ')}
        </p>
        <p className="most">
          <Figure of="good">
            <b>{said.good(told('good'))}</b>
          </Figure>
        </p>
        {lost && (
          <p>
            <Figure of="possible">{said.possible(lost.possible, known('good') ?? 0)}</Figure>
          </p>
        )}
        <p className="second">
          <Figure of="produced">{said.made(told('produced'), told('rejected'), told('crushed'))}</Figure>
        </p>
        <p className="flap below">
          <Figure of="causedStops">{said.safety(safety.caused, safety.uses)}</Figure>
        </p>
      </section>
      <section>
        <p className="flap">{said.running}</p>
        <p className="most">
          <Figure of="runningRate">
            <b>{told('runningRate')}</b>
          </Figure>
        </p>
        <p className="flap below">
          <Figure of="target">{said.target(strip.target)}</Figure>
        </p>
      </section>
      <section>
        <p className="flap">{said.stops}</p>
        <p className="most">
          <Figure of="stops">
            <b>{told('stops')}</b>
          </Figure>
        </p>
        <p className="second">
          <Figure of="stood">{said.stood(told('stood'))}</Figure>
        </p>
        <p className="flap below">
          <Figure of="ownStops">{said.own(told('ownStops'))}</Figure>
        </p>
      </section>
      <section>
        <p className="flap">{said.seen}</p>
        <p className="most long">
          <Figure of="coverage">
            <b>{screen.inUnit('busyTime', (known('plannedOperationTime') ?? 0) - unseen)}</b>
          </Figure>
        </p>
        <p className="second">{said.of(told('plannedOperationTime'))}</p>
        <p className="flap below">
          <Figure of="notSeen">{said.unseen(unseen > 0 ? told('notSeen') : undefined)}</Figure>
        </p>
      </section>
    </div>
  );
}
