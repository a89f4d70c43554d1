import { type ReactNode, useState } from 'react';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import type { SetPointRow, SetPointsPast } from '../../model/past/setPointsPast.ts';
import type { NumberDoubt } from '../../model/setpoints/doubt.ts';
import { words } from '../app/words.ts';
import { Typing } from '../entries/fields.tsx';
import { doubtOf } from './doubted.ts';
import { numberTyped } from './typed.ts';

const said = words.screen.past.setPoints;
const { doubt: asks } = said.one;

type Asking =
  | { readonly kind: 'rest' | 'noNumber' }
  | { readonly kind: 'doubt'; readonly value: number; readonly doubt: NumberDoubt };

/** A number of a scale is typed, with a reason where it takes one; what is unlikely is asked about first, and never changed silently. */
export function NumberForm({
  row,
  book,
  label,
  why: whyLabel,
  first = '',
  submit,
  enter,
}: {
  readonly row: SetPointRow;
  readonly book: SetPointsPast;
  readonly label: string;
  /** Without one no reason is asked. */
  readonly why?: string;
  /** What stands in the field at first. */
  readonly first?: string;
  readonly submit: (typed: string) => ReactNode;
  readonly enter: (value: number, why: string) => void;
}) {
  // what is recommended may move while somebody types a reason; what was typed stays
  const [own, type] = useState<string>();
  const typed = own ?? first;
  const [why, because] = useState('');
  const [asking, ask] = useState<Asking>({ kind: 'rest' });
  const done = (value: number) => {
    enter(value, why.trim());
    ask({ kind: 'rest' });
    type(undefined);
    because('');
  };
  const wants = whyLabel !== undefined && why.trim() === '';
  const take = () => {
    const value = numberTyped(typed);
    if (value === undefined) return ask({ kind: 'noNumber' });
    const doubt = doubtOf(value, row, book);
    if (doubt) ask({ kind: 'doubt', value, doubt });
    else done(value);
  };
  return (
    <form
      className="fields"
      onSubmit={(event) => {
        event.preventDefault();
        take();
      }}
    >
      <Typing
        label={label}
        value={typed}
        most={12}
        type={(next) => {
          type(next);
          ask({ kind: 'rest' });
        }}
        numeric
      />
      {whyLabel !== undefined && (
        <Typing label={whyLabel} value={why} most={ENTRY_MOST.words} type={because} />
      )}
      {asking.kind !== 'doubt' && (
        <button type="submit" className="btn" disabled={typed.trim() === '' || wants}>
          {submit(typed.trim())}
        </button>
      )}
      <div className="asked1" role="alert">
        {asking.kind === 'noNumber' && <p>{asks.noNumber}</p>}
        {asking.kind === 'doubt' && (
          <Doubt row={row} {...asking} take={done} again={() => ask({ kind: 'rest' })} />
        )}
      </div>
    </form>
  );
}

/** What was more likely meant is the main key; what was typed is taken as typed, where the scale has it. */
function Doubt({
  row,
  value,
  doubt,
  take,
  again,
}: {
  readonly row: SetPointRow;
  readonly value: number;
  readonly doubt: NumberDoubt;
  readonly take: (value: number) => void;
  readonly again: () => void;
}) {
  const typed = doubt.kind === 'fine' ? String(value) : said.number(value, row);
  return (
    <>
      <p className="doubted1">{asks.asked(doubt, typed, row)}</p>
      <div className="askedkeys">
        {doubt.likely !== undefined && (
          <button type="button" className="btn" onClick={() => take(doubt.likely!)}>
            {asks.meant(said.number(doubt.likely, row))}
          </button>
        )}
        {doubt.kind !== 'offScale' && (
          <button type="button" className="btn plain" onClick={() => take(value)}>
            {asks.indeed(typed)}
          </button>
        )}
        <button type="button" className="btn plain" onClick={again}>
          {asks.again}
        </button>
      </div>
    </>
  );
}
