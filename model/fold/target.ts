import type { Size } from '../line/line.ts';
import type { Instant } from '../units/units.ts';
import { changeTarget } from './account.ts';
import type { FoldState } from './state.ts';
import type { Stepping } from './stepping.ts';

/** [PL3] Target in tenths of a carton per minute, of the size and crew now; 0 while the size is not known. */
export function targetTenths({
  state,
  index,
}: Pick<Stepping, 'index'> & { readonly state: Readonly<FoldState> }): number {
  const size = state.size === null ? undefined : index.sizeById.get(state.size);
  return size ? tenthsFor(size, state.crew) : 0;
}

/** Target of a size for a crew: that of the largest listed crew no larger, else of the smallest listed. */
export function tenthsFor(size: Size, crew: number): number {
  const listed = [...size.targets.keys()].sort((a, b) => a - b);
  const fits = listed.filter((people) => people <= crew).at(-1) ?? listed[0];
  return fits === undefined ? 0 : Math.round(size.targets.get(fits)! * 10);
}

/** The size or the crew changed: from here on another target holds. */
export function retarget(stepping: Stepping, at: Instant): void {
  const { shift } = stepping.state;
  changeTarget(shift.account, at, shift.shift ? targetTenths(stepping) : 0);
}
