import { type ReactNode, type RefObject, useEffect, useMemo, useRef } from 'react';
import type { PastOverview } from '../../model/past/overview.ts';
import type { PastRun } from '../../model/past/runsPast.ts';
import { words } from '../app/words.ts';
import { idOf, listedAs, runStretch, type Stretch, shiftStretch } from './stretch.ts';

const said = words.screen.past.replay;

interface Listed {
  readonly overview: PastOverview;
  readonly runs: readonly PastRun[];
}

/** Which shift or run is looked at. `another`: one was chosen here just now, which is another page of which this has the focus. */
export function ShiftChoice({
  overview,
  runs,
  stretch,
  another,
  choose,
}: Listed & {
  readonly stretch: Stretch;
  readonly another: RefObject<boolean>;
  readonly choose: (next: Stretch) => void;
}) {
  const select = useRef<HTMLSelectElement>(null);
  useEffect(() => {
    if (another.current) select.current?.focus();
    another.current = false;
  }, [another]);
  const groups = useMemo(
    () => [
      { label: said.compared.shifts.all, list: overview.shifts.toReversed().map(shiftStretch) },
      { label: said.compared.runs, list: runs.toReversed().map(runStretch) },
    ],
    [overview.shifts, runs],
  );
  return (
    <Select
      className="period"
      label={<span className="unseen">{said.which}</span>}
      groups={groups}
      chosen={idOf(stretch)}
      zone={overview.zone}
      select={select}
      choose={(next) => {
        if (next === undefined) return;
        another.current = true;
        choose(next);
      }}
    />
  );
}

/** [RP10] What hangs under it: another shift, those of the same kind first, or a run of a size. */
export function UnderChoice({
  overview,
  runs,
  stretch,
  other,
  choose,
}: Listed & {
  readonly stretch: Stretch;
  readonly other: Stretch | undefined;
  readonly choose: (next: Stretch | undefined) => void;
}) {
  const groups = useMemo(() => {
    const free = (one: Stretch) => idOf(one) !== idOf(stretch);
    const shifts = overview.shifts.toReversed().map(shiftStretch).filter(free);
    const kind = stretch.kind === 'shift' ? stretch.shift : undefined;
    const alike = (one: Stretch) => one.kind === 'shift' && one.shift.rule === kind?.rule;
    const running = runs.toReversed().map(runStretch).filter(free);
    const size = stretch.kind === 'run' ? stretch.run.size.id : undefined;
    const sameSize = (one: Stretch) => one.kind === 'run' && one.run.size.id === size;
    const own = [...running.filter(sameSize), ...running.filter((one) => !sameSize(one))];
    const { same, others, all } = said.compared.shifts;
    const ofRuns = { label: said.compared.runs, list: own };
    return kind
      ? [
          { label: same(kind.name), list: shifts.filter(alike) },
          { label: others, list: shifts.filter((one) => !alike(one)) },
          ofRuns,
        ]
      : [ofRuns, { label: all, list: shifts }];
  }, [overview.shifts, runs, stretch]);
  return (
    <Select
      className="period under"
      label={
        <>
          <span aria-hidden="true">{said.compared.under}</span>
          <span className="unseen">{said.compared.which}</span>
        </>
      }
      groups={groups}
      chosen={other ? idOf(other) : ''}
      none={said.compared.nothing}
      zone={overview.zone}
      choose={choose}
    />
  );
}

function Select({
  className,
  label,
  groups,
  chosen,
  none,
  zone,
  select,
  choose,
}: {
  readonly className: string;
  readonly label: ReactNode;
  readonly groups: readonly { readonly label: string; readonly list: readonly Stretch[] }[];
  readonly chosen: string;
  readonly none?: string;
  readonly zone: string;
  readonly select?: RefObject<HTMLSelectElement | null>;
  readonly choose: (next: Stretch | undefined) => void;
}) {
  const all = groups.flatMap(({ list }) => list);
  return (
    <label className={className}>
      {label}
      <select
        ref={select}
        value={chosen}
        onChange={({ target }) => choose(all.find((one) => idOf(one) === target.value))}
      >
        {none !== undefined && <option value="">{none}</option>}
        {groups
          .filter(({ list }) => list.length > 0)
          .map(({ label: group, list }) => (
            <optgroup key={group} label={group}>
              {list.map((one) => (
                <option key={idOf(one)} value={idOf(one)}>
                  {listedAs(one, zone)}
                </option>
              ))}
            </optgroup>
          ))}
      </select>
    </label>
  );
}
