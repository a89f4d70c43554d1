import type { ReactNode } from 'react';
import type { PastOverview } from '../../model/past/overview.ts';
import { words } from '../app/words.ts';
import { Carton } from '../marks/symbols.tsx';
import { PERIODS } from './chosen.ts';

const { past } = words.screen;

/** Panels joined by scores, of which one is chosen. */
export function Choice({
  label,
  options,
  chosen,
  choose,
}: {
  readonly label: string;
  readonly options: readonly {
    readonly id: string | undefined;
    readonly said: string;
    readonly drawn?: ReactNode;
  }[];
  readonly chosen: string | undefined;
  readonly choose: (id: string | undefined) => void;
}) {
  return (
    <fieldset className="choice noprint">
      <legend className="unseen">{label}</legend>
      {options.map(({ id, said, drawn }) => (
        <button
          type="button"
          key={id ?? ''}
          aria-pressed={chosen === id}
          onClick={() => choose(id)}
          {...(drawn === undefined ? {} : { 'aria-label': said, title: said })}
        >
          {drawn ?? said}
        </button>
      ))}
    </fieldset>
  );
}

/** Which stretch of time: by name, or one of the shifts there were. */
export function PeriodChoice({
  overview,
  chosen,
  choose,
}: {
  readonly overview: PastOverview;
  readonly chosen: string;
  readonly choose: (period: string) => void;
}) {
  const { shifts, zone } = overview;
  return (
    <label className="period noprint">
      <span className="unseen">{past.period.label}</span>
      <select value={chosen} onChange={(event) => choose(event.target.value)}>
        {PERIODS.map((name) => (
          <option key={name} value={name}>
            {past.period[name]}
          </option>
        ))}
        {shifts
          .slice(0, -1)
          .reverse()
          .map(({ name, from }) => (
            <option key={from} value={String(from)}>
              {past.period.on(name, from, zone)}
            </option>
          ))}
      </select>
    </label>
  );
}

export function SizeChoice(wish: {
  readonly overview: PastOverview;
  readonly chosen: string | undefined;
  readonly choose: (id: string | undefined) => void;
}) {
  const sizes = wish.overview.sizes.map(({ id, name }) => ({ id, said: name }));
  return (
    <Choice label={past.all.sizes} options={[{ id: undefined, said: past.all.sizes }, ...sizes]} {...wish} />
  );
}

/** An order by its number, the newest first. */
export function OrderChoice({
  overview,
  chosen,
  choose,
}: {
  readonly overview: PastOverview;
  readonly chosen: string | undefined;
  readonly choose: (order: string | undefined) => void;
}) {
  return (
    <label className="period noprint">
      <span className="unseen">{past.all.orders}</span>
      <select value={chosen ?? ''} onChange={({ target }) => choose(target.value || undefined)}>
        <option value="">{past.all.orders}</option>
        {overview.orders.toReversed().map(({ number }) => (
          <option key={number} value={number}>
            {number}
          </option>
        ))}
      </select>
    </label>
  );
}

export function ShiftChoice(wish: {
  readonly overview: PastOverview;
  readonly chosen: string | undefined;
  readonly choose: (id: string | undefined) => void;
}) {
  const rules = new Map(wish.overview.shifts.map(({ rule, name }) => [rule, name]));
  const shifts = [...rules].map(([id, said]) => ({ id, said }));
  return (
    <Choice
      label={past.all.shifts}
      options={[{ id: undefined, said: past.all.shifts }, ...shifts]}
      {...wish}
    />
  );
}

export function StationChoice(wish: {
  readonly overview: PastOverview;
  readonly chosen: string | undefined;
  readonly choose: (id: string | undefined) => void;
}) {
  const stations = wish.overview.stations.map(({ id, number, name, drawing }) => ({
    id,
    said: past.station(number, name),
    drawn: (
      <>
        <Carton drawing={drawing} width={22} className="small" />
        {number}
      </>
    ),
  }));
  return (
    <Choice
      label={past.all.stations}
      options={[{ id: undefined, said: past.all.stations }, ...stations]}
      {...wish}
    />
  );
}
