import type { StationRef } from '../../model/past/past.ts';
import { words } from '../app/words.ts';
import { Carton } from '../marks/symbols.tsx';

const said = words.screen.past.replay;

/** Which station’s signals are shown under the strip. */
export function StationChoice({
  stations,
  chosen,
  choose,
}: {
  readonly stations: readonly StationRef[];
  readonly chosen: string | undefined;
  readonly choose: (station: string | undefined) => void;
}) {
  return (
    <fieldset className="choice lanechoice">
      <legend>{said.lanes.title}</legend>
      <button type="button" aria-pressed={chosen === undefined} onClick={() => choose(undefined)}>
        {said.lanes.none}
      </button>
      {stations.map(({ id, number, name, drawing }) => {
        const full = words.screen.past.station(number, name);
        return (
          <button
            key={id}
            type="button"
            aria-pressed={chosen === id}
            aria-label={full}
            title={full}
            onClick={() => choose(id)}
          >
            <Carton drawing={drawing} width={22} className="small" />
            {number}
          </button>
        );
      })}
    </fieldset>
  );
}
