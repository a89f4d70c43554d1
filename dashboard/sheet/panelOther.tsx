import { type ReactNode, useState } from 'react';
import type { OtherStep } from '../../model/view/sheetView.ts';
import { words } from '../app/words.ts';
import { Key } from '../panel/key.tsx';
import { useSettled } from '../panel/settled.ts';
import { PersonFlow } from '../people/panelPerson.tsx';
import { send, useSession } from '../people/session.ts';
import { useNetwork } from './here.ts';
import type { StepProps } from './numberStep.tsx';
import { StepTold, useMayApprove } from './otherStep.tsx';
import { PanelStepFrame } from './panelFrame.tsx';
import type { PanelProps } from './panelNumber.tsx';
import { PanelWords } from './panelWords.tsx';
import { StepHead, StepSaid } from './stepHead.tsx';

const said = words.screen.sheet;
const KEYS = { left: 788, width: 468, height: 130 } as const;

type Props = StepProps<OtherStep> & PanelProps;

/** A part, a check or an approval at a panel: yes with one tap, no with words; who approves logs in by number and code. */
export function PanelOther(props: Props) {
  const { here, step, sheet, acts, isKept } = props;
  const [page, open] = useState<'step' | 'no' | 'person'>('step');
  const back = () => open('step');
  const told = said[step.kind];
  if (page === 'person') return <PersonFlow here={here} close={back} done={back} />;
  if (page === 'no')
    return (
      <PanelWords
        here={here}
        title={step.name}
        asks={told.asks}
        choices={told.words}
        take={(text) => {
          acts.done(step, false, text);
          back();
        }}
        back={back}
      />
    );
  return (
    <PanelStepFrame {...props}>
      <section className="stepcard panelcard other">
        <StepHead step={step} width={110} />
        <StepTold step={step} sheet={sheet} />
        <StepSaid step={step} isKept={isKept} />
      </section>
      {step.kind === 'approval' ? (
        <ApprovalKeys {...props} no={() => open('no')} logIn={() => open('person')} />
      ) : (
        <YesNo {...props} no={() => open('no')} yes={told.yes as string} />
      )}
    </PanelStepFrame>
  );
}

function YesNo({
  step,
  acts,
  next,
  yes,
  no,
  children,
}: Props & { readonly yes: string; readonly no: () => void; readonly children?: ReactNode }) {
  const ready = useSettled(step.id);
  return (
    <>
      <Key
        says={[yes]}
        {...KEYS}
        top={276}
        kind="main1"
        ready={ready}
        onTap={() => {
          acts.done(step, true);
          next();
        }}
      />
      <Key
        says={[said[step.kind].no, children ? '' : said.stays]}
        {...KEYS}
        width={children ? 230 : KEYS.width}
        top={414}
        kind="sheetkey1 no1"
        ready={ready}
        onTap={no}
      />
      {children}
    </>
  );
}

/** It bears the number of a person: without one logged in, the one thing to do is to log in. */
function ApprovalKeys({ logIn, ...props }: Props & { readonly no: () => void; readonly logIn: () => void }) {
  const mayApprove = useMayApprove();
  const number = useSession()?.person?.number;
  const { isGone } = useNetwork();
  const logOut = number !== undefined && (
    <Key
      says={said.approval.logOut}
      left={1026}
      top={414}
      width={230}
      height={130}
      look="quiet"
      kind="sheetkey1 logout1"
      disabled={isGone}
      onTap={() => void send('DELETE', '/api/session')}
    />
  );
  if (mayApprove)
    return (
      <YesNo {...props} yes={said.approval.yes(number)}>
        {logOut}
      </YesNo>
    );
  return (
    <>
      <Key
        says={said.approval.logIn}
        {...KEYS}
        top={276}
        look="asks"
        kind="login1"
        disabled={isGone}
        onTap={logIn}
      />
      <div className="panelknown told1">
        {isGone ? (
          <p>{said.approval.offline}</p>
        ) : (
          number !== undefined && <p>{words.people.notYours('approveStep').what}</p>
        )}
      </div>
      {logOut}
    </>
  );
}
