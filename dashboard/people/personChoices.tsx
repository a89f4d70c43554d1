import { useState } from 'react';
import type { Role } from '../../model/access/access.ts';
import { words } from '../app/words.ts';
import type { PersonRow, TellCode } from './people.tsx';
import { Roles, rolesIn } from './roles.tsx';
import { Field, Sending } from './sending.tsx';
import { type Sent, send } from './session.ts';

const said = words.screen.people.list;

/** What can be done about one number; what cannot be undone is asked twice. */
export function PersonChoices({
  person,
  again,
  tell,
}: {
  readonly person: PersonRow;
  readonly again: () => void;
  readonly tell: TellCode;
}) {
  const { number, name, disabled, sessions, heldUntil } = person;
  const path = `/api/people/${encodeURIComponent(number)}`;
  const [roles, take] = useState<readonly Role[]>(person.roles);
  const [why, say] = useState<string>();
  const act = async (sending: Promise<Sent>, then?: string) => {
    const sent = await sending;
    say(sent.ok ? then : sent.why);
    if (sent.ok && sent.code !== undefined) tell({ number, code: sent.code });
    again();
  };
  return (
    <div className="personchoices">
      <Sending method="PATCH" path={path} says={said.save} body={() => ({ roles })} done={again}>
        <Roles chosen={roles} choose={(role) => take(rolesIn(roles, role))} />
      </Sending>
      <Sending
        method="PATCH"
        path={path}
        says={said.save}
        body={(field) => ({ name: field('name') })}
        done={again}
      >
        <Field name="name" label={said.newName} most={100} />
      </Sending>
      <div className="keys">
        {name !== null && (
          <Twice says={said.eraseName} act={() => void act(send('DELETE', `${path}/name`), said.erased)} />
        )}
        <Twice says={said.newCode} act={() => void act(send('POST', `${path}/code`))} />
        {disabled === null ? (
          <Twice says={said.disable} act={() => void act(send('PATCH', path, { disabled: true }))} />
        ) : (
          <Once says={said.enable} act={() => void act(send('PATCH', path, { disabled: false }))} />
        )}
        {sessions > 0 && (
          <Once says={said.endSessions} act={() => void act(send('DELETE', `${path}/sessions`))} />
        )}
        {heldUntil !== null && (
          <Once says={said.release} act={() => void act(send('DELETE', `${path}/held`))} />
        )}
      </div>
      {why !== undefined && (
        <p role="alert" className="why">
          {why}
        </p>
      )}
    </div>
  );
}

function Once({ says, act }: { readonly says: string; readonly act: () => void }) {
  return (
    <button type="button" className="btn plain" onClick={act}>
      {says}
    </button>
  );
}

/** The first press asks, the second acts. */
function Twice({ says, act }: { readonly says: string; readonly act: () => void }) {
  const [asks, ask] = useState(false);
  return (
    <button
      type="button"
      className="btn plain"
      aria-pressed={asks}
      onBlur={() => ask(false)}
      onClick={() => {
        ask(!asks);
        if (asks) act();
      }}
    >
      {asks ? `${says}. ${said.sure}` : says}
    </button>
  );
}
