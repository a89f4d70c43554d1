import type { ReactNode } from 'react';
import type { SheetStep, SheetView } from '../../model/view/sheetView.ts';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { Key } from '../panel/key.tsx';
import { FlowHead } from '../panel/panel-head.tsx';
import { Caution } from '../matters/caution.tsx';
import { KeptBar } from './kept.tsx';
import { Progress } from './progress.tsx';
import { isReadAgain } from './steps.ts';
import { OtherSize } from './told.tsx';
import type { Walk } from './walk.ts';

const said = words.screen.sheet;

/** The keys at the foot of a step. */
const FOOT = 660;

/** A step at a panel: how far along, the caution, the step itself, and at the foot the steps beside it. */
export function PanelStepFrame({
  here,
  sheet,
  step,
  walk,
  leave,
  children,
}: {
  readonly here: PositionView;
  readonly sheet: SheetView;
  readonly step: SheetStep;
  readonly walk: Walk;
  readonly leave: () => void;
  readonly children: ReactNode;
}) {
  const at = sheet.steps.findIndex(({ id }) => id === step.id);
  return (
    <>
      <h1 className="unseen">{said.title(sheet)}</h1>
      <FlowHead here={here} title={said.title(sheet)} right={said.of(at + 1, sheet.steps.length)} />
      <div className="panelsheet">
        <div className="alongside">
          <Progress steps={sheet.steps} current={step.id} />
          <KeptBar always />
          <OtherSize sheet={sheet} />
        </div>
        <Caution title={`${said.caution.title} `} text={said.caution.text} mark={34} />
      </div>
      {children}
      <BesideKey sheet={sheet} at={at - 1} left={24} walk={walk} kind="before" />
      <Key
        says={[said.all.key[0], said.openSteps(sheet.left)]}
        left={374}
        top={FOOT}
        width={262}
        height={130}
        look="quiet"
        kind="sheetkey1 toall1"
        onTap={() => walk.go({ kind: 'all' })}
      />
      <Key
        says={said.panelKeys.leave}
        left={644}
        top={FOOT}
        width={262}
        height={130}
        look="quiet"
        kind="sheetkey1 leave1"
        onTap={leave}
      />
      <BesideKey sheet={sheet} at={at + 1} left={914} walk={walk} kind="next" />
    </>
  );
}

/** The step before or after, with what is known of it. */
function BesideKey({
  sheet,
  at,
  left,
  walk,
  kind,
}: {
  readonly sheet: SheetView;
  readonly at: number;
  readonly left: number;
  readonly walk: Walk;
  readonly kind: 'before' | 'next';
}) {
  const step = sheet.steps[at];
  if (!step) return null;
  const name = step.kind === 'number' ? `${step.id} ${step.name}` : step.name;
  return (
    <Key
      says={[]}
      left={left}
      top={FOOT}
      width={342}
      height={130}
      look="quiet"
      kind={`sheetkey1 beside1 ${kind}`}
      onTap={() => walk.go({ kind: 'step', id: step.id })}
    >
      <span>
        <span className="besidename">
          {kind === 'before' && <span>‹</span>}
          <span className="besidesays">{name}</span>
          {kind === 'next' && <span>›</span>}
        </span>
        <small>{said.beside(step, isReadAgain(step))}</small>
      </span>
    </Key>
  );
}
