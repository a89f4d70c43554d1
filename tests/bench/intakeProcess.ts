import { fork } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';

/** A process of a bench that answers questions, one after the other. */
export interface Asked<Question, Answer> {
  ask(question: Question): Promise<Answer>;
  end(): Promise<void>;
}

/** Starts a file of this folder. `flags`: Node's own, such as those of its profiler. */
export function startAsked<Question extends object, Answer>(
  file: string,
  args: readonly string[],
  flags: readonly string[] = [],
): Asked<Question, Answer> {
  const child = fork(join(import.meta.dirname, file), args, { execArgv: ['--import', 'tsx', ...flags] });
  let ended = false;
  child.once('exit', (code) => {
    if (!ended) throw new Error(`${file} ended by itself: ${code}`);
  });
  return {
    ask: async (question) => {
      const answered = once(child, 'message') as Promise<[Answer]>;
      child.send(question);
      return (await answered)[0];
    },
    end: async () => {
      ended = true;
      const exit = once(child, 'exit');
      child.disconnect();
      await exit;
    },
  };
}

/** In the process itself: answers until the parent has gone. */
export function answerAll<Question, Answer>(reply: (question: Question) => Promise<Answer>): void {
  process.on('message', (question: Question) => {
    void reply(question).then((answer) => process.send?.(answer));
  });
  process.once('disconnect', () => process.exit(0));
}

/** What a process spends, in % since it was begun. */
export class Effort {
  private cpu = process.cpuUsage();
  private loop = performance.eventLoopUtilization();
  private wall = performance.now();

  begin(): void {
    this.cpu = process.cpuUsage();
    this.loop = performance.eventLoopUtilization();
    this.wall = performance.now();
  }

  /** `cpu`: processor time, of one core. `busy`: time in which it did not wait for work; for the disk it may have waited. */
  percent(): { readonly cpu: number; readonly busy: number } {
    const { user, system } = process.cpuUsage(this.cpu);
    const cpu = (user + system) / 10 / (performance.now() - this.wall);
    return { cpu, busy: 100 * performance.eventLoopUtilization(this.loop).utilization };
  }
}
