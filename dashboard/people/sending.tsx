import { type FormEvent, type ReactNode, useState } from 'react';
import { words } from '../app/words.ts';
import { send } from './session.ts';

const said = words.screen.people;

/** A form that sends its fields, and says in words what keeps it from being done. */
export function Sending({
  method = 'POST',
  path,
  body,
  done,
  says,
  keep = false,
  children,
}: {
  readonly method?: 'POST' | 'PUT' | 'PATCH';
  readonly path: string;
  /** What its fields come to; or words on why they cannot be sent so. */
  readonly body: (field: (name: string) => string) => object | string;
  /** `made`: what was sent. */
  readonly done?: (code: string | undefined, made: object) => void;
  /** On the button. */
  readonly says: string;
  /** Whether the fields stay as they are when it is done. */
  readonly keep?: boolean;
  readonly children: ReactNode;
}) {
  const [busy, setBusy] = useState(false);
  const [why, tell] = useState<string>();
  const submit = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = event.currentTarget;
    const fields = new FormData(form);
    const made = body((name) => String(fields.get(name) ?? ''));
    if (typeof made === 'string') return tell(made);
    setBusy(true);
    const sent = await send(method, path, made);
    setBusy(false);
    tell(sent.ok ? undefined : sent.why);
    if (!sent.ok) return;
    if (!keep) form.reset();
    done?.(sent.code, made);
  };
  return (
    <form className="peopleform" onSubmit={(event) => void submit(event)}>
      {children}
      <button type="submit" className="btn" disabled={busy}>
        {busy ? said.checking : says}
      </button>
      {why !== undefined && (
        <p role="alert" className="why">
          {why}
        </p>
      )}
    </form>
  );
}

/** A field with its words above it. */
export function Field({
  name,
  label,
  kind = 'text',
  most,
  optional = false,
}: {
  readonly name: string;
  readonly label: string;
  readonly kind?: 'text' | 'secret' | 'newSecret';
  readonly most: number;
  readonly optional?: boolean;
}) {
  const complete = { text: 'off', secret: 'current-password', newSecret: 'new-password' }[kind];
  return (
    <label>
      <span>{label}</span>
      <input
        name={name}
        type={kind === 'text' ? 'text' : 'password'}
        maxLength={most}
        autoComplete={name === 'number' ? 'username' : complete}
        autoCapitalize="none"
        spellCheck={false}
        required={!optional}
      />
    </label>
  );
}
