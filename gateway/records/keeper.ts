import type { LineEvent } from '../../model/fold/events.ts';
import type { FoldState } from '../../model/fold/state.ts';
import { RECORD_KINDS, recordSteps } from '../../model/records/records.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import type { Instant } from '../../model/units/units.ts';
import type { Edition, Records } from './records.ts';
import { type RowStep, rowSteps, type Written } from './rows.ts';

/** Steps that wait while the records' file refuses them; with more, the records are made anew at the next start. */
const WAITING_MOST = 20_000;

/** What folding again tells of what it sees. */
export interface Again {
  readonly seen: (events: readonly LineEvent[], state: Readonly<FoldState>, position: number) => void;
  /** From a moment on all will be seen once more, whatever position it has. */
  readonly anew: (from: Instant) => void;
  /** All was seen up to a position. */
  readonly keepAnew: (position: number) => void;
}

/** Writes down what a line's fold tells, as it tells it. Trouble with the records never holds up what is recorded and shown. */
export class RecordsKeeper {
  private readonly records: Records;
  private readonly line: string;
  private edition: Edition | undefined;
  private waiting: Written[] = [];
  private told: string | undefined;
  private lost = false;

  constructor(records: Records, line: string) {
    this.records = records;
    this.line = line;
  }

  /**
   * Where folding has to begin so that nothing is missing from the records; undefined where they are to be made anew,
   * beside what goes on. A line of which the tape holds nothing begins with new ones.
   */
  begin(
    version: string,
    { begin, end }: { readonly begin: number; readonly end: number },
  ): number | undefined {
    let edition = this.records.edition(this.line);
    if (begin === end && edition?.version !== version) {
      edition = this.records.begin(this.line, version);
      this.records.serve(this.line, edition);
    }
    this.edition = edition;
    const serves = edition?.version === version && edition.position <= end;
    return serves ? edition!.position : undefined;
  }

  /**
   * What was seen with the changes up to a position of the tape; what is in the records already is not written again. Throws
   * nothing: trouble is answered, once until it is over.
   */
  keep(events: readonly LineEvent[], state: Readonly<FoldState>, position: number): LineError | undefined {
    const known = this.edition?.position ?? Number.POSITIVE_INFINITY;
    if (position <= known) return undefined;
    return this.write(rowSteps(recordSteps(events, state)), position);
  }

  /** For folding again: what is seen on the way, and what from some moment on is told anew, all of that at one position. */
  again(tell: (trouble: LineError) => void): Again {
    let anew: RowStep[] | undefined;
    const told = (trouble: LineError | undefined) => trouble && tell(trouble);
    return {
      seen: (events, state, position) => {
        if (anew) anew.push(...rowSteps(recordSteps(events, state)));
        else told(this.keep(events, state, position));
      },
      anew: (from) => {
        anew = [{ kind: 'cut', of: RECORD_KINDS, from }];
      },
      keepAnew: (position) => {
        if (anew) told(this.write(anew, position));
      },
    };
  }

  /** Another making takes the place of the one that was written to. */
  take(edition: Edition): void {
    this.records.serve(this.line, edition);
    this.edition = edition;
    this.waiting = [];
    this.lost = false;
  }

  private write(steps: readonly RowStep[], position: number): LineError | undefined {
    if (!this.edition || this.lost) return undefined;
    if (steps.length > 0) this.waiting.push({ position, steps });
    if (this.waiting.length === 0) return undefined;
    try {
      this.records.writeAll(this.edition, this.waiting, position);
      this.edition = { ...this.edition, position };
      this.waiting = [];
      this.told = undefined;
      return undefined;
    } catch (error) {
      if (!(error instanceof LineError)) throw error;
      this.boundWaiting();
      const first = this.told !== error.message;
      this.told = error.message;
      return first ? error : undefined;
    }
  }

  private boundWaiting(): void {
    if (this.waiting.reduce((sum, { steps }) => sum + steps.length, 0) <= WAITING_MOST) return;
    // the edition's position stays behind: at the next start all since then is folded again
    this.waiting = [];
    this.lost = true;
  }
}
