import { type RefObject, useEffect, useMemo, useRef } from 'react';
import type { PastOverview, PastShift } from '../../model/past/overview.ts';
import { words } from '../app/words.ts';

const { past } = words.screen;

/** Which shift is looked at. `another`: one was chosen here just now, which is another page of which this has the focus. */
export function ShiftChoice({
  overview: { shifts, zone },
  shift,
  another,
  choose,
}: {
  readonly overview: PastOverview;
  readonly shift: PastShift;
  readonly another: RefObject<boolean>;
  readonly choose: (at: number) => void;
}) {
  const select = useRef<HTMLSelectElement>(null);
  useEffect(() => {
    if (another.current) select.current?.focus();
    another.current = false;
  }, [another]);
  const newestFirst = useMemo(() => shifts.toReversed(), [shifts]);
  return (
    <label className="period">
      <span className="unseen">{past.replay.which}</span>
      <select
        ref={select}
        value={shift.from}
        onChange={({ target }) => {
          another.current = true;
          choose(Number(target.value));
        }}
      >
        {newestFirst.map(({ name, from }) => (
          <option key={from} value={from}>
            {past.period.on(name, from, zone)}
          </option>
        ))}
      </select>
    </label>
  );
}
