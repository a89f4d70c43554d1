import type { LineFold } from '../../model/fold/fold.ts';
import type { Line } from '../../model/line/line.ts';
import { minutes } from '../../model/units/units.ts';
import { LASTING_EVERY } from '../tape/checkpoints.ts';
import type { Tape } from '../tape/tape.ts';

/** A state is kept for a quick restart when so much line time has passed since the last one. */
const EVERY = minutes(5);

/** Keeps states of a line while it runs: one now and then for good, and the newest for a quick restart. */
export class StateKeeper {
  private readonly tape: Tape;
  private readonly line: Line;
  private readonly version: string;
  private keptAt = -1;
  private lastedAt = -1;
  /** Where the tape began for the state: it is without a history that was brought in since, and knows what was taken away since. */
  private begin = 0;

  constructor(tape: Tape, line: Line, version: string) {
    this.tape = tape;
    this.line = line;
    this.version = version;
  }

  /** The state goes by all that the tape holds, from its beginning on. */
  knowsAll({ state }: LineFold): void {
    this.begin = this.tape.begin(this.line.id);
    this.keptAt = state.at;
  }

  isDue({ state }: LineFold): boolean {
    return state.at - this.keptAt >= EVERY;
  }

  async keep(fold: LineFold, position: number): Promise<void> {
    const { tape, line, version } = this;
    if (fold.newest === undefined || tape.begin(line.id) < this.begin) return;
    const { at } = fold.state;
    const passing = at - this.lastedAt < LASTING_EVERY;
    this.keptAt = at;
    if (!passing) this.lastedAt = at;
    await tape.keep(line.id, { position, version, body: JSON.stringify(fold.save()), passing });
  }
}
