import type { ReactNode } from 'react';
import { words } from '../app/words.ts';
import { Ask, Key } from '../panel/key.tsx';
import { FlowHead } from '../panel/panel-head.tsx';
import { useSettled } from '../panel/settled.ts';
import type { Draft } from './draft.ts';
import type { PanelNumberProps } from './panelNumber.tsx';
import { readBackWays } from './steps.ts';

const said = words.screen.sheet;

/** What was more likely meant is the first key; what was typed is taken as typed, where the scale has it. */
export function DoubtPage({ here, step, draft }: PanelNumberProps & { readonly draft: Draft }) {
  const ready = useSettled('doubt');
  const { asking } = draft;
  if (asking.kind !== 'doubt') return null;
  const { doubt, value } = asking;
  const [ask, why] = said.doubted(doubt, value, step);
  const { likely } = doubt;
  return (
    <Asked here={here} step={step} asks={ask} why={why}>
      {likely !== undefined && (
        <Key
          says={[said.yes(likely, step)]}
          left={24}
          top={384}
          width={604}
          height={130}
          kind="main1"
          ready={ready}
          onTap={() => draft.enter(likely)}
        />
      )}
      {doubt.kind !== 'offScale' && (
        <Key
          says={[doubt.kind === 'fine' ? draft.typed : said.indeed(value, step), said.asTyped]}
          left={652}
          top={384}
          width={604}
          height={130}
          look="asks"
          kind="astyped1"
          ready={ready}
          onTap={() => draft.enter(value)}
        />
      )}
      <LookAgain draft={draft} />
    </Asked>
  );
}

/** [SP10] It stays there, or was moved to the book's number: two keys of one weight. */
export function OffBookPage({
  here,
  step,
  draft,
  value,
  book,
}: PanelNumberProps & { readonly draft: Draft; readonly value: number; readonly book: number }) {
  const ready = useSettled('offBook');
  const key = (says: readonly string[], left: number, kind: string, stands: number) => (
    <Key
      says={says}
      left={left}
      top={384}
      width={604}
      height={130}
      look="asks"
      kind={kind}
      ready={ready}
      onTap={() => draft.stand(stands, value)}
    />
  );
  return (
    <Asked here={here} step={step} asks={said.offBook.asks(value, step)} why={said.offBook.why(book, step)}>
      {key(said.offBook.stays(value, step), 24, 'stays1', value)}
      {key(said.offBook.moved(book, step), 652, 'moved1', book)}
      <LookAgain draft={draft} />
    </Asked>
  );
}

/** Two numbers of one scale that do not agree: a person says where it stands. */
export function WhichHolds({ here, step, acts, next, walk }: PanelNumberProps) {
  const ready = useSettled('which');
  return (
    <Asked here={here} step={step} asks={said.readBack.differs} why={said.readBack.both}>
      {readBackWays(step).map(({ says, value, found }, i) => (
        <Key
          key={says[0]}
          says={says}
          left={24 + (i % 2) * 628}
          top={384 + Math.floor(i / 2) * 138}
          width={604}
          height={130}
          look="asks"
          kind="way1"
          ready={ready}
          onTap={() => {
            acts.read(step, value, 'typed', found);
            next();
          }}
        />
      ))}
      <Key
        says={said.all.key}
        left={652}
        top={522}
        width={604}
        height={130}
        look="quiet"
        kind="toall1"
        onTap={() => walk.go({ kind: 'all' })}
      />
    </Asked>
  );
}

/** What is asked of a number, and why. */
function Asked({
  here,
  step,
  asks,
  why,
  children,
}: Pick<PanelNumberProps, 'here' | 'step'> & {
  readonly asks: string;
  readonly why: string;
  readonly children: ReactNode;
}) {
  return (
    <>
      <FlowHead here={here} title={`${step.id} ${step.name}`} right="" />
      <Ask top={190}>{asks}</Ask>
      <p className="told" style={{ top: 270 }} role="alert">
        {why}
      </p>
      {children}
    </>
  );
}

function LookAgain({ draft }: { readonly draft: Draft }) {
  return (
    <Key
      says={[said.lookAgain, words.screen.panel.nothingChanges]}
      left={24}
      top={522}
      width={604}
      height={130}
      look="quiet"
      kind="again1"
      onTap={draft.again}
    />
  );
}
