import { useState } from 'react';
import type { OtherStep, SheetView } from '../../model/view/sheetView.ts';
import { words } from '../app/words.ts';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useSession } from '../people/session.ts';
import { usePart } from '../store/use.tsx';
import { useNetwork } from './here.ts';
import { InWords } from './inWords.tsx';
import type { StepProps } from './numberStep.tsx';
import { StepHead, StepSaid } from './stepHead.tsx';

const said = words.screen.sheet;

/** A part, a check or an approval on one column: yes with one tap, no with words. */
export function OtherPage(props: StepProps<OtherStep>) {
  const { step, sheet, acts, isKept, isShut, next } = props;
  const [saysNo, sayNo] = useState(false);
  const mayApprove = useMayApprove();
  const shut = step.kind === 'approval' ? !mayApprove : isShut;
  const no = (text: string | undefined) => {
    acts.done(step, false, text);
    sayNo(false);
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
      {saysNo ? (
        <InWords asks={told.asks} choices={told.words} take={no} back={() => sayNo(false)} />
      ) : (
        !shut && (
          <div className="sheetkeys">
            <YesKey
              step={step}
              onTap={() => {
                acts.done(step, true);
                next();
              }}
            />
            <button type="button" className="sheetkey" onClick={() => sayNo(true)}>
              {told.no}
            </button>
          </div>
        )
      )}
    </>
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
