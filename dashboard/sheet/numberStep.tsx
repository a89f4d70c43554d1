import { useEffect, useRef, useState } from 'react';
import type { EpochMs } from '../../model/units/units.ts';
import type { BookThen } from '../../model/view/sheetKept.ts';
import type { NumberStep, SheetView } from '../../model/view/sheetView.ts';
import { words } from '../app/words.ts';
import { Mark } from '../marks/symbols.tsx';
import type { SheetActs } from './acts.ts';
import { type Draft, fieldText, useNumberDraft } from './draft.ts';
import { useNetwork } from './here.ts';
import { NumberKeys } from './keys.tsx';
import { BookChanged, HowToSet, StepHead, StepKnown, StepSaid } from './stepHead.tsx';
import { SheetScale } from './drawn.tsx';
import { asBookOf, isReadAgain, isSensed, readBackWays } from './steps.ts';

const said = words.screen.sheet;

export interface StepProps<Step> {
  readonly step: Step;
  readonly sheet: SheetView;
  readonly acts: SheetActs;
  readonly isKept: boolean;
  /** The numbers are from this moment: the gateway has not answered since the sheet was begun here. */
  readonly asOf: EpochMs | undefined;
  /** What the book said when the sheet was begun here, where it says another number now. */
  readonly bookThen: BookThen | undefined;
  /** Nobody may enter anything here. */
  readonly isShut: boolean;
  /** Goes on to the step that is open next. */
  readonly next: () => void;
}

/** A number on one column: how to set it, and the field for what the scale reads. */
export function NumberPage(props: StepProps<NumberStep>) {
  const { step, sheet, acts, isKept, asOf, bookThen, isShut, next } = props;
  const draft = useNumberDraft(step, sheet, acts, next);
  const { isGone } = useNetwork();
  if (isReadAgain(step)) return <ReadBackPage {...props} draft={draft} />;
  return (
    <>
      <section className="stepcard">
        <StepHead step={step} width={84} />
        <HowToSet step={step} sheet={sheet} asOf={asOf} />
        {(step.done === undefined || step.sensor === 'reads') && <StepKnown step={step} />}
        <StepSaid step={step} isKept={isKept} />
        <BookChanged step={step} bookThen={bookThen} />
      </section>
      {step.readBack?.differs ? (
        <WhichHolds {...props} />
      ) : isShut ? null : isSensed(step, isGone) ? (
        <LeaveIt {...props} />
      ) : (
        <>
          <Field step={step} draft={draft} />
          <Asked step={step} draft={draft} />
          {!isAsked(draft) && <Enter {...props} draft={draft} />}
        </>
      )}
    </>
  );
}

/** What was typed waits for an answer. */
const isAsked = ({ asking: { kind } }: Draft) => kind === 'doubt' || kind === 'offBook';

/** The number entered before is not shown, nor what would tell it. */
function ReadBackPage({ step, isShut, draft }: StepProps<NumberStep> & { readonly draft: Draft }) {
  return (
    <>
      <section className="stepcard">
        <StepHead step={step} width={84} />
        <div className="stepscale">
          <SheetScale step={step} bare />
        </div>
        <p className="stepknown">
          <b>{said.readBack.title}.</b> {said.readBack.why}
        </p>
      </section>
      {!isShut && (
        <>
          <Field step={step} draft={draft} isBare />
          <Asked step={step} draft={draft} />
          {!isAsked(draft) && (
            <button
              type="button"
              className="sheetkey main"
              disabled={draft.typed === ''}
              onClick={draft.take}
            >
              {said.field.enter(draft.typed)}
            </button>
          )}
        </>
      )}
    </>
  );
}

/** Two numbers of one scale that do not agree: a person says where it stands, and what was read stays recorded. */
function WhichHolds({ step, acts, isShut, next }: StepProps<NumberStep>) {
  const ways = readBackWays(step);
  return (
    <div className="sheetasks" role="alert">
      <Mark id="n-want" size={42} />
      <p>
        <b>{said.readBack.differs}</b>
        {said.readBack.both}
      </p>
      {!isShut && (
        <div className="sheetkeys">
          {ways.map(({ says: [way, why], value, found }) => (
            <button
              key={way}
              type="button"
              className="sheetkey"
              onClick={() => {
                acts.read(step, value, 'typed', found);
                next();
              }}
            >
              {way}
              <small>{why}</small>
            </button>
          ))}
        </div>
      )}
    </div>
  );
}

/** What a sensor reads is not typed: it is left as it is, on purpose, or turned until it reads the book's number. */
function LeaveIt({ step, acts, next }: StepProps<NumberStep>) {
  const value = step.now?.value;
  if (value === undefined || step.sensed || step.done?.value === value) return null;
  const leave = () => {
    acts.read(step, value, 'typed', value);
    next();
  };
  return (
    <button type="button" className="sheetkey" onClick={leave}>
      {said.sensor.leave(step)}
      <small>{said.sensor.leaveSays}</small>
    </button>
  );
}

function Field({
  step,
  draft,
  isBare = false,
}: {
  readonly step: NumberStep;
  readonly draft: Draft;
  /** Without keys that go on from where it stands, which would tell. */
  readonly isBare?: boolean;
}) {
  const [isOpen, open] = useState(isBare);
  const field = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // with the key under it that enters what is typed
    if (isOpen && !isBare) field.current?.scrollIntoView({ block: 'end' });
  }, [isOpen, isBare]);
  const mark = said.number(10 ** -step.decimals, step);
  const side = (marks: 1 | -1) => {
    const to = draft.on(marks);
    const label = marks < 0 ? said.field.less(step, mark) : said.field.more(step, mark);
    return (
      <button
        type="button"
        className="sheetkey side"
        aria-label={label}
        disabled={to === undefined}
        onClick={() => to !== undefined && draft.type(fieldText(to, step))}
      >
        <b>{marks < 0 ? '−' : '+'}</b>
        <small>{mark}</small>
      </button>
    );
  };
  return (
    <div ref={field} className={isBare ? 'sheetfield bare' : 'sheetfield'}>
      {!isBare && side(-1)}
      <input
        value={draft.typed}
        maxLength={8}
        inputMode="none"
        autoComplete="off"
        aria-label={isBare ? said.readBack.asks(step) : said.field.label(step)}
        placeholder={isBare ? said.readBack.short : said.field.short}
        onChange={(event) => draft.type(event.target.value)}
        onKeyDown={(event) => event.key === 'Enter' && draft.take()}
        onClick={() => open(true)}
      />
      {!isBare && side(1)}
      {isOpen && <NumberKeys step={step} typed={draft.typed} type={draft.type} />}
    </div>
  );
}

/** What was more likely meant is the main key; what was typed is taken as typed, where the scale has it. */
function Asked({ step, draft }: { readonly step: NumberStep; readonly draft: Draft }) {
  const { asking } = draft;
  if (asking.kind === 'rest') return null;
  if (asking.kind === 'offBook') return <OffBook step={step} draft={draft} {...asking} />;
  if (asking.kind !== 'doubt')
    return (
      <div className="sheetasks" role="alert">
        <Mark id="n-want" size={42} />
        <p>{said.field.noNumber}</p>
      </div>
    );
  const { doubt, value } = asking;
  const [ask, why] = said.doubted(doubt, value, step);
  return (
    <div className="sheetasks" role="alert">
      <Mark id="n-want" size={42} />
      <p>
        <b>{ask}</b>
        {why}
      </p>
      <div className="sheetkeys">
        {doubt.likely !== undefined && (
          <button type="button" className="sheetkey main" onClick={() => draft.enter(doubt.likely!)}>
            {said.yes(doubt.likely, step)}
          </button>
        )}
        {doubt.kind !== 'offScale' && (
          <button type="button" className="sheetkey" onClick={() => draft.enter(value)}>
            {doubt.kind === 'fine' ? `${draft.typed}` : said.indeed(value, step)}
          </button>
        )}
        <button type="button" className="sheetkey" onClick={draft.again}>
          {said.lookAgain}
        </button>
      </div>
    </div>
  );
}

/** [SP10] It stays there, or was moved to the book's number: two keys of one weight. */
function OffBook({
  step,
  draft,
  value,
  book,
}: {
  readonly step: NumberStep;
  readonly draft: Draft;
  readonly value: number;
  readonly book: number;
}) {
  const key = ([way, why]: readonly string[], stands: number) => (
    <button type="button" className="sheetkey" onClick={() => draft.stand(stands, value)}>
      {way}
      <small>{why}</small>
    </button>
  );
  return (
    <div className="sheetasks" role="alert">
      <Mark id="n-want" size={42} />
      <p>
        <b>{said.offBook.asks(value, step)}</b>
        {said.offBook.why(book, step)}
      </p>
      <div className="sheetkeys">
        {key(said.offBook.stays(value, step), value)}
        {key(said.offBook.moved(book, step), book)}
        <button type="button" className="sheetkey" onClick={draft.again}>
          {said.lookAgain}
        </button>
      </div>
    </div>
  );
}

function Enter({ step, sheet, acts, next, draft }: StepProps<NumberStep> & { readonly draft: Draft }) {
  const confirmed = asBookOf(step, sheet);
  return (
    <div className="sheetkeys">
      <button type="button" className="sheetkey main" disabled={draft.typed === ''} onClick={draft.take}>
        {said.field.enter(draft.typed)}
      </button>
      {confirmed.length > 0 && (
        <button
          type="button"
          className="sheetkey"
          onClick={() => {
            acts.asBook(step);
            next();
          }}
        >
          {said.asBook.key}
          <small>{said.asBook.of(confirmed.map(({ id }) => id))}</small>
        </button>
      )}
    </div>
  );
}
