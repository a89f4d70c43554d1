import type { Author } from '../entries/entries.ts';
import type { Fitted } from '../entries/sheetEntries.ts';
import type { Line } from '../line/line.ts';
import { type EpochMs, epochMs } from '../units/units.ts';
import type { Seen } from './seen.ts';

/** [SP4] Something that a person fits and names: the lot of board, or a change part. */
export interface FittedView {
  readonly what: Fitted;
  /** The step of a changeover that asks for it; undefined where the line's file has none. */
  readonly step: string | undefined;
  /** What that step calls it; undefined for the board and for the whole set of change parts. */
  readonly name: string | undefined;
  /** The station where it is. */
  readonly station: string | undefined;
  readonly now: FittedNow | undefined;
  /** Names that were used, the newest first. */
  readonly last: readonly string[];
}

export interface FittedNow {
  readonly name: string;
  readonly at: EpochMs;
  /** Undefined where the PLC tells it. */
  readonly author: Author | undefined;
}

/** So many names have a key of their own. */
const LAST_SHOWN = 4;

export function fittedView({ index, state }: Pick<Seen, 'index' | 'state'>): readonly FittedView[] {
  return thingsOf(index.line).map((thing) => {
    const { what, step } = thing;
    const known = state.fitted.filter(
      (one) => one.what === what && (what === 'lot' || one.step === (step ?? null)),
    );
    const newest = known.at(-1);
    return {
      ...thing,
      now: newest && {
        name: newest.name,
        at: epochMs(newest.at),
        author: newest.said?.author,
      },
      last: [...new Set(known.map(({ name }) => name).reverse())].slice(0, LAST_SHOWN),
    };
  });
}

/** The board first, at the station of its step, else where blanks go in; then each part in walking order, or all of them in one. */
function thingsOf({
  stations,
  changeoverSteps,
}: Line): readonly Pick<FittedView, 'what' | 'step' | 'name' | 'station'>[] {
  const board = changeoverSteps.find(({ lot }) => lot);
  const parts = changeoverSteps.filter(({ kind, lot }) => kind === 'part' && lot !== true);
  const whole = { what: 'parts', step: undefined, name: undefined, station: undefined } as const;
  return [
    { what: 'lot', step: board?.id, name: undefined, station: board?.station ?? stations[0]?.id },
    ...(parts.length === 0 ? [whole] : []),
    ...parts.map(({ id, name, station }) => ({ what: 'parts', step: id, name, station }) as const),
  ];
}
