import { useState } from 'react';
import type { NumberStep } from '../../model/view/sheetView.ts';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { Ask, BackKey, Key } from '../panel/key.tsx';
import { FlowHead } from '../panel/panel-head.tsx';
import { useSettled } from '../panel/settled.ts';
import { type Draft, fieldText, useNumberDraft } from './draft.ts';
import { useNetwork } from './here.ts';
import { NumberKeys } from './keys.tsx';
import type { StepProps } from './numberStep.tsx';
import { PanelStepFrame } from './panelFrame.tsx';
import { BookChanged, HowToSet, StepHead, StepKnown, StepSaid } from './stepHead.tsx';
import { DoubtPage, OffBookPage, WhichHolds } from './panelAsked.tsx';
import { asBookOf, isReadAgain, isSensed } from './steps.ts';
import type { Walk } from './walk.ts';

const said = words.screen.sheet;

export interface PanelProps {
  readonly here: PositionView;
  readonly walk: Walk;
  readonly leave: () => void;
}

export type PanelNumberProps = StepProps<NumberStep> & PanelProps;

/** The right column, where what is entered stands. */
const RIGHT = { left: 788, width: 468 } as const;
const ROWS = [276, 414, 552] as const;

/** A number at a panel: how to set it on the left, what it reads on the right; each question has a page of its own. */
export function PanelNumber(props: PanelNumberProps) {
  const { step, sheet, acts, next } = props;
  const [isTyping, type] = useState(false);
  const draft = useNumberDraft(step, sheet, acts, next);
  if (step.readBack?.differs) return <WhichHolds {...props} />;
  if (draft.asking.kind === 'doubt') return <DoubtPage {...props} draft={draft} />;
  if (draft.asking.kind === 'offBook') return <OffBookPage {...props} draft={draft} {...draft.asking} />;
  if (isTyping) return <TypePage {...props} draft={draft} back={() => type(false)} />;
  return <NumberFrame {...props} draft={draft} type={() => type(true)} />;
}

function NumberFrame(props: PanelNumberProps & { readonly draft: Draft; readonly type: () => void }) {
  const { step, sheet, isKept, asOf, bookThen } = props;
  const again = isReadAgain(step);
  const { isGone } = useNetwork();
  const sensed = isSensed(step, isGone) && !again;
  return (
    <PanelStepFrame {...props}>
      <section className="stepcard panelcard">
        <StepHead step={step} width={70} />
        {again ? (
          <p className="stepknown large">
            <b>{said.readBack.title}.</b> {said.readBack.why}
          </p>
        ) : (
          <HowToSet step={step} sheet={sheet} asOf={asOf} />
        )}
      </section>
      {again ? <TypeKey {...props} /> : sensed ? <LeaveKey {...props} /> : <FieldKeys {...props} />}
      <div className="panelknown" style={{ top: sensed ? 424 : ROWS[2] }}>
        {!again && (step.done === undefined || step.sensor === 'reads') && <StepKnown step={step} />}
        {!again && <StepSaid step={step} isKept={isKept} />}
        {!again && <BookChanged step={step} bookThen={bookThen} />}
      </div>
    </PanelStepFrame>
  );
}

/** Less and more by one mark, the field between, and under them what enters it and what confirms the book. */
function FieldKeys({
  step,
  sheet,
  acts,
  next,
  draft,
  type,
}: PanelNumberProps & { readonly draft: Draft; readonly type: () => void }) {
  const ready = useSettled(step.id);
  const mark = said.number(10 ** -step.decimals, step);
  const confirmed = asBookOf(step, sheet);
  const side = (marks: 1 | -1) => {
    const to = draft.on(marks);
    return (
      <Key
        says={[]}
        left={marks < 0 ? RIGHT.left : RIGHT.left + RIGHT.width - 130}
        top={ROWS[0]}
        width={130}
        height={130}
        kind="side1"
        disabled={to === undefined}
        onTap={() => to !== undefined && draft.type(fieldText(to, step))}
      >
        <span aria-hidden="true">
          {marks < 0 ? '−' : '+'}
          <small>{mark}</small>
        </span>
        <span className="unseen">
          {marks < 0 ? said.field.less(step, mark) : said.field.more(step, mark)}
        </span>
      </Key>
    );
  };
  return (
    <>
      {side(-1)}
      <Key
        says={draft.typed === '' ? [said.field.type] : [draft.typed]}
        left={RIGHT.left + 138}
        top={ROWS[0]}
        width={192}
        height={130}
        look="asks"
        kind={draft.typed === '' ? 'field1 none' : 'field1'}
        onTap={type}
      />
      {side(1)}
      <Key
        says={[said.field.enter(draft.typed)]}
        left={RIGHT.left}
        top={ROWS[1]}
        width={confirmed.length > 0 ? 230 : RIGHT.width}
        height={130}
        kind="main1"
        disabled={draft.typed === ''}
        ready={ready}
        onTap={draft.take}
      />
      {confirmed.length > 0 && (
        <Key
          says={[said.asBook.key, said.asBook.short(confirmed.map(({ id }) => id))]}
          left={RIGHT.left + 238}
          top={ROWS[1]}
          width={230}
          height={130}
          kind="sheetkey1 asbook1"
          ready={ready}
          onTap={() => {
            acts.asBook(step);
            next();
          }}
        />
      )}
    </>
  );
}

function TypeKey({ type }: { readonly type: () => void }) {
  return (
    <Key
      says={[said.readBack.short, said.field.tap]}
      left={RIGHT.left}
      top={ROWS[0]}
      width={RIGHT.width}
      height={130}
      look="asks"
      kind="field2"
      onTap={type}
    />
  );
}

function LeaveKey({ step, acts, next }: PanelNumberProps) {
  const ready = useSettled(step.id);
  const value = step.now?.value;
  if (value === undefined || step.sensed || step.done?.value === value) return null;
  return (
    <Key
      says={[said.sensor.leave(step), said.sensor.leaveSays]}
      left={RIGHT.left}
      top={ROWS[0]}
      width={RIGHT.width}
      height={130}
      kind="sheetkey1"
      ready={ready}
      onTap={() => {
        acts.read(step, value, 'typed', value);
        next();
      }}
    />
  );
}

/** What the scale reads, by keys. */
function TypePage({
  here,
  step,
  draft,
  back,
}: PanelNumberProps & { readonly draft: Draft; readonly back: () => void }) {
  const again = isReadAgain(step);
  return (
    <>
      <FlowHead here={here} title={`${step.id} ${step.name}`} right="" />
      <Ask top={178}>{again ? said.readBack.ask : said.field.ask}</Ask>
      <div className="panelkeys">
        <NumberKeys step={step} typed={draft.typed} type={draft.type} />
      </div>
      <output className="typed">
        {draft.typed === '' ? said.field.nothing : `${draft.typed}${said.unitOf(step)}`}
      </output>
      <p className="found" role="status">
        {draft.asking.kind === 'noNumber' ? said.field.noNumber : said.field.range(step)}{' '}
        {words.screen.caution.beside}
      </p>
      <Key
        says={[said.field.enter(draft.typed)]}
        left={652}
        top={522}
        width={604}
        height={130}
        kind="main1"
        disabled={draft.typed === ''}
        onTap={draft.take}
      />
      <BackKey left={652} to={said.all.back} onTap={back} />
    </>
  );
}
