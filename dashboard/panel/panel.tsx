import { useEffect, useState } from 'react';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { useDismiss, useHeld, usePart } from '../store/use.tsx';
import { Home } from './home.tsx';
import { Latched } from './latched.tsx';
import { NoteScreen } from './note.tsx';
import { OrderFlow } from './order.tsx';
import { ButtonQuestion, StopQuestion } from './question.tsx';
import { Refused } from './refused.tsx';
import { SentBar } from './sent-bar.tsx';

/** What a person has opened by hand on this panel; everything else opens by itself. */
export type Opened = 'nothing' | 'note' | 'order' | 'else';

/** An opened page that nobody touches goes back, so that a question is not hidden behind it. */
const LEFT_ALONE_MS = 90_000;

/** The line-side panel of one loading position: 1280 × 800, scaled as a whole, one question at a time. */
export function Panel({ position }: { readonly position: string }) {
  const loading = usePart('loading');
  const here = loading.find((one) => one.id === position);
  useScale();
  return here === undefined ? <Nowhere position={position} positions={loading} /> : <PanelAt here={here} />;
}

function PanelAt({ here }: { readonly here: PositionView }) {
  const [opened, open] = useState<Opened>('nothing');
  useEffect(() => {
    if (opened === 'nothing') return;
    const timer = setTimeout(() => open('nothing'), LEFT_ALONE_MS);
    return () => clearTimeout(timer);
  }, [opened]);
  return (
    <div className="panelframe">
      <main className="panel">
        <Page here={here} opened={opened} open={open} />
      </main>
    </div>
  );
}

/** A latched stop device before all, then what was refused, then what a person opened, then a question, then the rest. */
function Page({
  here,
  opened,
  open,
}: {
  readonly here: PositionView;
  readonly opened: Opened;
  readonly open: (page: Opened) => void;
}) {
  const head = usePart('head');
  const question = useOpenQuestion();
  const button = useOpenButton();
  const refused = useHeld((held) => held.sent.find((sent) => sent.state === 'refused'));
  const dismiss = useDismiss();
  const close = () => open('nothing');
  if (
    head.kind === 'pressed' ||
    (head.kind === 'stopped' && head.press?.released !== undefined && head.press.restarted === undefined)
  ) {
    return <Latched here={here} />;
  }
  if (refused !== undefined)
    return <Refused here={here} sent={refused} onTap={() => dismiss(refused.entry.id)} />;
  if (opened === 'else' && question !== undefined)
    return <NoteScreen here={here} stop={question.stop} close={close} />;
  if (opened === 'note') return <NoteScreen here={here} stop={undefined} close={close} />;
  if (opened === 'order') return <OrderFlow here={here} close={close} />;
  if (question !== undefined)
    return <StopQuestion here={here} question={question} somethingElse={() => open('else')} />;
  if (button !== undefined) return <ButtonQuestion here={here} matter={button} />;
  return (
    <>
      <Home here={here} open={open} />
      <SentBar />
    </>
  );
}

/** The question, unless this panel has just answered it. */
function useOpenQuestion() {
  const question = usePart('question');
  const answered = useHeld((held) =>
    held.sent.some(
      ({ entry, state }) =>
        state !== 'refused' &&
        (entry.kind === 'reason' || entry.kind === 'notNow') &&
        entry.stop === question?.stop,
    ),
  );
  return answered ? undefined : question;
}

function useOpenButton() {
  const matters = usePart('matters');
  const matter = matters.find((one) => one.kind === 'whichButton');
  const [put, putAside] = useState<string | undefined>();
  const answered = useHeld((held) =>
    held.sent.some(
      ({ entry, state }) => state !== 'refused' && entry.kind === 'device' && entry.press === matter?.press,
    ),
  );
  if (matter === undefined || answered || put === matter.press) return undefined;
  return { ...matter, putAside: () => putAside(matter.press) };
}

export type OpenButton = NonNullable<ReturnType<typeof useOpenButton>>;

function Nowhere({
  position,
  positions,
}: {
  readonly position: string;
  readonly positions: readonly PositionView[];
}) {
  const { page } = words.screen;
  return (
    <main className="waiting">
      <h1>{page.noPosition(position)}</h1>
      <p>{page.positions}</p>
      <ul>
        {positions.map(({ id, name }) => (
          <li key={id}>
            <a href={`/panel/${encodeURIComponent(id)}`}>{name}</a>
          </li>
        ))}
      </ul>
    </main>
  );
}

function useScale() {
  useEffect(() => {
    const follow = () =>
      document.documentElement.style.setProperty(
        '--panel',
        String(Math.min(innerWidth / 1280, innerHeight / 800)),
      );
    follow();
    addEventListener('resize', follow);
    return () => removeEventListener('resize', follow);
  }, []);
}
