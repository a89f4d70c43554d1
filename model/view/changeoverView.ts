import { between, millis } from '../units/units.ts';
import { ms, type Seen } from './seen.ts';
import type { ChangeoverView } from './view.ts';

/** The changeover that goes on, or the last one. */
export function changeoverView(seen: Seen): ChangeoverView {
  const changeover = seen.state.changeover ?? seen.state.lastChangeover;
  if (!changeover) {
    return {
      current: false,
      kind: 'startUp',
      from: undefined,
      to: undefined,
      began: undefined,
      firstGood: undefined,
      atRate: undefined,
      lasted: undefined,
      trialCartons: 0,
    };
  }
  const name = (id: string | null) => (id === null ? undefined : seen.index.sizeById.get(id)?.name);
  const over = changeover.atRate ?? changeover.end;
  return {
    current: seen.state.changeover !== null,
    kind: changeover.kind,
    from: changeover.from === changeover.to ? undefined : name(changeover.from),
    to: name(changeover.to),
    began: ms(changeover.begin),
    firstGood: ms(changeover.firstGood),
    atRate: ms(changeover.atRate),
    lasted: over === null ? undefined : millis(between(changeover.begin, over)),
    trialCartons: changeover.trialCartons,
  };
}
