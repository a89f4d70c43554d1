import { useEffect, useState } from 'react';
import type { Question } from '../../model/view/matter.ts';
import type { LineView, PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { roomHeight } from '../encryption/clearText.tsx';
import { PanelFitted } from '../fitted/panelFitted.tsx';
import { isOfSheet, useNetwork, useSheetsAhead } from '../sheet/here.ts';
import { type LeftSheet, useLeft } from '../sheet/left.ts';
import { PanelLeft } from '../sheet/leftSaid.tsx';
import { PanelSheet, PanelSheetRefused } from '../sheet/panelSheet.tsx';
import type { Sent } from '../store/store.ts';
import { useDismiss, useHeld, usePart } from '../store/use.tsx';
import { PersonFlow } from '../people/panelPerson.tsx';
import { Home } from './home.tsx';
import { useLastKept } from './lastKept.ts';
import { Latched } from './latched.tsx';
import { LEFT_ALONE_MS, whenLeftAlone } from './leftAlone.ts';
import { NoticeFlow } from './notice.tsx';
import { useCalling } from './calling.ts';
import { NoteScreen } from './note.tsx';
import { OrderFlow } from './order.tsx';
import { ButtonQuestion, StopQuestion } from './question.tsx';
import { Refused } from './refused.tsx';
import { SentBar } from './sent-bar.tsx';
import { TakenFlow } from './taken.tsx';

/** What a person has opened by hand on this panel; everything else opens by itself. */
export type Opened =
  | { readonly kind: 'nothing' | 'note' | 'order' | 'taken' | 'fitted' | 'person' }
  /** The list of notices, or one of them. */
  | { readonly kind: 'notices'; readonly notice?: string }
  /** The setter's sheet; over a stop device that is latched in only where it was opened from there, for that press. */
  | { readonly kind: 'sheet'; readonly press?: string }
  /** Words for the stop that was asked about when it was opened, and for no other. */
  | { readonly kind: 'else'; readonly stop: string };

const NOTHING: Opened = { kind: 'nothing' };
/** Whoever sets a machine is away from the panel for a while, and comes back to the same step; the line asks nothing meanwhile. */
const SHEET_ALONE_MS = 15 * 60_000;

/** The line-side panel of one loading position: 1280 × 800, scaled as a whole, one question at a time. */
export function Panel({ position }: { readonly position: string }) {
  const loading = usePart('loading');
  const here = loading.find((one) => one.id === position);
  useScale();
  return here === undefined ? <Nowhere position={position} positions={loading} /> : <PanelAt here={here} />;
}

function PanelAt({ here }: { readonly here: PositionView }) {
  useSheetsAhead();
  const [opened, open] = useState<Opened>(NOTHING);
  const question = useOpenQuestion();
  const isSetting = usePart('changeover').current;
  useEffect(
    () =>
      opened.kind === 'nothing'
        ? undefined
        : whenLeftAlone(
            window,
            () => open(NOTHING),
            opened.kind === 'sheet' && isSetting ? SHEET_ALONE_MS : LEFT_ALONE_MS,
          ),
    [opened, isSetting],
  );
  const over = opened.kind === 'else' && opened.stop !== question?.stop;
  useEffect(() => {
    if (over) open(NOTHING);
  }, [over]);
  return (
    <div className="panelframe">
      <main className="panel">
        <Page here={here} question={question} opened={over ? NOTHING : opened} open={open} />
      </main>
    </div>
  );
}

/** A latched stop device before all, then what was refused, then what a person opened, then a question, then the rest. */
function Page({
  here,
  question,
  opened,
  open,
}: {
  readonly here: PositionView;
  readonly question: Question | undefined;
  readonly opened: Opened;
  readonly open: (page: Opened) => void;
}) {
  const head = usePart('head');
  const button = useOpenButton();
  const refused = useHeld((held) => held.sent.find((sent) => sent.state === 'refused' && !isOfSheet(sent)));
  const ofSheet = useHeld((held) => held.sent.find((sent) => sent.state === 'refused' && isOfSheet(sent)));
  const [later, putLater] = useState<string>();
  const left = useLeftToRead();
  const [laterLeft, putLaterLeft] = useState<string>();
  const hasSheet = usePart('sheets').open !== undefined;
  const dismiss = useDismiss();
  const last = useLastKept();
  const calling = useCalling();
  const close = () => open(NOTHING);
  const press = latchedPress(head);
  const isAtSheet = opened.kind === 'sheet' && (press === undefined || opened.press === press);
  if (press !== undefined && !isAtSheet)
    return <Latched here={here} {...(hasSheet ? { toSheet: () => open({ kind: 'sheet', press }) } : {})} />;
  if (refused !== undefined)
    return <Refused here={here} sent={refused} onTap={() => dismiss(refused.entry.id)} />;
  if (ofSheet !== undefined && later !== idOf(ofSheet))
    return <PanelSheetRefused here={here} sent={ofSheet} later={() => putLater(idOf(ofSheet))} />;
  if (left !== undefined && laterLeft !== leftKey(left))
    return <PanelLeft here={here} left={left} later={() => putLaterLeft(leftKey(left))} />;
  if (opened.kind === 'sheet') return <PanelSheet here={here} close={close} />;
  if (opened.kind === 'else')
    return <NoteScreen key={opened.stop} here={here} stop={opened.stop} close={close} />;
  if (opened.kind === 'note') return <NoteScreen here={here} stop={undefined} close={close} />;
  if (opened.kind === 'order') return <OrderFlow here={here} close={close} />;
  if (opened.kind === 'person') return <PersonFlow here={here} close={close} />;
  if (opened.kind === 'notices') {
    const choose = (notice: string | undefined) =>
      open({ kind: 'notices', ...(notice === undefined ? {} : { notice }) });
    return <NoticeFlow here={here} notice={opened.notice} choose={choose} close={close} />;
  }
  if (opened.kind === 'fitted') return <PanelFitted here={here} close={close} />;
  if (opened.kind === 'taken') return <TakenFlow here={here} close={close} />;
  if (question !== undefined) {
    const somethingElse = () => open({ kind: 'else', stop: question.stop });
    return <StopQuestion here={here} question={question} somethingElse={somethingElse} />;
  }
  if (button !== undefined) return <ButtonQuestion here={here} matter={button} />;
  if (calling.notice !== undefined) {
    // from here on it is chosen by a person, and nothing opens by itself behind it
    const choose = (notice: string | undefined) => {
      calling.putAside();
      open({ kind: 'notices', ...(notice === undefined ? {} : { notice }) });
    };
    return <NoticeFlow here={here} notice={calling.notice} choose={choose} itself close={calling.putAside} />;
  }
  return (
    <>
      <Home here={here} open={open} last={last} />
      <SentBar />
    </>
  );
}

/** The press of a stop device that is latched in, or released and not yet restarted. */
function latchedPress(head: LineView['head']): string | undefined {
  if (head.kind === 'pressed') return head.press.id;
  if (head.kind !== 'stopped' || !head.press) return undefined;
  const { id, released, restarted } = head.press;
  return released !== undefined && restarted === undefined ? id : undefined;
}

/** One that was sent again and refused again is asked about again. */
const leftKey = ({ sheet, entries }: LeftSheet) => `${sheet?.id ?? ''} ${entries.length}`;

/** What is to be read of sheets that are not open; once all that waits here was sent, so that it is told at one time. */
function useLeftToRead(): LeftSheet | undefined {
  const [left] = useLeft();
  const { kept } = useNetwork();
  return kept === 0 ? left : undefined;
}

const idOf = ({ entry, since }: Sent) => `${entry.id} ${since}`;

/** The question, unless this panel has just answered it. */
function useOpenQuestion(): Question | undefined {
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
        String(Math.min(innerWidth / 1280, roomHeight() / 800)),
      );
    follow();
    addEventListener('resize', follow);
    return () => removeEventListener('resize', follow);
  }, []);
}
