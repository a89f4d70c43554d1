import { answerAll, Effort } from './intakeProcess.ts';

/** What a listener is asked: whether it hears all lines, what it costs, and how many values of each tag it has. */
export type ListenerQuestion = { readonly kind: 'ready' | 'measure' | 'measured' | 'counts' };

export interface ListenerAnswer {
  readonly ready: boolean;
  /** % of one core, and of the time, since it was asked to measure. */
  readonly cpu: number;
  readonly busy: number;
  readonly rssBytes: number;
  /** From a change until it was taken: the middle one in the first third of that time, and in the last. Milliseconds. */
  readonly firstMs: number;
  readonly lastMs: number;
  readonly mostMs: number;
  /** Values of each tag of each line so far; empty unless asked for. */
  readonly counts: readonly number[];
  /** What it warned of since it was asked before. */
  readonly warned: readonly string[];
}

/** What differs between one listener and another. */
export interface Listener {
  ready(): boolean;
  counts(): Promise<readonly number[]>;
  /** What it has to warn of; emptied here. */
  readonly warned: string[];
}

/** Delays of what was taken, one of each message. */
export class Delays {
  private list: number[] = [];

  begin(): void {
    this.list = [];
  }

  /** `changed`: milliseconds since 1970. */
  taken(changed: number): void {
    this.list.push(Date.now() - changed);
  }

  told(): Pick<ListenerAnswer, 'firstMs' | 'lastMs' | 'mostMs'> {
    const third = Math.ceil(this.list.length / 3);
    return {
      firstMs: middle(this.list.slice(0, third)),
      lastMs: middle(this.list.slice(-third)),
      mostMs: this.list.reduce((most, one) => Math.max(most, one), 0),
    };
  }
}

/** Answers for a listener until its parent has gone. */
export function answerFor(listener: Listener, delays: Delays): void {
  const effort = new Effort();
  answerAll<ListenerQuestion, ListenerAnswer>(async ({ kind }) => {
    if (kind === 'measure') {
      effort.begin();
      delays.begin();
    }
    return {
      ready: listener.ready(),
      ...effort.percent(),
      rssBytes: process.memoryUsage.rss(),
      ...delays.told(),
      counts: kind === 'counts' ? await listener.counts() : [],
      warned: listener.warned.splice(0),
    };
  });
}

function middle(list: readonly number[]): number {
  return [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)] ?? 0;
}
