import { useState } from 'react';
import { words } from '../app/words.ts';
import { useAsked } from '../past/asked.ts';
import { Sending } from './sending.tsx';

const said = words.screen.people.settings;
const NUMBERS = ['idleMinutes', 'panelIdleMinutes', 'hoursMost', 'namesKeptDays'] as const;

type Settings = { readonly closed: boolean } & Readonly<Record<(typeof NUMBERS)[number], number>>;

const ASK_MS = 3_600_000;

/** How long log-ins last, and whether desks have to log in. */
export function LogInSettings() {
  const { data } = useAsked<Settings>('/api/people/settings', ASK_MS);
  const [saved, tell] = useState(false);
  if (!data) return null;
  return (
    <section className="sheet">
      <h2>{said.title}</h2>
      <Sending
        method="PUT"
        path="/api/people/settings"
        says={said.save}
        keep
        body={(field) => ({
          closed: field('closed') === 'on',
          ...Object.fromEntries(NUMBERS.map((name) => [name, Number(field(name))])),
        })}
        done={() => tell(true)}
      >
        <label className="check">
          <input type="checkbox" name="closed" defaultChecked={data.closed} />
          <span>{said.closed}</span>
        </label>
        {NUMBERS.map((name) => (
          <label key={name}>
            <span>{said[name]}</span>
            <input
              type="number"
              name={name}
              min={name === 'namesKeptDays' ? 0 : 1}
              required
              defaultValue={data[name]}
            />
          </label>
        ))}
      </Sending>
      {saved && <p role="status">{said.saved}</p>}
    </section>
  );
}
