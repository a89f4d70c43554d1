import type { Size } from '../line/line.ts';
import type { Instant } from '../units/units.ts';
import { changeTarget } from './account.ts';
import type { FoldState, TargetRecord } from './state.ts';
import type { Stepping } from './stepping.ts';

/** [PL3] Target in tenths of a carton per minute, of the size and crew now; 0 while the size is not known. */
export function targetTenths({
  state,
  index,
}: Pick<Stepping, 'index'> & { readonly state: Readonly<FoldState> }): number {
  const size = state.size === null ? undefined : index.sizeById.get(state.size);
  return size ? tenthsFor(size, state.crew, state.targets) : 0;
}

/** What people entered for a size and a crew, which counts in place of what the line's file lists for both. */
export type TargetSaid = Pick<TargetRecord, 'size' | 'crew' | 'tenths'>;

/**
 * Target of a size for a crew: that of the largest listed crew no larger, else of the smallest listed. [EN4] What was
 * entered is listed too, and counts first.
 */
export function tenthsFor(size: Size, crew: number, entered: readonly TargetSaid[]): number {
  const tenths = new Map(
    [...size.targets].map(([people, perMinute]) => [people, Math.round(perMinute * 10)]),
  );
  for (const one of entered)
    if (one.size === size.id && one.tenths !== null) tenths.set(one.crew, one.tenths);
  const listed = [...tenths.keys()].sort((a, b) => a - b);
  const fits = listed.filter((people) => people <= crew).at(-1) ?? listed[0];
  return fits === undefined ? 0 : tenths.get(fits)!;
}

/** [EN4] From here on so many a minute, for one size and crew. */
export function setTarget(
  state: FoldState,
  said: {
    readonly id: string;
    readonly size: string;
    readonly crew: number;
    readonly perMinute: number | null;
  },
): void {
  const { id: entry, size, crew, perMinute } = said;
  const tenths = perMinute === null ? null : Math.round(perMinute * 10);
  const known = state.targets.find((one) => one.size === size && one.crew === crew);
  if (known) Object.assign(known, { tenths, entry, before: known.tenths });
  else state.targets.push({ size, crew, tenths, entry, before: null });
}

/** [EN1] What was entered is withdrawn: what held before it holds again, unless another one has followed. */
export function unsetTarget(state: FoldState, entry: string): void {
  const known = state.targets.find((one) => one.entry === entry);
  if (!known) return;
  Object.assign(known, { tenths: known.before, entry: '', before: null });
}

/** The size or the crew changed, or its target: from here on another target holds. */
export function retarget(stepping: Stepping, at: Instant): void {
  const { shift } = stepping.state;
  changeTarget(shift.account, at, shift.shift ? targetTenths(stepping) : 0);
}
