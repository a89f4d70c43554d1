import { useState } from 'react';
import type { SheetsHere } from '../../model/view/sheetKept.ts';
import type { SheetOffered } from '../../model/view/sheetOffered.ts';
import type { SheetsView, SheetView } from '../../model/view/sheetView.ts';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { PanelFitted } from '../fitted/panelFitted.tsx';
import { Ask, BackKey, Key } from '../panel/key.tsx';
import { PagedKeys } from '../panel/pagedKeys.tsx';
import { PanelWords } from '../panel/words.tsx';
import { FlowHead } from '../panel/panel-head.tsx';
import type { Sent } from '../store/store.ts';
import { useAgain, useDismiss, useEnter, usePart } from '../store/use.tsx';
import { useSheetActs } from './acts.ts';
import { BEGUN_KINDS, sizesInTurn, useBegun } from './begin.tsx';
import { useSheetsHere } from './here.ts';
import { refusedSaid } from './kept.tsx';
import { PanelAll } from './panelAll.tsx';
import { PanelNumber } from './panelNumber.tsx';
import { PanelOther } from './panelOther.tsx';
import { isReadAgain, sheetKey } from './steps.ts';
import { Ended, Handed } from './told.tsx';
import { FIRST_OPEN, useWalk, type Walk } from './walk.ts';

const said = words.screen.sheet;

/** The setter's sheet as pages of a line-side panel; the position is the author. */
export function PanelSheet({ here, close }: { readonly here: PositionView; readonly close: () => void }) {
  const told = useSheetsHere();
  const { sheets } = told;
  return sheets.open ? (
    <OpenSheet key={sheetKey(sheets.open)} here={here} sheet={sheets.open} told={told} leave={close} />
  ) : (
    <BeginPages here={here} sheets={sheets} close={close} />
  );
}

function OpenSheet({
  here,
  sheet,
  told,
  leave,
}: {
  readonly here: PositionView;
  readonly sheet: SheetView;
  readonly told: SheetsHere;
  readonly leave: () => void;
}) {
  // what was said by whoever handed it over is read before anything is set
  const walk = useWalk(sheet, sheet.handed.length > 0 ? { kind: 'handed' } : FIRST_OPEN);
  const acts = useSheetActs(sheet);
  const { place, step, go } = walk;
  const toAll = () => go({ kind: 'all' });
  if (place.kind === 'handed') return <HandedPage here={here} sheet={sheet} walk={walk} />;
  if (place.kind === 'hand' || place.kind === 'close') {
    const isHand = place.kind === 'hand';
    return (
      <PanelWords
        key={place.kind}
        here={here}
        title={isHand ? said.hand.title : said.close.title}
        asks={isHand ? said.hand.asks : said.close.asks(sheet.left)}
        choices={isHand ? said.hand.words : said.close.words}
        isNeeded={!isHand}
        take={(text) => {
          if (isHand) acts.hand(text);
          else acts.close(text ?? '');
          toAll();
        }}
        back={toAll}
      />
    );
  }
  if (!step) return <PanelAll here={here} sheet={sheet} told={told} walk={walk} leave={leave} />;
  const next = () => go({ kind: 'after', id: step.id });
  const props = {
    ...{ here, sheet, acts, walk, next, leave },
    ...{ asOf: told.asOf, bookThen: told.changed.get(step.id) },
    ...{ isKept: told.keptHere.has(step.id), isShut: false },
  };
  return step.kind === 'number' ? (
    <PanelNumber key={`${step.id} ${isReadAgain(step)}`} step={step} {...props} />
  ) : (
    <PanelOther key={step.id} step={step} {...props} />
  );
}

function HandedPage({
  here,
  sheet,
  walk: { go },
}: {
  readonly here: PositionView;
  readonly sheet: SheetView;
  readonly walk: Walk;
}) {
  return (
    <>
      <h1 className="unseen">{said.title(sheet)}</h1>
      <FlowHead here={here} title={said.title(sheet)} right={said.openShort(sheet.left)} />
      <div className="panelsheet handed1">
        <Handed sheet={sheet} />
      </div>
      <Key
        says={said.hand.goOn}
        left={24}
        top={660}
        width={604}
        height={130}
        kind="goon1"
        onTap={() => go(FIRST_OPEN)}
      />
      <Key
        says={said.all.key}
        left={652}
        top={660}
        width={604}
        height={130}
        look="quiet"
        kind="toall1"
        onTap={() => go({ kind: 'all' })}
      />
    </>
  );
}

function BeginPages({
  here,
  sheets,
  close,
}: {
  readonly here: PositionView;
  readonly sheets: SheetsView;
  readonly close: () => void;
}) {
  const [size, choose] = useState<SheetsView['sizes'][number]>();
  const [isFitting, setFitting] = useState(false);
  const things = usePart('fitted');
  const enter = useEnter();
  const begun = useBegun(sheets);
  const { begin } = said;
  const { zone } = usePart('line');
  const offeredKey = (offered: SheetOffered) => ({
    id: 'offered',
    says: begin.offered(offered, zone),
    onTap: () => enter({ kind: 'sheetBegun', size: offered.size.id, in: offered.kind }),
  });
  if (isFitting) return <PanelFitted here={here} close={() => setFitting(false)} />;
  if (begun !== undefined)
    return (
      <>
        <h1 className="unseen">{said.name}</h1>
        <FlowHead here={here} title={said.name} right="" />
        <p className="told" style={{ top: 200 }} role="status">
          {begin.waits(begun)}
        </p>
        <BackKey onTap={close} />
      </>
    );
  if (size !== undefined)
    return (
      <>
        <FlowHead here={here} title={said.name} right={words.screen.panel.tap(2)} />
        <Ask top={178}>{begin.kind(size.name)}</Ask>
        {BEGUN_KINDS.map((kind, i) => (
          <Key
            key={kind}
            says={[begin.kinds[kind], begin.kindSays[kind]]}
            left={24}
            top={246 + i * 138}
            width={1232}
            height={130}
            look="asks"
            kind={`kind1 ${kind}`}
            onTap={() => enter({ kind: 'sheetBegun', size: size.id, in: kind })}
          />
        ))}
        <BackKey onTap={() => choose(undefined)} />
      </>
    );
  return (
    <>
      <FlowHead here={here} title={said.name} right={words.screen.panel.tap(1)} />
      <Ask top={178}>{begin.size}</Ask>
      <PagedKeys
        keys={[
          ...(sheets.offered ? [offeredKey(sheets.offered)] : []),
          ...sizesInTurn(sheets).map((one) => ({
            id: one.id,
            says: one.id === sheets.next ? [one.name, begin.next] : [one.name],
            onTap: () => choose(one),
          })),
        ]}
        kind="size1"
      />
      <div className="panelsheet endedbefore">{sheets.ended && <Ended sheet={sheets.ended} />}</div>
      <BackKey onTap={close} />
      {things.length > 0 && (
        <Key
          says={words.screen.fitted.key(things.find(({ what }) => what === 'lot')?.now?.name)}
          left={652}
          top={660}
          width={604}
          height={130}
          look="quiet"
          kind="fitted1"
          onTap={() => setFitting(true)}
        />
      )}
    </>
  );
}

/** What the gateway did not take of a sheet: why, how to mend it, and three ways on; it is not lost before somebody says so. */
export function PanelSheetRefused({
  here,
  sent,
  later,
}: {
  readonly here: PositionView;
  readonly sent: Sent;
  readonly later: () => void;
}) {
  const again = useAgain();
  const dismiss = useDismiss();
  const { panel } = words.screen;
  return (
    <>
      <FlowHead here={here} title={panel.notTaken} right="" />
      <Ask top={190}>{refusedSaid(sent)}</Ask>
      <p className="told" style={{ top: 290 }} role="alert">
        <b>{sent.trouble}</b>
        <br />
        {sent.why} {sent.mend}
      </p>
      <Key
        says={[said.kept.again]}
        left={24}
        top={522}
        width={604}
        height={130}
        look="asks"
        kind="again2"
        onTap={() => again(sent.entry.id)}
      />
      <Key says={said.kept.later} left={652} top={522} width={604} height={130} kind="later2" onTap={later} />
      <Key
        says={[said.kept.understood, said.kept.lost]}
        left={24}
        top={660}
        width={604}
        height={130}
        look="quiet"
        kind="dismiss2"
        onTap={() => dismiss(sent.entry.id)}
      />
    </>
  );
}
