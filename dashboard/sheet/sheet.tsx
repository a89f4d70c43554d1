import type { SheetsHere } from '../../model/view/sheetKept.ts';
import type { SheetView } from '../../model/view/sheetView.ts';
import { type ReactNode, useEffect, useRef } from 'react';
import { LightOrDark, Screens } from '../app/screens.tsx';
import { words } from '../app/words.ts';
import { useHeadline } from '../blank/head.tsx';
import { Caution } from '../matters/caution.tsx';
import { LogInButton } from '../people/logIn.tsx';
import { useSettled } from '../panel/settled.ts';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useSession } from '../people/session.ts';
import { useSheetActs } from './acts.ts';
import { AllSteps } from './all.tsx';
import { Begin } from './begin.tsx';
import { useNetwork, useSheetsAhead, useSheetsHere } from './here.ts';
import { FittedHere } from '../fitted/fitted.tsx';
import { InWords } from '../entries/inWords.tsx';
import { KeptBar, RefusedHere } from './kept.tsx';
import { LeftHere } from './leftSaid.tsx';
import { NumberPage } from './numberStep.tsx';
import { OtherPage } from './otherStep.tsx';
import { Progress } from './progress.tsx';
import { Ended, OfSheet } from './told.tsx';
import { isReadAgain, sheetKey } from './steps.ts';
import { useWalk, type Walk } from './walk.ts';

const said = words.screen.sheet;

/** The setter's sheet on a phone or a desk: one step a page, kept here while there is no network. */
export function SheetScreen() {
  useSheetsAhead();
  const told = useSheetsHere();
  const { sheets } = told;
  const headline = useHeadline();
  return (
    <div className="setsheet">
      <KeptBar always />
      <header className="sheettop">
        <p>
          <a href="/">{words.screen.page.line}</a>
          <span>{headline}</span>
        </p>
        <LogInButton />
      </header>
      <main>
        <RefusedHere />
        <LeftHere />
        {sheets.open ? (
          <OpenSheet key={sheetKey(sheets.open)} sheet={sheets.open} told={told} />
        ) : (
          <>
            <h1>{said.name}</h1>
            {sheets.ended && <Ended sheet={sheets.ended} />}
            <NeedsLogIn act="setting" />
            <Begin sheets={sheets} />
            <FittedHere />
          </>
        )}
      </main>
      <footer>
        <Screens current="sheet" />
        <LightOrDark />
      </footer>
    </div>
  );
}

function OpenSheet({ sheet, told }: { readonly sheet: SheetView; readonly told: SheetsHere }) {
  const walk = useWalk(sheet);
  const { place, step, go } = walk;
  const at = step ? sheet.steps.indexOf(step) : -1;
  const shown = step?.id ?? place.kind;
  const before = useRef(shown);
  useEffect(() => {
    // each page begins at its top
    if (before.current !== shown) scrollTo(0, 0);
    before.current = shown;
  }, [shown]);
  return (
    <>
      <div className="sheettitle">
        <h1>{said.title(sheet)}</h1>
        <span>{at >= 0 ? said.of(at + 1, sheet.steps.length) : said.openSteps(sheet.left)}</span>
      </div>
      <button
        type="button"
        className="toall"
        aria-label={`${said.all.title}: ${said.openSteps(sheet.left)}`}
        onClick={() => go({ kind: 'all' })}
      >
        <Progress steps={sheet.steps} current={step?.id} />
      </button>
      <OfSheet sheet={sheet} told={told} />
      <Caution title={`${said.caution.title} `} text={said.caution.text} mark={28} />
      <NeedsLogIn act="setting" />
      <Settling of={shown}>
        <Opened sheet={sheet} told={told} walk={walk} />
      </Settling>
      {step && place.kind === 'step' && <Beside sheet={sheet} at={at} walk={walk} />}
    </>
  );
}

/** A finger that is still on its way to a key of the page before finds none here. */
function Settling({ of, children }: { readonly of: string; readonly children: ReactNode }) {
  const isSettled = useSettled(of);
  return (
    <div
      className="opened"
      data-settled={isSettled}
      onClickCapture={(event) => {
        if (!isSettled) event.stopPropagation();
      }}
    >
      {children}
    </div>
  );
}

function Opened({
  sheet,
  told,
  walk,
}: {
  readonly sheet: SheetView;
  readonly told: SheetsHere;
  readonly walk: Walk;
}) {
  const acts = useSheetActs(sheet);
  const session = useSession();
  const { isGone } = useNetwork();
  const isShut = session !== undefined && !session.may.includes('setting');
  const { place, step, go } = walk;
  if (place.kind === 'hand')
    return (
      <InWords
        asks={said.hand.asks}
        choices={said.hand.words}
        isNeeded={false}
        take={(text) => {
          acts.hand(text);
          go({ kind: 'all' });
        }}
        back={() => go({ kind: 'all' })}
      />
    );
  if (place.kind === 'close')
    return (
      <InWords
        asks={said.close.asks(sheet.left)}
        choices={said.close.words}
        take={(text) => {
          acts.close(text ?? '');
          go({ kind: 'all' });
        }}
        back={() => go({ kind: 'all' })}
      />
    );
  if (step) {
    const next = () => go({ kind: 'after', id: step.id });
    const props = {
      sheet,
      acts,
      isKept: told.keptHere.has(step.id),
      asOf: told.asOf,
      bookThen: told.changed.get(step.id),
      isShut,
      next,
    };
    return step.kind === 'number' ? (
      <NumberPage key={`${step.id} ${isReadAgain(step)}`} step={step} {...props} />
    ) : (
      <OtherPage key={step.id} step={step} {...props} />
    );
  }
  return (
    <>
      {sheet.left === 0 && <AllDone sheet={sheet} />}
      <AllSteps sheet={sheet} told={told} go={go} />
      {!isShut && (
        <div className="sheetkeys">
          <button type="button" className="sheetkey" onClick={() => go({ kind: 'hand' })}>
            {said.hand.key[0]}
            <small>{said.hand.key[1]}</small>
          </button>
          <button type="button" className="sheetkey" disabled={isGone} onClick={() => go({ kind: 'close' })}>
            {said.close.key(sheet.left)[0]}
            <small>{isGone ? said.close.late : said.close.key(sheet.left)[1]}</small>
          </button>
        </div>
      )}
    </>
  );
}

function AllDone({ sheet }: { readonly sheet: SheetView }) {
  return (
    <p className="sheetnote">
      <b>{said.allDone}</b> {sheet.atRate === undefined && said.untilRate}
    </p>
  );
}

/** The step before and the one after, with what is known of them. */
function Beside({
  sheet,
  at,
  walk,
}: {
  readonly sheet: SheetView;
  readonly at: number;
  readonly walk: Walk;
}) {
  const side = (place: number, way: 'before' | 'next') => {
    const step = sheet.steps[place];
    if (!step) return <span />;
    return (
      <button type="button" className={way} onClick={() => walk.go({ kind: 'step', id: step.id })}>
        <span>
          {step.kind === 'number' && <b>{step.id} </b>}
          <span>{step.name}</span>
          <small>{said.beside(step, isReadAgain(step))}</small>
        </span>
      </button>
    );
  };
  return (
    <nav className="sheetbeside" aria-label={words.screen.page.stepsOf}>
      {side(at - 1, 'before')}
      {side(at + 1, 'next')}
    </nav>
  );
}
