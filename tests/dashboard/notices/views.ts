import type { EpochMs } from '../../../model/units/units.ts';
import type { NoticesView, NoticeView } from '../../../model/view/noticesView.ts';

export const at = (minute: number): EpochMs => Date.UTC(2026, 2, 17, 9, minute) as EpochMs;

/** A notice as a view has it: a station that stops far above its own normal, raised at 10:40 in Berlin. */
export function noticeView(more: Partial<NoticeView> = {}): NoticeView {
  return {
    ...{ id: 'n1', kind: 'stops', level: 'call', state: 'raised', at: at(40), since: at(21) },
    facts: { kind: 'stops', stops: 3, cartons: 240, from: at(21), usualCartons: 2400, onceInShifts: 19 },
    station: { id: 'bottom-major', number: 5, name: 'bottom major flap', drawing: 'bottom-major' },
    ...{ size: 'Sachet 48', stop: undefined, look: [], joined: [], joinedMore: 0 },
    ...{
      taken: undefined,
      hasAt: undefined,
      owner: undefined,
      ownerShutOff: false,
      normalAt: undefined,
      shelved: undefined,
      round: 0,
    },
    ...{ told: [], coming: [], ended: undefined, story: [] },
    ...more,
  };
}

/** As a gateway counts them. */
export function notices(open: readonly NoticeView[], ended: readonly NoticeView[] = []): NoticesView {
  const untaken = open.filter(({ state }) => state === 'raised' || state === 'returned').length;
  const shelved = open.filter(({ state }) => state === 'shelved').length;
  return { open, counts: { open: open.length - shelved, untaken, shelved }, further: 0, ended };
}

export const told = (person: string, round = 0) => ({
  ...{ at: at(41), person, way: 'page', round, step: 0, failed: false },
});
