import type { Answered, Asked, Frame, Opened, ReplayWindow, Trouble } from '../../model/replay/asked.ts';
import type { As } from '../../model/replay/replay.ts';
import type { Instant } from '../../model/units/units.ts';

/** How far a replay is. */
export type Progress =
  | { readonly kind: 'opening'; readonly share: number }
  | { readonly kind: 'open'; readonly opened: Opened }
  | ({ readonly kind: 'failed' } & Trouble);

export interface Playing {
  readonly progress: Progress;
  /** The newest moment that was folded; undefined before the first. */
  readonly frame: Frame | undefined;
}

/** What runs beside the screen and answers it: a worker, or a test's. */
export type Beside = Pick<Worker, 'postMessage' | 'terminate'> & {
  onmessage: ((message: MessageEvent<Answered>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
};

/** A moment, in which of the two views; and of which station the adjustments are wanted. */
export interface Wish {
  readonly at: Instant;
  readonly as: As;
  readonly station: string | undefined;
}

type Question = Asked extends infer One ? (One extends Asked ? Omit<One, 'id'> : never) : never;

/** A replay of one stretch: it is opened beside the screen, asked for moments, and ended with the page that shows it. */
export class ReplaySession {
  private readonly beside: Beside;
  private readonly waiting = new Map<number, (answer: Answered) => void>();
  private readonly told = new Set<() => void>();
  private playing: Playing = { progress: { kind: 'opening', share: 0 }, frame: undefined };
  private asked = 0;
  /** The moment that is asked for next: while one is being folded only the newest wish is kept. */
  private wish: Wish | undefined;
  private looking = false;

  constructor(beside: Beside, line: string, from: Instant, to: Instant) {
    this.beside = beside;
    beside.onmessage = ({ data }) => this.hear(data);
    beside.onerror = (event) => this.fail({ trouble: event.message, why: undefined, mend: undefined });
    void this.ask({ kind: 'open', line, from, to }).then((answer) => {
      if (answer.kind === 'opened') this.set({ progress: { kind: 'open', opened: answer.opened } });
      if (answer.kind === 'failed') this.fail(answer);
      void this.look();
    });
  }

  readonly get = (): Playing => this.playing;

  readonly subscribe = (tell: () => void): (() => void) => {
    this.told.add(tell);
    return () => this.told.delete(tell);
  };

  /** Shows a moment as soon as it is folded; of several wishes only the newest is. */
  show(wish: Wish): void {
    this.wish = wish;
    void this.look();
  }

  /** A stretch looked at closely; undefined where it could not be. */
  async window(from: Instant, to: Instant, station: string | undefined): Promise<ReplayWindow | undefined> {
    const answer = await this.ask({ kind: 'window', from, to, station });
    return answer.kind === 'window' ? answer.window : undefined;
  }

  async step(at: Instant, by: 'change' | 'carton', way: 1 | -1): Promise<Instant | undefined> {
    const answer = await this.ask({ kind: 'step', at, by, way });
    return answer.kind === 'step' ? answer.at : undefined;
  }

  end(): void {
    this.beside.terminate();
    this.told.clear();
    this.waiting.clear();
  }

  private async look(): Promise<void> {
    if (this.looking || this.playing.progress.kind !== 'open' || !this.wish) return;
    this.looking = true;
    const { wish } = this;
    this.wish = undefined;
    const answer = await this.ask({ kind: 'frame', ...wish });
    this.looking = false;
    if (answer.kind === 'frame') this.set({ frame: answer.frame });
    if (answer.kind === 'failed') this.fail(answer);
    void this.look();
  }

  private ask(question: Question): Promise<Answered> {
    this.asked += 1;
    const id = this.asked;
    this.beside.postMessage({ ...question, id });
    return new Promise((resolve) => this.waiting.set(id, resolve));
  }

  private hear(answer: Answered): void {
    if (answer.kind === 'progress') {
      this.set({ progress: { kind: 'opening', share: answer.share } });
      return;
    }
    this.waiting.get(answer.id)?.(answer);
    this.waiting.delete(answer.id);
  }

  private fail({ trouble, why, mend }: Trouble): void {
    this.set({ progress: { kind: 'failed', trouble, why, mend } });
  }

  private set(change: Partial<Playing>): void {
    this.playing = { ...this.playing, ...change };
    for (const tell of this.told) tell();
  }
}
