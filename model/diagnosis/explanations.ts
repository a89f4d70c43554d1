import type { Instant } from '../units/units.ts';
import { creepFrom, type Shape, stepFrom } from './course.ts';
import {
  type AdjustmentSigns,
  type Begins,
  type OtherCause,
  SIDES,
  type Side,
  type SymptomKnowledge,
} from './symptoms.ts';
import { joined } from './moves.ts';
import type { AdjustmentKnown, Cell, Troubled } from './troubled.ts';
import {
  AT_ONCE,
  CAME_WITH_RUN,
  CHANCE,
  COMES,
  CREEPS,
  DRIFT,
  KNOCKED,
  MIS_SET,
  MOVED,
  SOMETHING_ELSE,
  WORKED_LOOSE,
} from './weights.ts';

/** What may explain a station's trouble. The last two are what nobody can tell. */
export type Cause =
  | { readonly kind: 'adjustment'; readonly number: string }
  | { readonly kind: 'other'; readonly id: string; readonly name: string }
  | { readonly kind: 'chance' }
  | { readonly kind: 'somethingElse' };

/** One text for each cause. */
export function causeKey(cause: Cause): string {
  if (cause.kind === 'adjustment') return `adjustment ${cause.number}`;
  return cause.kind === 'other' ? `other ${cause.id}` : cause.kind;
}

/** How it came: an adjustment set wrongly at the changeover, moved since, worked loose or knocked in a jam; another cause as it begins. */
export type How = 'misSet' | 'moved' | 'loose' | 'knocked' | Begins | 'chance' | 'somethingElse';

/** One way in which one cause would have made it. */
export interface Explanation {
  readonly cause: Cause;
  readonly how: How;
  readonly side?: Side;
  /** How likely before anything was seen, against the others. */
  readonly prior: number;
  readonly beginnings: readonly Beginning[];
}

/** When it would have begun, and how it would have come up. */
export interface Beginning {
  /** The happening that began it; undefined where none did. */
  readonly at: Instant | undefined;
  /** The moment from which a reading tells of it. */
  readonly since: Instant | 'run';
  /** By so much a recorded move moved it then. */
  readonly by?: number;
  readonly shape: Shape;
  /** Of all beginnings of its explanation. */
  readonly share: number;
}

/** The adjustments that act on the station, as the file knows them and as they stand. */
export interface Acting {
  readonly signs: AdjustmentSigns;
  readonly known: AdjustmentKnown;
}

export function actingOn({ station, adjustments }: Troubled, knowledge: SymptomKnowledge): readonly Acting[] {
  return adjustments.flatMap((known) => {
    const signs = knowledge.adjustments.find(({ number }) => number === known.number);
    return signs?.stations.includes(station) ? [{ signs, known }] : [];
  });
}

export function othersAt({ station }: Troubled, knowledge: SymptomKnowledge): readonly OtherCause[] {
  return knowledge.causes.filter(({ stations }) => stations.includes(station));
}

/** Everything that may explain it. */
export function explanationsOf(
  troubled: Troubled,
  acting: readonly Acting[],
  others: readonly OtherCause[],
): readonly Explanation[] {
  const { cells } = troubled;
  return [
    ...acting.flatMap((one) => ofAdjustment(troubled, one)),
    ...others.flatMap((other) => ofOther(troubled, other)),
    {
      cause: { kind: 'somethingElse' },
      how: 'somethingElse',
      prior: SOMETHING_ELSE.station + SOMETHING_ELSE.adjustment * acting.length,
      beginnings: [...anyMoment(cells, 0.5), ...creeping(cells, 0.5)],
    },
    { cause: { kind: 'chance' }, how: 'chance', prior: CHANCE, beginnings: [] },
  ];
}

function ofAdjustment(troubled: Troubled, { signs, known }: Acting): readonly Explanation[] {
  const cause: Cause = { kind: 'adjustment', number: signs.number };
  const ways = [
    misSet(troubled, known),
    moved(troubled, known),
    loose(troubled, signs, known),
    knocked(troubled),
  ];
  return SIDES.flatMap((side) =>
    ways.flatMap(({ how, prior, beginnings }) =>
      beginnings.length > 0 ? [{ cause, how, side, prior: prior / 2, beginnings }] : [],
    ),
  );
}

type Way = Pick<Explanation, 'how' | 'prior' | 'beginnings'>;

function misSet({ began, cells }: Troubled, { hasSensor, moves }: AdjustmentKnown): Way {
  const movedThen = moves.some(({ by, from, to }) => by === 'changeover' && from !== to);
  const weight = hasSensor ? MIS_SET.sensed : MIS_SET.unseen;
  const prior = began === 'size' || movedThen ? weight : weight * MIS_SET.notMoved;
  return {
    how: 'misSet',
    prior,
    beginnings: [{ at: undefined, since: 'run', shape: cells.map(() => 1), share: 1 }],
  };
}

/** Moves that were recorded are named; without a sensor one may have been made that nobody told. */
function moved({ cells }: Troubled, { hasSensor, moves }: AdjustmentKnown): Way {
  const recorded = joined(moves).filter(({ by, at }) => by === 'hand' && at >= cells[0]!.from);
  const untold = hasSensor ? MOVED.unrecordedSensed : MOVED.unrecorded;
  const prior = recorded.length * MOVED.recorded + untold;
  return {
    how: 'moved',
    prior,
    beginnings: [
      ...recorded.map(({ at, from, to }) => ({
        ...stepped(cells, at, MOVED.recorded / prior),
        ...(from === undefined ? {} : { by: to - from }),
      })),
      ...anyMoment(cells, untold / prior),
    ],
  };
}

function loose({ cells }: Troubled, signs: AdjustmentSigns, { hasSensor, moves }: AdjustmentKnown): Way {
  const drift = joined(moves).find(({ by }) => by === 'drift');
  const seen = hasSensor ? (drift ? DRIFT.seen : DRIFT.notSeen) : 1;
  const by = drift?.from === undefined ? {} : { by: drift.to - drift.from };
  return {
    how: 'loose',
    prior: WORKED_LOOSE[signs.loose] * seen,
    beginnings: creeping(cells, 1).map((one) => ({ ...one, ...by })),
  };
}

function knocked({ cells, happenings }: Troubled): Way {
  const jams = happenings.filter(({ kind, at }) => kind === 'jam' && at >= cells[0]!.from);
  return {
    how: 'knocked',
    prior: KNOCKED,
    beginnings: jams.map(({ at }) => stepped(cells, at, 1 / jams.length)),
  };
}

function ofOther(troubled: Troubled, { id, name, begins }: OtherCause): readonly Explanation[] {
  const cause: Cause = { kind: 'other', id, name };
  return begins.map((how) => ({ cause, how, ...comes(troubled, how) }));
}

function comes({ cells, happenings }: Troubled, how: Begins): Pick<Explanation, 'prior' | 'beginnings'> {
  if (how === 'creeping') return { prior: CREEPS, beginnings: creeping(cells, 1) };
  if (how === 'atOnce') return { prior: AT_ONCE, beginnings: anyMoment(cells, 1) };
  const { told, untold } = COMES[how];
  const start = cells[0]!.from;
  const came = happenings.filter(({ kind }) => kind === how);
  const weights = came.map(({ at }) => (at > start ? told : CAME_WITH_RUN));
  const prior = weights.reduce<number>((sum, weight) => sum + weight, untold);
  return {
    prior,
    beginnings: [
      ...came.map(({ at }, nth) => stepped(cells, at, weights[nth]! / prior)),
      ...anyMoment(cells, untold / prior),
    ],
  };
}

function stepped(cells: readonly Cell[], at: Instant, share: number): Beginning {
  return { at, since: at, shape: stepFrom(cells, at), share };
}

/** At the beginning of any cell, no one likelier than another. */
function anyMoment(cells: readonly Cell[], share: number): readonly Beginning[] {
  return cells.map(({ from }) => ({ ...stepped(cells, from, share / cells.length), at: undefined }));
}

/** Begun early or late in the run; evenly, or ever faster. A reading tells of it when it was made while it crept. */
function creeping(cells: readonly Cell[], share: number): readonly Beginning[] {
  const firsts = [...new Set([0, 0.2, 0.4, 0.6, 0.8].map((part) => Math.floor(part * cells.length)))];
  return firsts.flatMap((first) =>
    ([1, 2] as const).map((power) => ({
      at: undefined,
      // half of the way it had come by then
      since: cells[Math.floor((first + cells.length) / 2)]!.from,
      shape: creepFrom(cells, first, power),
      share: share / (2 * firsts.length),
    })),
  );
}
