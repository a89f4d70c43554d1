import type { Instant } from '../units/units.ts';
import type { FittedRecord } from './settingRecords.ts';
import type { FoldState } from './state.ts';
import type { SaidNow } from './takeSaid.ts';

/** So many are kept of the lot, and of each part: those from which a person picks one that was used before. */
const KEPT_EACH = 8;

/** [SP4] People say which runs from now on: in an entry of its own, or as a change that was made. */
export function takeFitted(state: FoldState, said: SaidNow, at: Instant): void {
  const { id: entry, author } = said;
  if (said.kind === 'fitted') {
    const { what, name, step = null } = said;
    // a line runs one lot, whichever step asked for it; parts are told apart by their steps
    keep(state, { what, step: what === 'lot' ? null : step, name, at, said: { entry, author } });
  } else if (said.kind === 'changed' && said.changed.of === 'lot') {
    keep(state, { what: 'lot', step: null, name: said.changed.name, at, said: { entry, author } });
  }
}

export function takeFittedBack(state: FoldState, { id }: SaidNow): void {
  state.fitted = state.fitted.filter(({ said }) => said?.entry !== id);
}

/** [SP4] The PLC tells which lot of board runs. */
export function lotTold(state: FoldState, name: string, at: Instant): void {
  if (lotNow(state) !== name) keep(state, { what: 'lot', step: null, name, at, said: null });
}

export function lotNow({ fitted }: Pick<FoldState, 'fitted'>): string | null {
  return fitted.findLast(({ what }) => what === 'lot')?.name ?? null;
}

/** One that was corrected, or kept on a screen, may come after a newer one. */
function keep(state: FoldState, record: FittedRecord): void {
  const isSame = ({ what, step }: FittedRecord) => what === record.what && step === record.step;
  const same = [...state.fitted.filter(isSame), record].sort((a, b) => a.at - b.at).slice(-KEPT_EACH);
  state.fitted = [...state.fitted.filter((one) => !isSame(one)), ...same];
}
