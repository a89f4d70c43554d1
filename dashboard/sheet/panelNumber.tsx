import { useState } from 'react';
import type { NumberStep } from '../../model/view/sheetView.ts';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { Ask, BackKey, Key } from '../panel/key.tsx';
import { FlowHead } from '../panel/panel-head.tsx';
import { useSettled } from '../panel/settled.ts';
import { type Draft, fieldText, useDraft } from './draft.ts';
import { NumberKeys } from './keys.tsx';
import type { StepProps } from './numberStep.tsx';
import { PanelStepFrame } from './panelFrame.tsx';
import { BookChanged, HowToSet, StepHead, StepKnown, StepSaid } from './stepHead.tsx';
import { asBookOf, isReadAgain } from './steps.ts';
import type { Walk } from './walk.ts';

const said = words.screen.sheet;

export interface PanelProps {
  readonly here: PositionView;
  readonly walk: Walk;
  readonly leave: () => void;
}

type Props = StepProps<NumberStep> & PanelProps;

/** The right column, where what is entered stands. */
const RIGHT = { left: 788, width: 468 } as const;
const ROWS = [276, 414, 552] as const;

/** A number at a panel: how to set it on the left, what it reads on the right; each question has a page of its own. */
export function PanelNumber(props: Props) {
  const { step, sheet, acts, next } = props;
  const [isTyping, type] = useState(false);
  const draft = useDraft(step, sheet, acts, next);
  if (step.readBack?.differs) return <WhichHolds {...props} />;
  if (draft.asking.kind === 'doubt') return <DoubtPage {...props} draft={draft} />;
  if (isTyping) return <TypePage {...props} draft={draft} back={() => type(false)} />;
  return <NumberFrame {...props} draft={draft} type={() => type(true)} />;
}

function NumberFrame(props: Props & { readonly draft: Draft; readonly type: () => void }) {
  const { step, sheet, isKept, asOf, bookThen } = props;
  const again = isReadAgain(step);
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
      {again ? (
        <TypeKey {...props} />
      ) : step.sensor === 'reads' ? (
        <LeaveKey {...props} />
      ) : (
        <FieldKeys {...props} />
      )}
      <div className="panelknown" style={{ top: step.sensor === 'reads' && !again ? 424 : ROWS[2] }}>
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
}: Props & { readonly draft: Draft; readonly type: () => void }) {
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

function LeaveKey({ step, acts, next }: Props) {
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
        acts.read(step, value, 'typed');
        next();
      }}
    />
  );
}

/** What the scale reads, by keys. */
function TypePage({ here, step, draft, back }: Props & { readonly draft: Draft; readonly back: () => void }) {
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

/** What was more likely meant is the first key; what was typed is taken as typed, where the scale has it. */
function DoubtPage({ here, step, draft }: Props & { readonly draft: Draft }) {
  const ready = useSettled('doubt');
  const { asking } = draft;
  if (asking.kind !== 'doubt') return null;
  const { doubt, value } = asking;
  const [ask, why] = said.doubted(doubt, value, step);
  const { likely } = doubt;
  return (
    <>
      <FlowHead here={here} title={`${step.id} ${step.name}`} right="" />
      <Ask top={190}>{ask}</Ask>
      <p className="told" style={{ top: 270 }} role="alert">
        {why}
      </p>
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
    </>
  );
}

/** Two numbers of one scale that do not agree: a person says which holds. */
function WhichHolds({ here, step, acts, next, walk }: Props) {
  const ready = useSettled('which');
  const hold = (value: number | undefined) => {
    if (value === undefined) return;
    acts.read(step, value, 'typed');
    next();
  };
  return (
    <>
      <FlowHead here={here} title={`${step.id} ${step.name}`} right="" />
      <Ask top={190}>{said.readBack.differs}</Ask>
      <p className="told" style={{ top: 270 }} role="alert">
        {said.readBack.both}
      </p>
      <Key
        says={[said.readBack.second(step)]}
        left={24}
        top={384}
        width={604}
        height={130}
        look="asks"
        kind="second1"
        ready={ready}
        onTap={() => hold(step.readBack?.done?.value)}
      />
      <Key
        says={[said.readBack.first(step)]}
        left={652}
        top={384}
        width={604}
        height={130}
        look="asks"
        kind="first1"
        ready={ready}
        onTap={() => hold(step.done?.value)}
      />
      <Key
        says={said.all.key}
        left={24}
        top={522}
        width={604}
        height={130}
        look="quiet"
        kind="toall1"
        onTap={() => walk.go({ kind: 'all' })}
      />
    </>
  );
}
