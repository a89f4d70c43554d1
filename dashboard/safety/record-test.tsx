import { useId, useState } from 'react';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import type { SafetyPast } from '../../model/past/safetyPast.ts';
import { words } from '../app/words.ts';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useOwnNumber } from '../people/session.ts';
import { useEnter } from '../store/use.tsx';

const said = words.screen.past.safety.test;

/** Once it is kept, the screen is asked for again after so long. */
const AGAIN_MS = 700;

/** A test of a device or guard, as a person did it: which, how, and the number of the person. */
export function RecordTest({ safety, again }: { readonly safety: SafetyPast; readonly again: () => void }) {
  const enter = useEnter();
  const ways = useId();
  const [device, takeDevice] = useState('');
  const [method, takeMethod] = useState('');
  const [typed, takePerson] = useState('');
  const own = useOwnNumber();
  const person = own ?? typed;
  const whole = device !== '' && method.trim() !== '' && person.trim() !== '';
  return (
    <section className="sheet recordtest noprint">
      <h2>{said.title}</h2>
      <p className="second">{said.about}</p>
      <NeedsLogIn act="recordTest" />
      <form
        className="typed-line"
        onSubmit={(event) => {
          event.preventDefault();
          if (!whole) return;
          enter({ kind: 'tested', device, method: method.trim(), person: person.trim() });
          takeDevice('');
          setTimeout(again, AGAIN_MS);
        }}
      >
        <label>
          <span>{said.device}</span>
          <select value={device} onChange={(event) => takeDevice(event.target.value)}>
            <option value="">{said.choose}</option>
            {safety.devices.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </label>
        <label>
          <span>{said.method}</span>
          <input
            value={method}
            maxLength={ENTRY_MOST.method}
            list={ways}
            autoComplete="off"
            onChange={(event) => takeMethod(event.target.value)}
          />
          <datalist id={ways}>
            {said.methods.map((way) => (
              <option key={way} value={way} />
            ))}
          </datalist>
        </label>
        <label>
          <span>{said.person}</span>
          <input
            value={person}
            readOnly={own !== undefined}
            maxLength={ENTRY_MOST.person}
            autoComplete="off"
            onChange={(event) => takePerson(event.target.value)}
          />
        </label>
        <button type="submit" className="btn plain" disabled={!whole}>
          {said.record}
        </button>
      </form>
    </section>
  );
}
