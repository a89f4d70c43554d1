import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createApi } from '../../../gateway/api/api.ts';
import { knownHost } from '../../../gateway/api/hostNames.ts';
import { Making } from '../../../gateway/records/making.ts';
import { openRecords, type Records } from '../../../gateway/records/records.ts';
import type { SymptomKnowledge } from '../../../model/diagnosis/symptoms.ts';
import type { Line } from '../../../model/line/line.ts';
import type { Change } from '../../../model/signals/signals.ts';
import { msAt, type Stand, stand, type Wish } from '../live/shell.ts';

/** One answer about the past, as it came. */
export interface Answer {
  readonly status: number;
  readonly text: string;
  readonly position: number;
  /** Milliseconds since 1970. */
  readonly moment: number;
}

/** The past of a line under `/api`, with its records. */
export interface PastSite extends Stand {
  readonly line: Line;
  readonly records: Records;
  /** Under `/api/lines/ID/past`. */
  readonly ask: (path: string) => Promise<Answer>;
  readonly post: (path: string) => Promise<Response>;
  /** Makes the records anew from the tape, and goes on with them. */
  readonly makeAnew: () => Promise<void>;
  /** Brings a history in before the tape. */
  readonly bringIn: (changes: readonly Change[]) => Promise<void>;
  readonly close: () => Promise<void>;
}

export async function openPastSite(
  line: Line,
  wish: Omit<Wish, 'records'> & { readonly symptoms?: SymptomKnowledge | undefined } = {},
): Promise<PastSite> {
  const folder = mkdtempSync(join(tmpdir(), 'scoreline-test-past-'));
  const records = openRecords(folder);
  const stood = await stand(line, { ...wish, records });
  const { live, tape, clock } = stood;
  const { version } = live;
  const newMaking = () =>
    new Making({ tape, records, line, version, stopping: new AbortController().signal });
  const failed: unknown[] = [];
  const server = createServer(
    createApi({
      lines: new Map([[line.id, live]]),
      tape,
      past: {
        records,
        status: () => ({ kind: 'whole' }),
        cancel: () => {},
        symptoms: () => wish.symptoms,
      },
      now: () => msAt(clock.second),
      signals: () => [],
      servers: () => [],
      known: knownHost([]),
      dashboard: folder,
      log: { error: (what: unknown) => void failed.push(what) },
    }),
  );
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/api/lines/${line.id}/past`;
  return {
    ...stood,
    line,
    records,
    ask: async (path) => {
      const response = await fetch(`${address}${path}`);
      const told = (name: string) => Number(response.headers.get(name) ?? Number.NaN);
      return {
        status: response.status,
        text: await response.text(),
        position: told('Scoreline-Position'),
        moment: told('Scoreline-Moment'),
      };
    },
    post: (path) => fetch(`${address}${path}`, { method: 'POST' }),
    makeAnew: async () => {
      const making = newMaking();
      await making.goOn(tape.end(line.id));
      await live.takeOver(making, false);
    },
    bringIn: async (changes) => {
      const making = newMaking();
      await making.takeHistory(inOne(changes));
      await live.takeOver(making, true);
    },
    close: async () => {
      server.closeAllConnections();
      await new Promise<void>((resolve) => void server.close(() => resolve()));
      await live.stop();
      records.close();
      rmSync(folder, { recursive: true, force: true });
      if (failed.length > 0) throw failed[0];
    },
  };
}

/** The same question as of a position, at the moment that was shown there. */
export function asOf(path: string, { position, moment }: Pick<Answer, 'position' | 'moment'>): string {
  return `${path}${path.includes('?') ? '&' : '?'}asOf=${position}&shownAt=${moment}`;
}

async function* inOne(changes: readonly Change[]): AsyncGenerator<readonly Change[]> {
  yield changes;
}
