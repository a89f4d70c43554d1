import { type ReactNode, useState } from 'react';
import type { FittedView } from '../../model/view/fittedView.ts';
import type { OtherStep } from '../../model/view/sheetView.ts';
import { words } from '../app/words.ts';
import { PanelNames } from '../fitted/panelFitted.tsx';
import { useNaming, useThingOf } from '../fitted/things.ts';
import { Key } from '../panel/key.tsx';
import { useSettled } from '../panel/settled.ts';
import { PersonFlow } from '../people/panelPerson.tsx';
import { send, useSession } from '../people/session.ts';
import { useNetwork } from './here.ts';
import type { StepProps } from './numberStep.tsx';
import { StepTold, useMayApprove } from './otherStep.tsx';
import { PanelStepFrame } from './panelFrame.tsx';
import type { PanelProps } from './panelNumber.tsx';
import { PanelWords } from '../panel/words.tsx';
import { StepHead, StepSaid } from './stepHead.tsx';

const said = words.screen.sheet;
const ROWS = [276, 414] as const;
/** Two keys in a row. */
const HALF = 230;
const KEYS = { left: 788, width: 468, height: 130 } as const;

type Props = StepProps<OtherStep> & PanelProps;

/** A part, a check or an approval at a panel: yes with one tap, no with words; who approves logs in by number and code. */
export function PanelOther(props: Props) {
  const { here, step, sheet, acts, isKept, next } = props;
  const [page, open] = useState<'step' | 'no' | 'name' | 'person'>('step');
  const thing = useThingOf(step.id);
  const nameIt = useNaming(sheet.id);
  const back = () => open('step');
  const told = said[step.kind];
  if (page === 'person') return <PersonFlow here={here} close={back} done={back} />;
  if (page === 'name' && thing)
    return (
      <PanelNames
        here={here}
        thing={thing}
        take={(name) => {
          nameIt(thing, name);
          next();
        }}
        back={back}
      />
    );
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
        <YesNo
          {...props}
          no={() => open('no')}
          yes={told.yes as string}
          {...(thing ? { naming: { thing, open: () => open('name') } } : {})}
        />
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
  naming,
  children,
}: Props & {
  readonly yes: string;
  readonly no: () => void;
  /** It is named as well; of the board that is the step. */
  readonly naming?: { readonly thing: FittedView; readonly open: () => void };
  readonly children?: ReactNode;
}) {
  const ready = useSettled(step.id);
  const isBoard = naming?.thing.what === 'lot';
  const [first, second] = ROWS;
  const besideNo = children !== undefined || (naming && !isBoard);
  return (
    <>
      {!isBoard && (
        <Key
          says={[yes]}
          {...KEYS}
          top={first}
          kind="main1"
          ready={ready}
          onTap={() => {
            acts.done(step, true);
            next();
          }}
        />
      )}
      {naming && (
        <Key
          says={words.screen.fitted.stepKey(naming.thing)}
          {...KEYS}
          {...(isBoard ? {} : { left: KEYS.left + KEYS.width - HALF, width: HALF })}
          top={isBoard ? first : second}
          kind={isBoard ? 'main1 name1' : 'sheetkey1 name1'}
          ready={ready}
          onTap={naming.open}
        />
      )}
      <Key
        says={[said[step.kind].no, besideNo ? '' : said.stays]}
        {...KEYS}
        width={besideNo ? HALF : KEYS.width}
        top={second}
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
      left={KEYS.left + KEYS.width - HALF}
      top={ROWS[1]}
      width={HALF}
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
        top={ROWS[0]}
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
