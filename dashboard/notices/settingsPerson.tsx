import type { ReactNode } from 'react';
import type { Recipient } from '../../model/notices/recipients.ts';
import type { QuietHours } from '../../model/notices/recipientHours.ts';
import { SETTINGS_BOUNDS, SHIFTS_OF_A_WEEK } from '../../model/notices/settings.ts';
import { words } from '../app/words.ts';
import { NumberField, Several, TextField, withOne } from './settingsFields.tsx';
import { Trial } from './settingsTrial.tsx';
import type { Choosable } from './settingsWho.tsx';

const said = words.screen.noticeWho.people;
const NUMBER_MOST = 32;
const QUIET_MOST = 14;
const NIGHT: QuietHours = { from: '22:00', to: '06:00' };

/** One person by number: by which ways, how rarely falsely, of which stations and when. */
export function Person({
  recipient,
  choosable,
  change,
}: {
  readonly recipient: Recipient;
  readonly choosable: Choosable;
  readonly change: (recipient: Recipient | undefined) => void;
}) {
  const { person, ways } = recipient;
  const mark = choosable.mark(recipient);
  const gone = ways.filter((way) => !choosable.ways.includes(way));
  const names = [
    ...choosable.ways.map((id) => ({ id, name: said.way(id) })),
    ...gone.map((id) => ({ id, name: said.gone(said.way(id)) })),
  ];
  return (
    <li className="person">
      <TextField
        label={said.number}
        value={person}
        most={NUMBER_MOST}
        change={(next) => change({ ...recipient, person: next.trim() })}
      />
      <Several
        label={said.ways}
        all={names}
        chosen={ways}
        choose={(next) => change({ ...recipient, ways: next })}
      />
      <button type="button" className="btn plain" onClick={() => change(undefined)}>
        {said.remove(person)}
      </button>
      {mark !== undefined && <p className="unreached">{said.unreachedSaid(said.unreached[mark])}</p>}
      <Trial person={person} ways={ways.filter((way) => choosable.ways.includes(way))} />
      <details>
        <summary>
          {said.more} <small>{said.moreOf(limitsOf(recipient, choosable))}</small>
        </summary>
        <Limits recipient={recipient} choosable={choosable} change={change} />
      </details>
    </li>
  );
}

/** What holds something back from this person, in a few words. */
function limitsOf(
  { falseOnceInShifts, stations, when }: Recipient,
  { shifts }: Choosable,
): readonly string[] {
  const nameOf = (id: string) => shifts.find((one) => one.id === id)?.name ?? id;
  return [
    ...(falseOnceInShifts === undefined ? [] : [said.budgetIn(falseOnceInShifts)]),
    ...(stations === undefined ? [] : [said.stationsIn(stations.length)]),
    ...(when.shifts === undefined ? [] : [said.shiftsIn(when.shifts.map(nameOf))]),
    ...when.quiet.map(({ from, to }) => said.quietIn(from, to)),
  ];
}

function Limits({
  recipient,
  choosable: { stations, shifts },
  change,
}: {
  readonly recipient: Recipient;
  readonly choosable: Choosable;
  readonly change: (recipient: Recipient) => void;
}) {
  const { falseOnceInShifts: budget, stations: own, when, ...rest } = recipient;
  const put = (part: {
    readonly budget?: number | undefined;
    readonly own?: readonly string[] | undefined;
    readonly hours?: Recipient['when'];
  }) => {
    const next = { budget, own, hours: when, ...part };
    change({
      ...rest,
      when: next.hours,
      ...(next.budget === undefined ? {} : { falseOnceInShifts: next.budget }),
      ...(next.own === undefined ? {} : { stations: next.own }),
    });
  };
  return (
    <div className="limits">
      <Only
        label={said.own}
        on={budget !== undefined}
        turn={(on) => put({ budget: on ? SHIFTS_OF_A_WEEK : undefined })}
      >
        <NumberField
          value={budget ?? Number.NaN}
          bounds={SETTINGS_BOUNDS.falseOnceInShifts}
          label={said.own}
          change={(next) => put({ budget: next })}
        />
      </Only>
      <OnlyThese label={said.stations} all={stations} chosen={own} choose={(next) => put({ own: next })} />
      <OnlyThese
        label={said.shifts}
        all={shifts}
        chosen={when.shifts}
        choose={(next) => put({ hours: { quiet: when.quiet, ...(next ? { shifts: next } : {}) } })}
      />
      <Quiet quiet={when.quiet} change={(quiet) => put({ hours: { ...when, quiet } })} />
    </div>
  );
}

/** A limit that is there or not. */
export function Only({
  label,
  on,
  turn,
  children,
}: {
  readonly label: string;
  readonly on: boolean;
  readonly turn: (on: boolean) => void;
  readonly children: ReactNode;
}) {
  return (
    <div className="only">
      <label className="check">
        <input type="checkbox" checked={on} onChange={() => turn(!on)} />
        <span>{label}</span>
      </label>
      {on && children}
    </div>
  );
}

/** All of them unless some are chosen. */
export function OnlyThese<Id extends string>({
  label,
  all,
  chosen,
  choose,
}: {
  readonly label: string;
  readonly all: readonly { readonly id: Id; readonly name: string }[];
  readonly chosen: readonly Id[] | undefined;
  readonly choose: (chosen: readonly Id[] | undefined) => void;
}) {
  return (
    <Only
      label={label}
      on={chosen !== undefined}
      turn={(on) => choose(on ? all.map(({ id }) => id) : undefined)}
    >
      <Several label={label} all={all} chosen={chosen ?? []} choose={choose} isSaid />
    </Only>
  );
}

function Quiet({
  quiet,
  change,
}: {
  readonly quiet: readonly QuietHours[];
  readonly change: (quiet: readonly QuietHours[]) => void;
}) {
  const weekdays = said.weekdays.map((name, place) => ({ id: place + 1, name }));
  return (
    <fieldset className="quiet">
      <legend>{said.quiet}</legend>
      {quiet.map((hours, place) => {
        const put = (next: QuietHours | undefined) => change(withOne(quiet, place, next));
        const { days, ...times } = hours;
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: a row is its place
          <div key={place} className="formrow">
            <TextField
              kind="clock"
              label={said.from}
              value={hours.from}
              change={(from) => put({ ...hours, from })}
            />
            <TextField kind="clock" label={said.to} value={hours.to} change={(to) => put({ ...hours, to })} />
            <Several
              label={said.days}
              all={weekdays}
              chosen={days ?? weekdays.map(({ id }) => id)}
              choose={(next) => put(next.length === weekdays.length ? times : { ...times, days: next })}
            />
            <button type="button" className="btn plain" onClick={() => put(undefined)}>
              {said.removeQuiet}
            </button>
          </div>
        );
      })}
      {quiet.length < QUIET_MOST && (
        <button type="button" className="btn plain" onClick={() => change([...quiet, NIGHT])}>
          {said.addQuiet}
        </button>
      )}
    </fieldset>
  );
}
