import { measuredFor } from '../../model/attribution/accuracy.ts';
import { PARTS, wholeParts } from '../../model/attribution/parts.ts';
import { LineFold } from '../../model/fold/fold.ts';
import type { Line } from '../../model/line/line.ts';
import type { Change } from '../../model/signals/signals.ts';
import { HOUR, type Instant } from '../../model/units/units.ts';
import type { CartonEntry } from '../../simulator/ledger/entries.ts';
import { runUntil, startMachine, takeEntries } from '../../simulator/machine/machine.ts';
import { boundLine, changesOf, monday } from '../simulator/simulatedLine.ts';
import type { Setting } from './attribution.ts';
import { lose } from './attributionLosses.ts';
import { Telling, troubled } from './attributionTrouble.ts';

/** Name of the share that no station has, and of the truth that no station did it. */
export const NOBODY = 'nobody';

/** One rejected carton: what was told of it, and who truly spoiled it. */
export interface Told {
  readonly truth: string;
  /** Station that the account charges it to. */
  readonly table: string;
  readonly shares: ReadonlyMap<string, number>;
  /** What the line file alone would have told of it. */
  readonly byFile: ReadonlyMap<string, number>;
}

/**
 * Every reject of a run with its shares; `addUp`: they are the rejects that the tally counted, exactly; `heldTo`: what the
 * screen would say in the end that they may be held to.
 */
export function toldOf(setting: Setting, seed: number, shifts: number) {
  const { variant, handling = false, losses = false } = setting;
  const bound = boundLine(variant);
  const line = troubled(bound.line, setting);
  const telling = new Telling(bound.line, setting, seed);
  const machine = startMachine({ seed, start: monday, variant, handling });
  const fold = new LineFold(line);
  const truths = new Truths(line);
  const told: Told[] = [];
  for (let hour = 1; hour <= shifts * 8; hour += 1) {
    const from = (monday + (hour - 1) * HOUR) as Instant;
    const facts = runUntil(machine, (from + HOUR) as Instant);
    truths.add(takeEntries(machine).filter((entry) => entry.kind === 'carton'));
    const heard = changesOf(bound, losses ? lose(facts, { seed, from }) : facts);
    told.push(...takeHour(fold, telling.of(heard), truths));
  }
  const { index, state } = fold;
  return { told, addUp: addsUp(fold), heldTo: measuredFor(line, index.attribution, state.attribution) };
}

/** Feeds the fold, and looks at what it made of each reading of a reject counter. */
function takeHour(fold: LineFold, changes: readonly Change[], truths: Truths): Told[] {
  const told: Told[] = [];
  let from = 0;
  changes.forEach((change, place) => {
    const signal = fold.index.line.signals[change.signal]!;
    const suspects =
      fold.index.attribution.suspects[fold.index.attribution.placeOf.get(signal.of ?? '') ?? -1];
    if (signal.role !== 'rejectCount' || !suspects) return;
    fold.take(changes.slice(from, place));
    const before = fold.state.attribution.parts.slice();
    fold.take([change]);
    from = place + 1;
    const due = truths.take(suspects.reason, change.at);
    const gained = suspects.prior.map(
      (_, n) => partsAt(fold, suspects.first + n) - before[suspects.first + n]!,
    );
    const parts = gained.reduce((sum, part) => sum + part, 0);
    const name = (n: number) => fold.index.line.stations[suspects.stations[n] ?? -1]?.id ?? NOBODY;
    const shares = new Map(gained.map((part, n) => [name(n), part / parts]));
    const file = wholeParts(suspects.prior, parts);
    const byFile = new Map(file.map((part, n) => [name(n), part / parts]));
    told.push(...due.slice(0, parts / PARTS).map((one) => ({ ...one, shares, byFile })));
  });
  fold.take(changes.slice(from));
  return told;
}

const partsAt = ({ state }: LineFold, place: number) => state.attribution.parts[place]!;

/** What the ledger knows of rejected cartons that were not yet told, by reason. */
class Truths {
  private readonly line: Line;
  private left: CartonEntry[] = [];

  constructor(line: Line) {
    this.line = line;
  }

  add(entries: readonly CartonEntry[]): void {
    this.left.push(...entries.filter(({ fate }) => fate === 'rejected'));
  }

  /** Those of a reason that had left their pockets by a moment. */
  take(reason: string, at: Instant): { readonly truth: string; readonly table: string }[] {
    const due = this.left.filter((entry) => entry.reason === reason && entry.at <= at);
    this.left = this.left.filter((entry) => !due.includes(entry));
    const { station } = this.line.rejects.find(({ id }) => id === reason)!;
    return due.map(({ spoiledBy }) => ({ truth: this.stationOf(spoiledBy), table: station }));
  }

  private stationOf(spoiledBy: string | undefined): string {
    return this.line.stations.some(({ id }) => id === spoiledBy) ? spoiledBy! : NOBODY;
  }
}

/** Parts of each reason are its counter's count in production. */
function addsUp({ index, state }: LineFold): boolean {
  return index.attribution.suspects.every(({ reason, first, prior }) => {
    const parts = prior.reduce((sum, _, n) => sum + state.attribution.parts[first + n]!, 0);
    const counted = index.tallied.reduce((sum, signal, place) => {
      const { role, of } = index.line.signals[signal]!;
      return role === 'rejectCount' && of === reason ? sum + state.tally[place]! : sum;
    }, 0);
    return parts === counted * PARTS && state.attribution.parts.every((part) => part >= 0);
  });
}
