import type { LineEvent } from '../../model/fold/events.ts';
import type { FoldState } from '../../model/fold/state.ts';
import { RECORD_KINDS, type RecordStep, recordSteps } from '../../model/records/records.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import type { Instant } from '../../model/units/units.ts';
import type { Edition, Records } from './records.ts';

/** Steps that wait while the records' file refuses them; with more, the records are made anew at the next start. */
const WAITING_MOST = 20_000;

/** Writes down what a line's fold tells, as it tells it. Trouble with the records never holds up what is recorded and shown. */
export class RecordsKeeper {
  private readonly records: Records;
  private readonly line: string;
  private edition: Edition | undefined;
  private waiting: RecordStep[] = [];
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

  /** From a moment on all is told anew. */
  cut(from: Instant): void {
    this.waiting.push({ kind: 'cut', of: RECORD_KINDS, from });
  }

  /**
   * What was seen, and up to which position of the tape all is told now; undefined on the way there. Throws nothing:
   * trouble is answered, once until it is over.
   */
  keep(
    events: readonly LineEvent[],
    state: Readonly<FoldState>,
    position = this.edition?.position ?? 0,
  ): LineError | undefined {
    const steps = recordSteps(events, state);
    if (!this.edition || this.lost || steps.length + this.waiting.length === 0) return undefined;
    const all = this.waiting.length > 0 ? [...this.waiting, ...steps] : steps;
    try {
      this.records.write(this.edition, all, position);
      this.edition = { ...this.edition, position };
      this.waiting = [];
      this.told = undefined;
      return undefined;
    } catch (error) {
      if (!(error instanceof LineError)) throw error;
      this.wait(steps);
      const first = this.told !== error.message;
      this.told = error.message;
      return first ? error : undefined;
    }
  }

  /** Another making takes the place of the one that was written to. */
  take(edition: Edition): void {
    this.records.serve(this.line, edition);
    this.edition = edition;
    this.waiting = [];
    this.lost = false;
  }

  private wait(steps: readonly RecordStep[]): void {
    for (const step of steps) this.waiting.push(structuredClone(step));
    if (this.waiting.length <= WAITING_MOST) return;
    // the edition's position stays behind: at the next start all since then is folded again
    this.waiting = [];
    this.lost = true;
  }
}
