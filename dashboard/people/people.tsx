import { useState } from 'react';
import type { Role, SecretKind } from '../../model/access/access.ts';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import { Screens, ThemeSwitch } from '../app/screens.tsx';
import { ColumnHeads } from '../app/columnHeads.tsx';
import { words } from '../app/words.ts';
import { useAsked } from '../past/asked.ts';
import { PersonChoices } from './personChoices.tsx';
import { Roles, rolesIn } from './roles.tsx';
import { Field, Sending } from './sending.tsx';
import { useSession } from './session.ts';
import { LogInSettings } from './settings.tsx';
import { usePart } from '../store/use.tsx';

const said = words.screen.people.list;

export interface PersonRow {
  readonly number: string;
  readonly name: string | null;
  readonly roles: readonly Role[];
  readonly disabled: number | null;
  readonly secrets: readonly SecretKind[];
  readonly provisional: boolean;
  readonly sessions: number;
  readonly heldUntil: number | null;
}

/** Everybody who has a number, for admins: names stand here and nowhere else. */
export function People() {
  const session = useSession();
  const may = session?.may.includes('people') === true;
  return (
    <div className="desk people">
      <header className="deskbar">
        <Screens current="people" />
        <ThemeSwitch />
      </header>
      <main>
        <h1>{said.title}</h1>
        {may ? <List /> : <p className="saying">{said.notAdmin}</p>}
      </main>
    </div>
  );
}

const ASK_MS = 3_600_000;

function List() {
  const asked = useAsked<readonly PersonRow[]>('/api/people', ASK_MS);
  const [code, tell] = useState<{ readonly number: string; readonly code: string }>();
  const [opened, open] = useState<string>();
  if (asked.state === 'noAnswer') return <p className="saying">{words.screen.people.noAnswer}</p>;
  if (!asked.data) return null;
  return (
    <>
      <p className="lead">
        <b>{said.lead(asked.data.length)}</b> {said.about}
      </p>
      {code && (
        <p className="saying" role="status">
          <b>{said.code(code.number, code.code)}</b> {said.codeAbout}
        </p>
      )}
      <table className="sheet">
        <ColumnHeads columns={said.columns} keyed />
        <tbody>
          {asked.data.map((person) => (
            <Row
              key={person.number}
              person={person}
              isOpen={opened === person.number}
              open={() => open(opened === person.number ? undefined : person.number)}
              again={asked.again}
              tell={tell}
            />
          ))}
        </tbody>
      </table>
      <AddPerson again={asked.again} tell={tell} />
      <LogInSettings />
    </>
  );
}

export type TellCode = (code: { readonly number: string; readonly code: string }) => void;

function Row({
  person,
  isOpen,
  open,
  again,
  tell,
}: {
  readonly person: PersonRow;
  readonly isOpen: boolean;
  readonly open: () => void;
  readonly again: () => void;
  readonly tell: TellCode;
}) {
  const { zone } = usePart('line');
  const { number, name, roles, disabled, secrets, provisional, sessions, heldUntil } = person;
  const state = [
    disabled === null ? '' : said.disabled,
    heldUntil === null ? '' : said.held(heldUntil, zone),
    said.sessions(sessions),
  ].filter((one) => one !== '');
  return (
    <>
      <tr data-number={number} className={disabled === null ? '' : 'off'}>
        <th scope="row">{number}</th>
        <td>{name ?? <span className="second">{said.noName}</span>}</td>
        <td>{roles.map((role) => words.screen.people.roles[role]).join(', ')}</td>
        <td>
          {said.by(secrets, provisional)}
          {state.length > 0 && <small>{state.join(', ')}</small>}
        </td>
        <td>
          <button type="button" className="btn plain" aria-expanded={isOpen} onClick={open}>
            {said.change}
          </button>
        </td>
      </tr>
      {isOpen && (
        <tr className="changes">
          <td colSpan={5}>
            <PersonChoices person={person} again={again} tell={tell} />
          </td>
        </tr>
      )}
    </>
  );
}

function AddPerson({ again, tell }: { readonly again: () => void; readonly tell: TellCode }) {
  const [roles, take] = useState<readonly Role[]>(['operator']);
  return (
    <section className="sheet">
      <h2>{said.addTitle}</h2>
      <Sending
        path="/api/people"
        says={said.add}
        body={(field) => {
          const name = field('name').trim();
          return { number: field('number'), roles, ...(name === '' ? {} : { name }) };
        }}
        done={(code, made) => {
          if (code !== undefined) tell({ number: String((made as { number?: string }).number), code });
          again();
        }}
      >
        <Field name="number" label={said.addNumber} most={ENTRY_MOST.person} />
        <Field name="name" label={said.name} most={100} optional />
        <Roles chosen={roles} choose={(role) => take(rolesIn(roles, role))} />
      </Sending>
    </section>
  );
}
