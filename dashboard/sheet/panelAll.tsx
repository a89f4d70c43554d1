import { useState } from 'react';
import type { SheetsHere } from '../../model/view/sheetKept.ts';
import type { SheetView } from '../../model/view/sheetView.ts';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { Key } from '../panel/key.tsx';
import { FlowHead } from '../panel/panel-head.tsx';
import { useNetwork } from './here.ts';
import { KeptBar } from './kept.tsx';
import { isReadAgain } from './steps.ts';
import { AsOf, AtRate, OtherSize } from './told.tsx';
import type { Walk } from './walk.ts';

const said = words.screen.sheet;

/** So many steps have a key on a page: three rows of four. */
const KEYS = 12;

/** Every step, with what is open; and what concerns the sheet as a whole. */
export function PanelAll({
  here,
  sheet,
  told,
  walk,
  leave,
}: {
  readonly here: PositionView;
  readonly sheet: SheetView;
  readonly told: SheetsHere;
  readonly walk: Walk;
  readonly leave: () => void;
}) {
  const { steps, left } = sheet;
  const { isGone } = useNetwork();
  const firstOpen = steps.findIndex(({ isDone }) => !isDone);
  const [from, turn] = useState(() => (firstOpen >= KEYS ? Math.floor(firstOpen / KEYS) * KEYS : 0));
  const shown = steps.slice(from, from + KEYS);
  const isLong = steps.length > KEYS;
  const [close, closeSays] = said.close.key(left);
  return (
    <>
      <h1 className="unseen">{said.title(sheet)}</h1>
      <FlowHead here={here} title={said.title(sheet)} right={said.openShort(left)} />
      {shown.map((step, i) => (
        <Key
          key={step.id}
          says={[]}
          left={24 + (i % 4) * 310}
          top={180 + Math.floor(i / 4) * 138}
          width={302}
          height={130}
          kind={step.isDone ? 'step1 done' : 'step1'}
          onTap={() => walk.go({ kind: 'step', id: step.id })}
        >
          <span>
            {step.kind === 'number' && `${step.id} `}
            {step.name}
          </span>
          <small>
            <i className={step.isDone ? 'pip full' : 'pip'} />
            {!step.isDone && `${said.all.open}, `}
            {said.beside(step, isReadAgain(step), told.keptHere.has(step.id))}
            {told.changed.has(step.id) && `, ${said.ahead.changed}`}
          </small>
        </Key>
      ))}
      <div className="panelsheet atfoot">
        <KeptBar always />
        <OtherSize sheet={sheet} />
        <AsOf told={told} />
        {left === 0 ? (
          <p>
            <b>{said.allDone}</b> {sheet.atRate === undefined && said.untilRate}
          </p>
        ) : (
          <AtRate sheet={sheet} />
        )}
      </div>
      {isLong && (
        <FootKey
          place={0}
          says={said.all.others(from + KEYS < steps.length ? steps.length - from - KEYS : from)}
          onTap={() => turn(from + KEYS < steps.length ? from + KEYS : 0)}
        />
      )}
      <FootKey place={1} says={said.hand.key} onTap={() => walk.go({ kind: 'hand' })} />
      <FootKey
        place={2}
        says={[close!, isGone ? said.close.late : closeSays!]}
        isDead={isGone}
        onTap={() => walk.go({ kind: 'close' })}
      />
      <FootKey place={3} says={said.panelKeys.leave} onTap={leave} />
    </>
  );
}

function FootKey({
  place,
  says,
  isDead = false,
  onTap,
}: {
  readonly place: number;
  readonly says: readonly string[];
  readonly isDead?: boolean;
  readonly onTap: () => void;
}) {
  return (
    <Key
      says={says}
      left={24 + place * 310}
      top={660}
      width={302}
      height={130}
      look="quiet"
      kind="sheetkey1"
      disabled={isDead}
      onTap={onTap}
    />
  );
}
