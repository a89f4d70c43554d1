import { useEffect, useRef, useState } from 'react';
import { SECRET } from '../../model/access/secrets.ts';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { KeypadPage } from '../panel/keypad.tsx';
import { PanelTest } from './panelTest.tsx';
import { send, useSession } from './session.ts';

const said = words.screen.people.panel;

/** Longer numbers than this are a slip of the glove. */
const NUMBER_MOST = 12;

/** At a panel: number and code by keys that gloves can press, then what needs them: a test, unless another thing waits. */
export function PersonFlow({
  here,
  close,
  done,
}: {
  readonly here: PositionView;
  readonly close: () => void;
  /** Acts once somebody is logged in; without it tests are recorded. */
  readonly done?: () => void;
}) {
  const person = useSession()?.person;
  const [given, give] = useState<{ readonly number: string; readonly code: string }>();
  if (!person) return <LogInPages here={here} close={close} done={give} />;
  if (person.mustChoose) return <OwnCodePages here={here} before={given?.code} close={close} />;
  if (done) return <LoggedIn done={done} />;
  return <PanelTest here={here} number={person.number} close={close} />;
}

function LoggedIn({ done }: { readonly done: () => void }) {
  const act = useRef(done);
  useEffect(() => act.current(), []);
  return null;
}

type Given = { readonly number: string; readonly code: string };

function LogInPages({
  here,
  close,
  done,
}: {
  readonly here: PositionView;
  readonly close: () => void;
  readonly done: (given: Given) => void;
}) {
  const [digits, type] = useState('');
  const [number, take] = useState<string>();
  if (number === undefined)
    return (
      <KeypadPage
        here={here}
        title={said.title}
        asks={said.whichNumber}
        digits={digits}
        most={NUMBER_MOST}
        type={type}
        typed={digits === '' ? said.noDigits : digits}
        take={{ says: said.next, ready: digits !== '', onTap: () => take(digits) }}
        back={close}
      >
        {said.hint}
      </KeypadPage>
    );
  return (
    <CodePage
      key={number}
      here={here}
      title={words.screen.people.openAs(number)}
      asks={said.whichCode}
      says={said.logIn}
      to={said.toNumber}
      back={() => take(undefined)}
      take={async (code) => {
        const sent = await send('POST', '/api/session', { number, secret: code, place: 'panel' });
        if (sent.ok) done({ number, code });
        return sent.ok ? undefined : sent.why;
      }}
    />
  );
}

/** A code that somebody else made is good for choosing another: twice, so that a slip is not chosen. */
function OwnCodePages({
  here,
  before,
  close,
}: {
  readonly here: PositionView;
  readonly before: string | undefined;
  readonly close: () => void;
}) {
  const [typed, know] = useState<string>();
  const old = before ?? typed;
  const [next, choose] = useState<string>();
  const page = { here, title: said.ownNext, says: said.choose, told: said.must, back: close };
  if (old === undefined)
    return <CodePage key="old" {...page} asks={said.whichCode} take={async (code) => void know(code)} />;
  if (next === undefined)
    return <CodePage key="next" {...page} asks={said.ownNext} take={async (code) => void choose(code)} />;
  return (
    <CodePage
      key="again"
      {...page}
      asks={said.ownAgain}
      to={said.toCode}
      back={() => choose(undefined)}
      take={async (code) => {
        if (code !== next) return words.screen.people.own.differ;
        const sent = await send('PUT', '/api/session/secret', { secret: old, next });
        return sent.ok ? undefined : sent.why;
      }}
    />
  );
}

/** A page that asks for a code, and shows only how many digits it has. */
function CodePage({
  here,
  title,
  asks,
  says,
  told = '',
  to,
  back,
  take,
}: {
  readonly here: PositionView;
  readonly title: string;
  readonly asks: string;
  readonly says: readonly string[];
  readonly told?: string;
  readonly to?: string;
  readonly back: () => void;
  /** Answers why it was not taken, in words. */
  readonly take: (code: string) => Promise<string | undefined>;
}) {
  const [digits, type] = useState('');
  const [busy, wait] = useState(false);
  const [why, tell] = useState<string>();
  const onTap = async () => {
    wait(true);
    const refused = await take(digits);
    wait(false);
    tell(refused);
    type('');
  };
  return (
    <KeypadPage
      here={here}
      title={title}
      asks={asks}
      digits={digits}
      most={SECRET.codeMost}
      type={type}
      typed={digits === '' ? said.noCode : said.dots(digits)}
      take={{ says, ready: digits.length >= SECRET.codeLeast && !busy, onTap: () => void onTap() }}
      {...(to === undefined ? {} : { to })}
      back={back}
    >
      {busy ? words.screen.people.checking : (why ?? told)}
    </KeypadPage>
  );
}
