import { type ReactNode, useId, useState } from 'react';
import { words } from '../app/words.ts';

const said = words.screen.noticeSettings;

export interface Bounds {
  readonly least: number;
  readonly most: number;
}

/** A number that is typed: half typed it is none, and what stands in the field stays there. */
export function NumberField({
  value,
  bounds,
  label,
  change,
  disabled = false,
}: {
  readonly value: number;
  readonly bounds: Bounds;
  /** For whoever only hears it. */
  readonly label: string;
  readonly change: (value: number) => void;
  readonly disabled?: boolean;
}) {
  const [text, type] = useState(() => textOf(value));
  const shown = Object.is(numberOf(text), value) ? text : textOf(value);
  const isWrong = !(value >= bounds.least && value <= bounds.most);
  const about = useId();
  return (
    <span className="numberfield">
      <input
        type="text"
        inputMode="decimal"
        autoComplete="off"
        value={shown}
        disabled={disabled}
        aria-label={label}
        aria-invalid={isWrong}
        aria-describedby={about}
        onChange={({ currentTarget }) => {
          type(currentTarget.value);
          change(numberOf(currentTarget.value));
        }}
      />
      <small id={about} className={isWrong ? 'wrong' : ''}>
        {said.rules.bounds(bounds.least, bounds.most)}
      </small>
    </span>
  );
}

function textOf(value: number): string {
  return Number.isFinite(value) ? String(value) : '';
}

/** As people type it, with a point or a comma; not a number where it is none. */
export function numberOf(text: string): number {
  const plain = text.trim().replace(',', '.');
  return /^\d+(?:\.\d*)?$|^\.\d+$/.test(plain) ? Number(plain) : Number.NaN;
}

/** A sentence with fields in it: `{name}` is where the field of that name stands. */
export function Sentence({
  text,
  fields,
}: {
  readonly text: string;
  readonly fields: Readonly<Record<string, ReactNode>>;
}) {
  return (
    <>
      {text.split(/(\{\w+\})/).map((part) => {
        const name = /^\{(\w+)\}$/.exec(part)?.[1];
        return <span key={part}>{name === undefined ? part : fields[name]}</span>;
      })}
    </>
  );
}

/** Some of several, each pressed in or not. */
export function Several<Id extends string | number>({
  label,
  all,
  chosen,
  choose,
  isSaid = false,
}: {
  readonly label: string;
  readonly all: readonly { readonly id: Id; readonly name: string }[];
  readonly chosen: readonly Id[];
  /** Whether its label stands before it already. */
  readonly isSaid?: boolean;
  readonly choose: (chosen: readonly Id[]) => void;
}) {
  return (
    <fieldset className="several">
      <legend className={isSaid ? 'unseen' : ''}>{label}</legend>
      {all.map(({ id, name }) => (
        <label key={id} className="check">
          <input
            type="checkbox"
            checked={chosen.includes(id)}
            onChange={() =>
              choose(all.map((one) => one.id).filter((one) => chosen.includes(one) !== (one === id)))
            }
          />
          <span>{name}</span>
        </label>
      ))}
    </fieldset>
  );
}

/** One of several, from a list that folds out. */
export function OneOf<Id extends string>({
  label,
  all,
  chosen,
  choose,
  disabled = false,
}: {
  readonly label: string;
  readonly all: readonly { readonly id: Id; readonly name: string }[];
  readonly chosen: Id;
  readonly choose: (id: Id) => void;
  readonly disabled?: boolean;
}) {
  return (
    <select
      aria-label={label}
      value={chosen}
      disabled={disabled}
      onChange={({ currentTarget }) => choose(currentTarget.value as Id)}
    >
      {all.map(({ id, name }) => (
        <option key={id} value={id}>
          {name}
        </option>
      ))}
    </select>
  );
}

/** A short text with its words above it. */
export function TextField({
  label,
  value,
  change,
  kind = 'text',
  most = 40,
}: {
  readonly label: string;
  readonly value: string;
  readonly change: (value: string) => void;
  /** A clock is typed as 06:00 everywhere, whatever the browser’s own way of writing it. */
  readonly kind?: 'text' | 'date' | 'clock';
  readonly most?: number;
}) {
  return (
    <label className="textfield">
      <span>{label}</span>
      <input
        type={kind === 'date' ? 'date' : 'text'}
        className={kind}
        value={value}
        maxLength={most}
        autoComplete="off"
        autoCapitalize="none"
        spellCheck={false}
        onChange={({ currentTarget }) => change(currentTarget.value)}
      />
    </label>
  );
}

/** A row with this one in its place changed, or left out. */
export function withOne<Row>(rows: readonly Row[], place: number, row: Row | undefined): readonly Row[] {
  return row === undefined ? rows.toSpliced(place, 1) : rows.with(place, row);
}
