import { useState } from 'react';
import { ENTRY_MOST, TAKEN_WHYS, type TakenWhy } from '../../model/entries/entries.ts';
import { takenDoubtful } from '../../model/entries/takenDoubt.ts';
import { words } from '../app/words.ts';
import { useEnter } from '../store/use.tsx';

const { taken } = words.screen.balance;

/** Cartons that hands took out or brought back, entered as on a panel. A doubtful count is asked about. */
export function TakenOut() {
  const enter = useEnter();
  const [typed, type] = useState('');
  const [why, choose] = useState<TakenWhy>('sample');
  const [doubted, doubt] = useState<number>();
  const cartons = /^\d{1,4}$/.test(typed.trim()) ? Number(typed.trim()) : 0;
  const ready = cartons > 0 && cartons <= ENTRY_MOST.takenOut;
  const keep = (count: number) => {
    enter({ kind: 'takenOut', cartons: count, why });
    type('');
    doubt(undefined);
  };
  return (
    <form
      className="choose"
      onSubmit={(event) => {
        event.preventDefault();
        if (!ready) return;
        if (takenDoubtful(cartons)) doubt(cartons);
        else keep(cartons);
      }}
    >
      <label>
        <span>{taken.label}</span>
        <input
          inputMode="numeric"
          value={typed}
          onChange={(event) => {
            type(event.target.value);
            doubt(undefined);
          }}
        />
      </label>
      <label>
        <span>{taken.why}</span>
        <select
          value={why}
          onChange={(event) => {
            const chosen = TAKEN_WHYS.find((one) => one === event.target.value);
            if (chosen) choose(chosen);
          }}
        >
          {TAKEN_WHYS.map((one) => (
            <option key={one} value={one}>
              {taken.choices[one]}
            </option>
          ))}
        </select>
      </label>
      <button type="submit" className="btn plain" disabled={!ready || doubted !== undefined}>
        {taken.keep}
      </button>
      {doubted !== undefined && (
        <div className="doubt">
          <p role="status">
            {taken.doubt(doubted)} {taken.doubtWhy}
          </p>
          <div className="keys">
            <button type="button" className="btn plain" onClick={() => doubt(undefined)}>
              {taken.again.join(', ')}
            </button>
            <button type="button" className="btn plain" onClick={() => keep(doubted)}>
              {taken.asTyped(doubted).join(', ')}
            </button>
          </div>
        </div>
      )}
    </form>
  );
}
