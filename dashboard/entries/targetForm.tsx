import { useState } from 'react';
import type { PastOverview } from '../../model/past/overview.ts';
import { words } from '../app/words.ts';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useEnter, usePart } from '../store/use.tsx';
import { tenthsOf } from './correctedBody.ts';
import { Choosing, Typing } from './fields.tsx';

const said = words.screen.past.said.target;
const AGAIN_MS = 1_200;

/** [EN4] What a size is to be made at from now on by a crew, or that the line's file says it again. */
export function TargetForm({
  sizes,
  again,
}: {
  readonly sizes: PastOverview['sizes'];
  readonly again: () => void;
}) {
  const enter = useEnter();
  const crews = usePart('crews');
  const [size, chooseSize] = useState(sizes[0]?.id ?? '');
  const [crew, chooseCrew] = useState(String((crews.find(({ now }) => now) ?? crews[0])?.people ?? ''));
  const [typed, type] = useState('');
  const perMinute = tenthsOf(typed.trim());
  if (sizes.length === 0 || crew === '') return null;
  const keep = (number: number | null) => {
    enter({ kind: 'target', size, crew: Number(crew), perMinute: number });
    type('');
    setTimeout(again, AGAIN_MS);
  };
  return (
    <details className="noprint">
      <summary>{said.title}</summary>
      <NeedsLogIn act="target" />
      <form
        className="fields"
        onSubmit={(event) => {
          event.preventDefault();
          if (perMinute !== undefined) keep(perMinute);
        }}
      >
        <Choosing
          label={said.size}
          value={size}
          options={sizes.map(({ id, name }) => [id, name])}
          choose={chooseSize}
        />
        <Choosing
          label={said.crew}
          value={crew}
          options={crews.map(({ people, note }) => [String(people), `${people}, ${note}`])}
          choose={chooseCrew}
        />
        <Typing label={said.perMinute} value={typed} most={5} type={type} numeric />
        <button type="submit" className="btn plain" disabled={perMinute === undefined}>
          {said.keep}
        </button>
        <button type="button" className="btn plain" onClick={() => keep(null)}>
          {said.asFile}
        </button>
      </form>
    </details>
  );
}
