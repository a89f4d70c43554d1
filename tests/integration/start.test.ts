import type { X509Certificate } from 'node:crypto';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createServer } from 'node:net';
import { once } from 'node:events';
import { connect } from 'node:tls';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { demoLineFile } from '../../gateway/commands/demo.ts';
import { buildDashboard, dashboardIsOld } from '../../gateway/commands/dashboard.ts';
import type { LineView } from '../../model/view/view.ts';
import { after as later, minutes, seconds } from '../../model/units/units.ts';
import { tagsOf } from '../../simulator/lines/tags.ts';
import { devicesOf, standard } from '../../simulator/lines/variant.ts';
import { type Machine, presentFacts, runUntil, startMachine } from '../../simulator/machine/machine.ts';
import { type PlcServer, startPlcServer } from '../../simulator/server/plcServer.ts';
import { monday } from '../simulator/simulatedLine.ts';
import { freePort, type Program, poll, startProgram } from './process.ts';

/** How often the machine is moved on. */
const TICK_MS = 100;
const command = 'gateway/commands/start.ts';
const started: Program[] = [];
let folder: string;

beforeAll(async () => {
  if (dashboardIsOld()) await buildDashboard();
});
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'scoreline-start-'));
});
afterEach(async () => {
  for (const program of started.splice(0)) program.child.kill('SIGKILL');
  rmSync(folder, { recursive: true, force: true });
});

function start(...args: string[]): Program {
  const program = startProgram(command, args);
  started.push(program);
  return program;
}

/** Exit code and everything that was said by a start that does not get far. */
async function refused(...args: string[]): Promise<{ code: number | null; said: string }> {
  const program = start(...args);
  const [code] = (await once(program.child, 'close')) as [number | null];
  return { code, said: program.said() };
}

function lineFile(endpoint: string): string {
  const text = readFileSync(demoLineFile, 'utf8');
  const file = join(folder, 'line.yaml');
  writeFileSync(file, text.replace(/endpoint: \S+/, `endpoint: ${endpoint}`).replace(/^orders:\n.*\n/m, ''));
  return file;
}

async function viewAt(address: string): Promise<LineView> {
  return (await (await fetch(`${address}api/lines/line-3/view`)).json()) as LineView;
}

const address = (program: Program) => program.until(/Scoreline is at (http:\S+)/).then(([, found]) => found!);

describe('npm start says what is wrong, why, and how to mend it, and ends with 1:', () => {
  it('an option that there is not', async () => {
    const { code, said } = await refused('--colour', 'blue');
    expect(code).toBe(1);
    expect(said).toMatch(/not understood: .*--colour/);
    expect(said).toContain('--help');
  });

  it('a line file that cannot be read, and one with mistakes, each with its place', async () => {
    const nowhere = await refused('--line', join(folder, 'none.yaml'), '--data', join(folder, 'data'));
    expect(nowhere.code).toBe(1);
    expect(nowhere.said).toMatch(/none\.yaml[\s\S]*\n.*\n.*\n/);
    const file = join(folder, 'line.yaml');
    writeFileSync(file, readFileSync(demoLineFile, 'utf8').replace(/zone: \S+/, 'zone: Nowhere/Land'));
    const wrong = await refused('--line', file, '--data', join(folder, 'data'));
    expect(wrong.code).toBe(1);
    expect(wrong.said).toMatch(/\d+:\d+/);
    expect(wrong.said).toContain('Nowhere/Land');
    expect(wrong.said).not.toMatch(/^\s+at /m);
  });

  it('a port that is taken, and a data folder that cannot be', async () => {
    const server = createServer();
    server.listen(0, '127.0.0.1');
    await once(server, 'listening');
    const { port } = server.address() as { port: number };
    const file = lineFile('opc.tcp://127.0.0.1:1');
    const taken = await refused('--line', file, '--port', String(port), '--data', join(folder, 'data'));
    server.close();
    expect(taken.code).toBe(1);
    expect(taken.said).toContain(`Port ${port} on 127.0.0.1 is taken.`);
    expect(taken.said).toContain('--port');
    const blocked = await refused('--line', file, '--port', '0', '--data', join(file, 'data'));
    expect(blocked.code).toBe(1);
    expect(blocked.said).toContain('--data');
  });
});

describe('npm start with a certificate of its own', () => {
  it('makes it in the data folder, says its fingerprint, and has the same one at the next start', async () => {
    const data = join(folder, 'data');
    const args = ['--line', lineFile('opc.tcp://127.0.0.1:1'), '--data', data, '--port', '0', '--tls', 'own'];
    const first = start(...args);
    const [, at] = await first.until(/Scoreline is at (https:\S+)/);
    const [, fingerprint] = await first.until(/SHA-256: ((?:[0-9A-F]{4} ?){16})/);
    expect(first.said()).toContain('A key and a certificate were made.');
    const shown = await shownAt(at!);
    expect(shown.fingerprint256.replaceAll(':', '')).toBe(fingerprint!.replaceAll(/\s/g, ''));
    expect(shown.toString()).toBe(readFileSync(join(data, 'tls/certificate.pem'), 'utf8'));
    await first.until(/"msg":"[^"]*plc[^"]*"/);
    expect(await first.end()).toBe(0);
    const second = start(...args);
    const [, again] = await second.until(/Scoreline is at (https:\S+)/);
    expect((await shownAt(again!)).fingerprint256).toBe(shown.fingerprint256);
    await second.until(/"msg":"[^"]*plc[^"]*"/);
    expect(await second.end()).toBe(0);
  });
});

/** The certificate that is shown by whoever listens there. */
async function shownAt(address: string): Promise<X509Certificate> {
  const { hostname: host, port } = new URL(address);
  const socket = connect({ host, port: Number(port), rejectUnauthorized: false });
  await once(socket, 'secureConnect');
  const shown = socket.getPeerX509Certificate()!;
  socket.destroy();
  return shown;
}

describe('npm start on a line of one’s own', () => {
  let plc: PlcServer;
  let machine: Machine;
  let keys: string;
  let driver: NodeJS.Timeout;
  /** The PLC's clock: it goes on while the machine moves, on the same morning whenever this is run. */
  let moment = later(monday, minutes(10));
  let moving = true;

  beforeAll(async () => {
    keys = mkdtempSync(join(tmpdir(), 'scoreline-plc-'));
    mkdirSync(join(keys, 'server'));
    plc = await startPlcServer({
      port: 0,
      certificates: join(keys, 'server'),
      tags: tagsOf(standard),
      devices: devicesOf(standard),
      clock: () => moment,
    });
    machine = startMachine({ seed: 5, start: moment });
    await plc.tell(presentFacts(machine));
    driver = setInterval(() => {
      if (!moving) return;
      moment = later(moment, seconds(TICK_MS / 1000));
      void plc.tell(runUntil(machine, moment));
    }, TICK_MS);
  });
  afterAll(async () => {
    clearInterval(driver);
    await plc.stop();
    rmSync(keys, { recursive: true, force: true });
  });

  const args = (port = 0) => [
    '--line',
    lineFile(plc.endpoint),
    '--data',
    join(folder, 'data'),
    '--port',
    String(port),
  ];
  /** What a screen shows that does not depend on the moment. */
  const lasting = ({ plan, changeover, trend, loading }: LineView) => ({
    good: plan.good,
    changeover,
    presses: trend.presses,
    loading,
  });

  it('shows what the PLC tells, ends on Ctrl-C, even one that comes twice, and goes on to the same state', async () => {
    const first = start(...args());
    const at = await address(first);
    await poll(async () => (await viewAt(at)).sight.kind === 'live');
    await poll(async () => (await viewAt(at)).plan.good > 5);
    const crew = { id: 'crew-1', author: { kind: 'position', position: 'front' }, kind: 'crew', people: 2 };
    const entered = await fetch(`${at}api/lines/line-3/entries`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(crew),
    });
    expect(entered.status).toBe(201);
    moving = false;
    const before = lasting(await settled(at));
    const closed = once(first.child, 'exit') as Promise<[number | null]>;
    first.child.kill('SIGINT');
    first.child.kill('SIGINT');
    expect((await closed)[0]).toBe(0);
    expect(first.said()).toContain('Stopped. Everything that was told is on the tape.');
    const second = start(...args());
    const again = await address(second);
    expect(lasting(await settled(again))).toEqual(before);
    moving = true;
    await poll(async () => (await viewAt(again)).plan.good > before.good);
    expect(await second.end()).toBe(0);
  });

  it('killed at any moment it loses nothing that it had shown or answered', async () => {
    const port = await freePort();
    let shown = 0;
    for (let round = 0; round < 2; round += 1) {
      const program = start(...args(port));
      const at = await address(program);
      await poll(async () => (await viewAt(at)).sight.kind === 'live');
      const reached = await poll(async () => {
        const { good } = (await viewAt(at)).plan;
        return good > shown + 3 && good;
      });
      const note = {
        id: `note-${round}`,
        author: { kind: 'screen', screen: 'desk' },
        kind: 'note',
        words: 'heard',
      };
      const entered = await fetch(`${at}api/lines/line-3/entries`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(note),
      });
      const { position } = (await entered.json()) as { position: number };
      const closed = once(program.child, 'exit');
      program.child.kill('SIGKILL');
      await closed;
      const next = start(...args(port));
      const there = await address(next);
      expect((await viewAt(there)).plan.good).toBeGreaterThanOrEqual(reached);
      const row = (await (
        await fetch(`${there}api/lines/line-3/changes?from=${position - 1}&to=${position}`)
      ).json()) as { changes: { signal: string; value: string }[] };
      expect(row.changes[0]).toMatchObject({ signal: 'entry', value: expect.stringContaining(note.id) });
      shown = (await viewAt(there)).plan.good;
      expect(await next.end()).toBe(0);
    }
  });

  it('lets no second one into its data folder, and says which process has it', async () => {
    const first = start(...args());
    await address(first);
    const second = await refused(...args());
    expect(second.code).toBe(1);
    expect(second.said).toContain('is in use');
    expect(second.said).toContain(`process ${first.child.pid}`);
    expect(await first.end()).toBe(0);
  });

  it('comes up without its PLC, says so once, and ends on request', async () => {
    const file = lineFile(`opc.tcp://127.0.0.1:${await freePort()}`);
    const program = start('--line', file, '--data', join(folder, 'data'), '--port', '0');
    const at = await address(program);
    const [told] = await program.until(/"msg":"[^"]*plc[^"]*"/);
    expect(told).toMatch(/cannot be reached|not answer|not reached/i);
    const health = (await (await fetch(`${at}healthz`)).json()) as { status: string };
    expect(health.status).toBe('notHeard');
    expect((await fetch(at)).status).toBe(200);
    expect(await program.end()).toBe(0);
  });

  it('has never asked the PLC to write, to call, or to change anything', () => {
    expect(plc.requests('ReadRequest')).toBeGreaterThan(0);
    expect(plc.requests('PublishRequest')).toBeGreaterThan(0);
    for (const name of [
      'WriteRequest',
      'CallRequest',
      'HistoryUpdateRequest',
      'AddNodesRequest',
      'DeleteNodesRequest',
      'AddReferencesRequest',
      'DeleteReferencesRequest',
    ]) {
      expect(plc.requests(name), name).toBe(0);
    }
  });
});

/** The view once nothing moves any more: the same twice, a publish apart. */
async function settled(at: string): Promise<LineView> {
  let last = '';
  return poll(async () => {
    const view = await viewAt(at);
    const { end } = (await (await fetch(`${at}api/lines/line-3/changes?from=0&to=0`)).json()) as {
      end: number;
    };
    const now = `${end} ${view.plan.good}`;
    if (now === last && view.sight.kind !== 'never') return view;
    last = now;
    await new Promise((resolve) => setTimeout(resolve, 600));
    return undefined;
  });
}
