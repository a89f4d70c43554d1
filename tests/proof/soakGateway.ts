import { appendFileSync, existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { pino } from 'pino';
import { run } from '../../gateway/commands/run.ts';
import { READ_EVERY_MS, type SoakReading, type SoakWord } from './soakReading.ts';

/** The gateway of a line file, told what it holds every half minute, until its parent wants it to stop or is gone. */
async function live(lineFile: string, folder: string): Promise<void> {
  const data = join(folder, 'data');
  const asked = {
    line: lineFile,
    port: 0,
    host: '127.0.0.1',
    names: [],
    data,
    fresh: false,
    speed: 1,
    seed: undefined,
    from: undefined,
    help: false,
  };
  const write = (text: string) => appendFileSync(join(folder, 'gateway.txt'), text);
  const gateway = await run(asked, { log: pino({}, { write }), say: () => {} });
  tell({ kind: 'opened', address: gateway.address });
  const lateness = monitorEventLoopDelay({ resolution: 10 });
  lateness.enable();
  const timer = setInterval(() => {
    const lateMs = lateness.percentile(99) / 1e6;
    const read = reading(data);
    void positionOf(gateway.address).then((changes) => {
      tell({ kind: 'reading', reading: { ...read, changes, lateMs } });
      // what the reading itself cost is nobody's lateness
      lateness.reset();
    });
  }, READ_EVERY_MS);
  process.once('disconnect', () => process.exit(1));
  process.once('message', async () => {
    clearInterval(timer);
    await gateway.stop();
    tell({ kind: 'stopped' });
  });
}

function reading(data: string): Omit<SoakReading, 'lateMs' | 'changes'> {
  globalThis.gc?.();
  const { heapUsed, rss } = process.memoryUsage();
  const handles: Record<string, number> = {};
  for (const kind of process.getActiveResourcesInfo()) handles[kind] = (handles[kind] ?? 0) + 1;
  const list = '/proc/self/fd';
  return {
    at: Date.now(),
    heapBytes: heapUsed,
    rssBytes: rss,
    handles,
    descriptors: existsSync(list) ? readdirSync(list).length : undefined,
    tapeBytes: bytesOf(join(data, 'tape.sqlite')) + bytesOf(join(data, 'tape.sqlite-wal')),
  };
}

/** Asked as any program may, by a connection that is closed at once. */
async function positionOf(address: string): Promise<number> {
  const answer = await fetch(`${address}api/lines/line-3/changes?from=0&to=0`, {
    headers: { connection: 'close' },
  });
  return ((await answer.json()) as { readonly end: number }).end;
}

function bytesOf(file: string): number {
  return statSync(file, { throwIfNoEntry: false })?.size ?? 0;
}

function tell(word: SoakWord): void {
  process.send?.(word);
}

const [lineFile, folder] = process.argv.slice(2) as [string, string];
await live(lineFile, folder);
