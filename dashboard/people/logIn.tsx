import { useEffect, useRef, useState } from 'react';
import { SECRET } from '../../model/access/secrets.ts';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import { words } from '../app/words.ts';
import { usePart } from '../store/use.tsx';
import { OwnPush } from './ownPush.tsx';
import { OwnSecret } from './ownSecret.tsx';
import { Field, Sending } from './sending.tsx';
import { type Session, send, useSession } from './session.ts';

const said = words.screen.people;

/** A quiet button that says who is logged in; nothing where the gateway knows of no people. */
export function LogInButton() {
  const session = useSession();
  const [isOpen, open] = useState(false);
  if (session === undefined) return null;
  const { person } = session;
  return (
    <>
      <button type="button" className="theme noprint person" onClick={() => open(true)}>
        {person === null ? said.open : said.openAs(person.number)}
      </button>
      {isOpen && <LogInDialog session={session} close={() => open(false)} />}
    </>
  );
}

function LogInDialog({ session, close }: { readonly session: Session; readonly close: () => void }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const latched = usePart('head').kind === 'pressed';
  useEffect(() => {
    if (!dialog.current?.open) dialog.current?.showModal();
  }, []);
  // a stop device that is latched in is not hidden behind it
  const shut = useRef(close);
  shut.current = close;
  useEffect(() => {
    if (latched) shut.current();
  }, [latched]);
  return (
    <dialog ref={dialog} className="logindialog" aria-labelledby="login" onClose={close}>
      <h2 id="login">{said.title}</h2>
      {session.person === null ? (
        <LogIn close={close} />
      ) : (
        <Person person={session.person} may={session.may} />
      )}
      <button type="button" className="btn plain" onClick={close}>
        {said.close}
      </button>
    </dialog>
  );
}

function LogIn({ close }: { readonly close: () => void }) {
  const [isFirst, first] = useState(false);
  return (
    <>
      <p className="second">{said.notNeeded}</p>
      <Sending
        path="/api/session"
        says={said.logIn}
        body={(field) => ({ number: field('number'), secret: field('secret') })}
        done={close}
      >
        <Field name="number" label={said.number} most={ENTRY_MOST.person} />
        <Field name="secret" label={said.secret} kind="secret" most={SECRET.most} />
      </Sending>
      {isFirst ? (
        <FirstAdmin close={close} />
      ) : (
        <button type="button" className="btn plain" onClick={() => first(true)}>
          {said.first.open}
        </button>
      )}
    </>
  );
}

function FirstAdmin({ close }: { readonly close: () => void }) {
  return (
    <section className="first">
      <h3>{said.first.open}</h3>
      <p className="second">{said.first.about}</p>
      <Sending
        path="/api/session/admin"
        says={said.first.make}
        body={(field) => ({ code: field('code'), number: field('number'), secret: field('secret') })}
        done={close}
      >
        <Field name="code" label={said.first.code} most={64} />
        <Field name="number" label={said.number} most={ENTRY_MOST.person} />
        <Field name="secret" label={said.first.password} kind="newSecret" most={SECRET.most} />
      </Sending>
    </section>
  );
}

function Person({
  person,
  may,
}: {
  readonly person: NonNullable<Session['person']>;
  readonly may: Session['may'];
}) {
  const { zone } = usePart('line');
  const [why, tell] = useState<string>();
  const leave = async () => {
    const sent = await send('DELETE', '/api/session');
    tell(sent.ok ? undefined : sent.why);
  };
  return (
    <>
      <p>
        <b>{said.is(person.number, person.name)}</b> {said.has(person.allRoles)}
        {person.allRoles.length > person.roles.length && !person.mustChoose && ` ${said.byCode}`}
      </p>
      <p className="second">{said.until(person.until, zone)}</p>
      <OwnSecret must={person.mustChoose} />
      {!person.mustChoose && <OwnPush />}
      <div className="keys">
        {may.includes('people') && (
          <a className="btn plain" href="/people">
            {said.list.open}
          </a>
        )}
        <button type="button" className="btn" onClick={() => void leave()}>
          {said.logOut}
        </button>
      </div>
      {why !== undefined && (
        <p role="alert" className="why">
          {why}
        </p>
      )}
    </>
  );
}
