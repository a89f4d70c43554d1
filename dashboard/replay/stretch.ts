import type { PastOverview, PastShift } from '../../model/past/overview.ts';
import type { PastRun } from '../../model/past/runsPast.ts';
import { words } from '../app/words.ts';

const { past } = words.screen;
const said = past.replay.compared;

/** What is looked at, or hung under it: a shift, or a run of a size. */
export type Stretch =
  | { readonly kind: 'shift'; readonly from: number; readonly to: number; readonly shift: PastShift }
  | { readonly kind: 'run'; readonly from: number; readonly to: number; readonly run: PastRun };

/** As an address and a list name it. */
export function idOf({ kind, from }: Pick<Stretch, 'kind' | 'from'>): string {
  return kind === 'run' ? `run-${from}` : String(from);
}

export function shiftStretch(shift: PastShift): Stretch {
  return { kind: 'shift', from: shift.from, to: shift.to, shift };
}

export function runStretch(run: PastRun): Stretch {
  return { kind: 'run', from: run.from, to: run.to, run };
}

export function stretchOf(
  id: string,
  { shifts }: PastOverview,
  runs: readonly PastRun[],
): Stretch | undefined {
  const all = [...shifts.map(shiftStretch), ...runs.map(runStretch)];
  return all.find((one) => idOf(one) === id);
}

export function titleOf(stretch: Stretch, zone: string): string {
  if (stretch.kind === 'run') return said.runTitle(stretch.run, zone);
  const { name, from, to } = stretch.shift;
  return past.replay.title(name, from, to, zone);
}

/** What a list says of it. */
export function listedAs(stretch: Stretch, zone: string): string {
  return stretch.kind === 'run'
    ? said.run(stretch.run, zone)
    : past.period.on(stretch.shift.name, stretch.from, zone);
}

/** What the two are called beside each other: of shifts of one kind the day says which. */
export function namesOf(here: Stretch, there: Stretch, zone: string) {
  const alike = here.kind === 'shift' && there.kind === 'shift' && here.shift.rule === there.shift.rule;
  return {
    here: said.these[here.kind],
    there: there.kind === 'run' ? said.runName(there.run, zone) : said.shiftName(there.shift, alike, zone),
  };
}
