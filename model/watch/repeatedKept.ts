import type { RejectsBy, RunSoFar } from './repeated.ts';
import type { UsualStops } from './repeatedUsual.ts';

/** Where the part of a run begins that is still looked at: in cartons of the run, and which of its stops is the first of it. */
export interface PartBegins {
  readonly begun: number;
  readonly first: number;
}

const RUN_BEGINS: PartBegins = { begun: 0, first: 0 };

/** What came out at one stop, with all that it came out of. */
interface Step {
  readonly cartons: number;
  readonly tries: number;
  /** Up to where no other stop had come. */
  readonly quietTo: number;
  /** So many points of the rejects, from the first on. */
  readonly points: number;
  readonly part: PartBegins;
}

/**
 * What looks at one station in one run have come to, for whoever looks again and again: the next look goes on from there, in place
 * of the run's beginning. Each step says what it came out of, and is gone back behind where that has become another: answers are
 * those of a look that knows nothing, to the last digit.
 */
export class KeptPart {
  private usual: UsualStops | undefined;
  private rejects: readonly RejectsBy[] = [];
  private readonly steps: Step[] = [];

  /** What still holds of it: how many of the stops are dealt with, and what they came to. */
  of(usual: UsualStops, run: RunSoFar): PartBegins & { readonly stops: number } {
    const points = agreeing(this.rejects, run.rejects ?? []);
    const other = this.steps.findIndex((step, place) => step.points > points || !isStill(step, run, place));
    if (!isSame(this.usual, usual)) this.steps.length = 0;
    else if (other >= 0) this.steps.length = other;
    this.usual = usual;
    this.rejects = run.rejects ?? [];
    return { ...(this.steps.at(-1)?.part ?? RUN_BEGINS), stops: this.steps.length };
  }

  /** One stop more is dealt with. */
  goOn({ recent, nowCartons }: RunSoFar, points: number, part: PartBegins): void {
    const place = this.steps.length;
    const { cartons, tries } = recent[place]!;
    this.steps.push({ cartons, tries, quietTo: recent[place + 1]?.cartons ?? nowCartons, points, part });
  }
}

function isStill(
  { cartons, tries, quietTo }: Step,
  { recent, nowCartons }: RunSoFar,
  place: number,
): boolean {
  const stop = recent[place];
  return (
    stop?.cartons === cartons &&
    stop.tries === tries &&
    (recent[place + 1]?.cartons ?? nowCartons) === quietTo
  );
}

/** How many points of the rejects, from the first on, are what they were. */
function agreeing(before: readonly RejectsBy[], now: readonly RejectsBy[]): number {
  const other = before.findIndex((point, place) => {
    const same = now[place];
    return point !== same && (point.cartons !== same?.cartons || point.rejects !== same.rejects);
  });
  return other < 0 ? before.length : other;
}

function isSame(before: UsualStops | undefined, now: UsualStops): boolean {
  return (
    before === now ||
    (before !== undefined &&
      before.stops.shape === now.stops.shape &&
      before.stops.cartons === now.stops.cartons &&
      before.rejects?.shape === now.rejects?.shape &&
      before.rejects?.cartons === now.rejects?.cartons &&
      before.again.yes === now.again.yes &&
      before.again.no === now.again.no)
  );
}
