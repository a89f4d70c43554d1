import { setImmediate } from 'node:timers/promises';
import type { LineFold } from '../../model/fold/fold.ts';
import { foldTape } from '../../model/replay/foldTape.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import type { Instant } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { Tape } from '../tape/tape.ts';
import type { LineRead } from './lineRead.ts';

const words = wordsIn('en').gateway.asOf;

/** Positions whose states are kept: a screen asks many things of one, and few screens look back at once. */
const KEPT_MOST = 8;
/** States that wait to be folded; whoever asks for more is refused. */
const WAITING_MOST = 16;

/** A line at a position of its tape. */
export interface LineThen {
  readonly fold: Pick<LineFold, 'index' | 'state'>;
  /** When it was heard last by then. */
  readonly heard: Instant;
  /** The newest moment that anything on the tape has by then: a link that is lost, and what people say, is later. */
  readonly newest: Instant;
}

/** Too much is asked of the past at once. */
export class TooManyThen extends LineError {}

/** Lines as they stood at positions of their tapes: folded one after another, each once for all who ask, the last few kept. */
export class LinesThen {
  private readonly tape: Tape;
  private readonly kept = new Map<string, Promise<LineThen>>();
  private chain: Promise<unknown> = Promise.resolve();
  private waiting = 0;

  constructor(tape: Tape) {
    this.tape = tape;
  }

  async at({ line, version }: Pick<LineRead, 'line' | 'version'>, position: number): Promise<LineThen> {
    // a history that was brought in before it makes another state of the same position
    const key = `${line.id} ${version} ${this.tape.begin(line.id)} ${position}`;
    const known = this.kept.get(key);
    const then = known ?? this.inTurn(() => this.foldUntil(line, version, position));
    this.kept.delete(key);
    this.kept.set(key, then);
    if (this.kept.size > KEPT_MOST) this.kept.delete(this.kept.keys().next().value!);
    try {
      return await then;
    } catch (error) {
      if (this.kept.get(key) === then) this.kept.delete(key);
      throw error;
    }
  }

  private async foldUntil(line: LineRead['line'], version: string, position: number): Promise<LineThen> {
    const { fold } = await foldTape(this.tape, line, { version, end: position, rest: () => setImmediate() });
    const { index, state } = fold.apart();
    const heard = state.heardAt < 0 ? await this.receivedBefore(line.id, position) : state.heardAt;
    return { fold: { index, state }, heard, newest: Math.max(state.at, heard) as Instant };
  }

  /** Before anything is heard of a line its time is the gateway's. */
  private async receivedBefore(line: string, position: number): Promise<Instant> {
    let received = 0 as Instant;
    for await (const changes of this.tape.read(line, position - 1, position))
      for (const change of changes) received = change.received;
    return received;
  }

  private inTurn(act: () => Promise<LineThen>): Promise<LineThen> {
    if (this.waiting >= WAITING_MOST)
      return Promise.reject(
        new TooManyThen(words.tooMany, { why: words.tooManyWhy, mend: words.tooManyMend }),
      );
    this.waiting += 1;
    const turn = this.chain.then(act).finally(() => {
      this.waiting -= 1;
    });
    this.chain = turn.catch(() => {});
    return turn;
  }
}
