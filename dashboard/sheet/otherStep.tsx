import { useState } from 'react';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import type { FittedView } from '../../model/view/fittedView.ts';
import type { OtherStep, SheetView } from '../../model/view/sheetView.ts';
import { words } from '../app/words.ts';
import { useNaming, useThingOf } from '../fitted/things.ts';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useSession } from '../people/session.ts';
import { usePart } from '../store/use.tsx';
import { useNetwork } from './here.ts';
import { InWords } from '../entries/inWords.tsx';
import type { StepProps } from './numberStep.tsx';
import { StepHead, StepSaid } from './stepHead.tsx';

const said = words.screen.sheet;

/** A part, a check or an approval on one column: yes with one tap, no with words. */
export function OtherPage(props: StepProps<OtherStep>) {
  const { step, sheet, acts, isKept, isShut, next } = props;
  const [says, say] = useState<'no' | 'name'>();
  const thing = useThingOf(step.id);
  const nameIt = useNaming(sheet.id);
  const mayApprove = useMayApprove();
  const shut = step.kind === 'approval' ? !mayApprove : isShut;
  const no = (text: string | undefined) => {
    acts.done(step, false, text);
    say(undefined);
  };
  const told = said[step.kind];
  return (
    <>
      <section className="stepcard">
        <StepHead step={step} width={84} />
        <StepTold step={step} sheet={sheet} />
        <StepSaid step={step} isKept={isKept} />
      </section>
      {step.kind === 'approval' && <ApprovalNeeds />}
      {says === 'no' && (
        <InWords asks={told.asks} choices={told.words} take={no} back={() => say(undefined)} />
      )}
      {says === 'name' && thing && (
        <InWords
          asks={words.screen.fitted.asks(thing)}
          choices={thing.last}
          most={ENTRY_MOST.setting}
          take={(name) => {
            if (name !== undefined) nameIt(thing, name);
            next();
          }}
          back={() => say(undefined)}
        />
      )}
      {says === undefined && !shut && (
        <div className="sheetkeys">
          {thing?.what !== 'lot' && (
            <YesKey
              step={step}
              onTap={() => {
                acts.done(step, true);
                next();
              }}
            />
          )}
          {thing && <NameKey thing={thing} onTap={() => say('name')} />}
          <button type="button" className="sheetkey" onClick={() => say('no')}>
            {told.no}
          </button>
        </div>
      )}
    </>
  );
}

/** Which one it is, by its name; of the board that is the step. */
function NameKey({ thing, onTap }: { readonly thing: FittedView; readonly onTap: () => void }) {
  const [which, last] = words.screen.fitted.stepKey(thing);
  return (
    <button type="button" className={thing.what === 'lot' ? 'sheetkey main' : 'sheetkey'} onClick={onTap}>
      {which}
      <small>{last}</small>
    </button>
  );
}

function YesKey({ step, onTap }: { readonly step: OtherStep; readonly onTap: () => void }) {
  const number = useSession()?.person?.number;
  return (
    <button type="button" className="sheetkey main" onClick={onTap}>
      {step.kind === 'approval' ? said.approval.yes(number) : said[step.kind].yes}
    </button>
  );
}

/** Which part this size takes; what trial cartons are; under whose number an approval stands. */
export function StepTold({ step, sheet }: { readonly step: OtherStep; readonly sheet: SheetView }) {
  const { trialCartons, current } = usePart('changeover');
  if (step.kind === 'part')
    return (
      <p className="steptold part">
        {step.part === undefined ? said.part.any : said.part.takes(sheet.size.name)}
        {step.part !== undefined && <b>{step.part}</b>}
      </p>
    );
  if (step.kind === 'approval') return <p className="steptold">{said.approval.bears}</p>;
  // what belongs to no station is tried on cartons
  if (step.station) return null;
  return <p className="steptold">{said.check.trial(current ? trialCartons : 0)}</p>;
}

/** What it takes to approve from here, if it cannot be done as it is. */
function ApprovalNeeds() {
  const { isGone } = useNetwork();
  const mayApprove = useMayApprove();
  if (mayApprove) return null;
  return (
    <div className="sheetneeds">
      <NeedsLogIn act="approveStep" />
      {isGone && <p>{said.approval.offline}</p>}
    </div>
  );
}

export function useMayApprove(): boolean {
  const session = useSession();
  return session === undefined || session.may.includes('approveStep');
}
