import type { SheetsHere } from '../../model/view/sheetKept.ts';
import type { SheetStep, SheetView } from '../../model/view/sheetView.ts';
import { words } from '../app/words.ts';
import { isReadAgain } from './steps.ts';
import type { Place } from './walk.ts';

const said = words.screen.sheet;

/** Every step by station, with what is open; each can be opened. */
export function AllSteps({
  sheet,
  told: { keptHere, changed },
  go,
}: {
  readonly sheet: SheetView;
  readonly told: SheetsHere;
  readonly go: (place: Place) => void;
}) {
  return (
    <section className="allsteps">
      <h2>
        {said.all.title} <span>{said.openSteps(sheet.left)}</span>
      </h2>
      {byStation(sheet.steps).map(({ station, steps }) => (
        <div key={station}>
          <h3>{station}</h3>
          <ul>
            {steps.map((step) => (
              <li key={step.id}>
                <button type="button" onClick={() => go({ kind: 'step', id: step.id })}>
                  <span className={step.isDone ? 'pip full' : 'pip'} />
                  <span>
                    {step.kind === 'number' && <b>{step.id} </b>}
                    {step.name}
                    <small>
                      {said.beside(step, isReadAgain(step), keptHere.has(step.id))}
                      {changed.has(step.id) && `, ${said.ahead.changed}`}
                    </small>
                  </span>
                  <em>{step.isDone ? said.all.done : said.all.open}</em>
                </button>
              </li>
            ))}
          </ul>
        </div>
      ))}
    </section>
  );
}

function byStation(
  steps: readonly SheetStep[],
): readonly { readonly station: string; readonly steps: readonly SheetStep[] }[] {
  const groups: { station: string; steps: SheetStep[] }[] = [];
  for (const step of steps) {
    const station = step.station ? `${step.station.number} ${step.station.name}` : said.all.noStation;
    const last = groups.at(-1);
    if (last?.station === station) last.steps.push(step);
    else groups.push({ station, steps: [step] });
  }
  return groups;
}
