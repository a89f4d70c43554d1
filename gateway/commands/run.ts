import { existsSync, readFileSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import type { Logger } from 'pino';
import type { Change } from '../../model/signals/signals.ts';
import type { LineError } from '../../model/trouble/trouble.ts';
import type { EpochMs, Millis } from '../../model/units/units.ts';
import type { Outside } from '../../model/view/lineView.ts';
import { wordsIn } from '../../model/words/words.ts';
import { createApi } from '../api/api.ts';
import { signalRows } from '../api/signalRows.ts';
import { type Bound, readLineFile } from '../binding/binding.ts';
import { type Intake, startIntake } from '../intake/intake.ts';
import { type LiveLine, type LiveNote, newEntryId, startLiveLine } from '../live/liveLine.ts';
import { startSockets } from '../live/sockets.ts';
import { openSqliteTape } from '../tape/sqliteTape.ts';
import type { Asked } from './arguments.ts';
import { dashboardFolder } from './dashboard.ts';
import { type Demo, demoLineFile, type Run, runOf, startDemo } from './demo.ts';
import { listOrders } from './orderList.ts';
import { listen } from './web.ts';

const words = wordsIn('en').gateway;

export interface Gateway {
  readonly address: string;
  readonly panels: readonly string[];
  /** Resolves when something ended that the gateway cannot go on without. */
  readonly failed: Promise<LineError>;
  stop(): Promise<void>;
}

export interface Voices {
  readonly log: Logger;
  readonly say: (text: string) => void;
}

/** Runs a line from its file: tape, fold, intake, screens; the demo line with its simulator beside it. */
export async function run(asked: Asked, { log, say }: Voices): Promise<Gateway> {
  const isDemo = asked.line === undefined;
  const bound = await readLineFile(asked.line ?? demoLineFile);
  say(words.step.line(bound.line.name));
  if (isDemo) setAsideUnlessSame(asked);
  const now = () => Date.now();
  const tape = await openSqliteTape(asked.data, new Map([[bound.line.id, bound.line.signals]]));
  say(words.step.tape(asked.data, tape.end(bound.line.id).toLocaleString('en-GB')));
  const intakes: Intake[] = [];
  const outside = () => outsideOf(bound, intakes);
  const speed = isDemo ? asked.speed : 1;
  const told = (note: LiveNote) => log.info(note, note.kind);
  const live = await startLiveLine({ line: bound.line, tape, now, speed, outside, told });
  const simulated = isDemo ? runOf(bound.line, { ...asked, now }) : undefined;
  const listedAt = live.fold().newest === undefined && simulated ? simulated.began : now();
  await listOrders(bound, live, newEntryId, listedAt);
  const lines = new Map([[bound.line.id, live]]);
  const signals = () => signalRows(bound, live, intakes);
  const web = await listen(
    createApi({ lines, tape, now, signals, dashboard: dashboardFolder }),
    asked.port,
    asked.host,
  );
  const sockets = startSockets(web.server, lines, now);
  const demo = simulated && (await demoLine(bound, asked, simulated, live, say));
  for (const server of bound.servers) {
    const endpoint = demo?.endpoint ?? server.endpoint;
    say(words.step.connecting(server.id, endpoint));
    intakes.push(await startIntake(intakeParts(bound, { ...server, endpoint }, live, asked.data, log)));
  }
  return {
    address: web.address,
    panels: bound.line.loading.positions.map((position) => `${web.address}panel/${position.id}`),
    failed: demo?.ended ?? new Promise(() => {}),
    stop: async () => {
      for (const intake of intakes) await intake.stop();
      await demo?.stop();
      await sockets.stop();
      await web.stop();
      await live.stop();
      await tape.close();
    },
  };
}

async function demoLine(
  bound: Bound,
  { data, speed }: Asked,
  simulated: Run,
  live: LiveLine,
  say: Voices['say'],
): Promise<Demo> {
  say(words.step.simulator);
  let played = 0;
  const past = async (changes: readonly Change[]) => {
    await live.offer(changes);
    played += changes.length;
    say(words.step.history(played.toLocaleString('en-GB')));
  };
  return startDemo(bound, { data, run: simulated, speed, newest: live.fold().state.heardAt, past });
}

function intakeParts(
  bound: Bound,
  server: Bound['servers'][number],
  live: LiveLine,
  data: string,
  log: Logger,
): Parameters<typeof startIntake>[0] {
  const signals = bound.line.signals.flatMap((signal) => {
    const bind = bound.tags.get(signal.index);
    return bind?.server === server.id ? [{ signal, tag: bind.tag }] : [];
  });
  return {
    server,
    signals,
    linkSignal: bound.line.signals.findIndex(
      (signal) => signal.role === 'link' && signal.server === server.id,
    ),
    zone: bound.line.zone,
    pkiFolder: join(data, 'certificates'),
    take: (changes) => live.offer(changes),
    known: (signal) => {
      const { values, ats } = live.fold().state;
      const value = values[signal];
      return value === null || value === undefined ? undefined : { at: ats[signal]!, value };
    },
    log: log.child({ server: server.id }),
    now: () => Date.now(),
  };
}

function outsideOf(bound: Bound, intakes: readonly Intake[]): Outside {
  return {
    servers: bound.servers.map(({ id }, place) => {
      const status = intakes[place]?.status();
      return {
        id,
        up: status?.up ?? false,
        ...(status?.since === undefined ? {} : { since: status.since as EpochMs }),
        ...(status?.clockOffsetMs === undefined ? {} : { clockOffset: status.clockOffsetMs as Millis }),
      };
    }),
  };
}

/** The tape of another demo run is kept under another name, never deleted: two machines do not share a tape. */
function setAsideUnlessSame({ data, fresh, speed, seed, from }: Asked): void {
  const file = join(data, 'demo.json');
  if (!existsSync(file)) return;
  const before = JSON.parse(readFileSync(file, 'utf8')) as Run;
  const other =
    before.fixed || speed !== 1 || from !== undefined || (seed !== undefined && seed !== before.seed);
  if (fresh || other) renameSync(data, `${data}-until-${new Date().toISOString().replaceAll(/[:.]/g, '-')}`);
}
