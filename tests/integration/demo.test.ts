import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { buildDashboard, dashboardIsOld } from '../../gateway/commands/dashboard.ts';
import type { LineView } from '../../model/view/view.ts';
import { type Program, poll, startProgram } from './process.ts';

const folder = mkdtempSync(join(tmpdir(), 'scoreline-demo-'));
const started: Program[] = [];

beforeAll(async () => {
  if (dashboardIsOld()) await buildDashboard();
});
afterAll(() => {
  for (const program of started) program.child.kill('SIGKILL');
  rmSync(folder, { recursive: true, force: true });
});

async function start(days = '0d'): Promise<{ program: Program; at: string }> {
  const args = ['--data', join(folder, 'data'), '--port', '0', '--history', days];
  const program = startProgram('gateway/commands/start.ts', args);
  started.push(program);
  const [, at] = await program.until(/Scoreline is at (http:\S+)/);
  return { program, at: at! };
}

/** The view once the line is heard live. */
function live(at: string): Promise<LineView> {
  return poll(async () => {
    const view = (await (await fetch(`${at}api/lines/line-3/view`)).json()) as LineView;
    return view.sight.kind === 'live' && view.sight.servers[0]?.up === true && view;
  });
}

it('the demo shows its shift at the first start, and goes on at the next as if it had never been off', async () => {
  const first = await start();
  const began = await live(first.at);
  const { shift } = began.plan;
  if (shift === undefined) throw new Error('The demo line has a shift at every moment');
  // in the first minutes of a shift there is no whole minute to be drawn yet
  const young = began.at - shift.from < 180_000;
  expect(young || began.trend.buckets.some(({ rate }) => rate !== undefined)).toBe(true);
  expect(await first.program.end()).toBe(0);
  const off = Date.now();
  const second = await start();
  const view = await live(second.at);
  const on = Date.now();
  // what passed between stop and start was played in; only the moments of connecting themselves were not heard
  const missed = (view.sight.unknown ?? 0) - (view.plan.shift?.from === shift.from ? began.sight.unknown : 0);
  expect(missed).toBeLessThan((on - off) / 2 + 1500);
  if (view.plan.shift?.from === shift.from) expect(view.plan.good).toBeGreaterThanOrEqual(began.plan.good);
  expect(second.program.said()).toMatch(/Tape: .*, [1-9][\d,]* changes/);
  expect(await second.program.end()).toBe(0);
});

it('a start that is asked for days before fills them in while the screens are there already', async () => {
  const { program, at } = await start('1d');
  await live(at);
  const { past } = await poll(async () => {
    const answer = (await (await fetch(`${at}api/lines/line-3/past`)).json()) as {
      past: { kind: string };
      shifts: readonly { from: number; to: number }[];
    };
    return answer.past.kind === 'whole' && answer.shifts.length >= 3 && { past: answer.past };
  });
  expect(past).toEqual({ kind: 'whole' });
  expect(program.said()).toMatch(/The days before are there: [\d,]{6,} changes/);
  const stops = (await (await fetch(`${at}api/lines/line-3/past/stops`)).json()) as { list: unknown[] };
  expect(stops.list.length).toBeGreaterThan(0);
  expect(await program.end()).toBe(0);
});

it('a simulator that dies ends the demo with words, and code 1', async () => {
  const { program, at } = await start();
  await live(at);
  const children = childrenOf(program.child.pid!);
  expect(children.length).toBeGreaterThan(0);
  const closed = new Promise<number | null>((resolve) => program.child.once('close', resolve));
  for (const child of children) process.kill(child, 'SIGKILL');
  expect(await closed).toBe(1);
  expect(program.said()).toMatch(/The simulated line ended by itself \(SIGKILL\)\.\n.+\n.+/);
});

/** Processes with this parent that run the simulator, as the system lists them: by itself on Linux, elsewhere by ps. */
function childrenOf(parent: number): number[] {
  const all = existsSync('/proc/self/stat') ? fromProc() : fromPs();
  return all
    .filter((row) => row.parent === parent && row.command.includes('simulator/main.ts'))
    .map(({ id }) => id);
}

interface Row {
  readonly id: number;
  readonly parent: number;
  readonly command: string;
}

function fromProc(): Row[] {
  return readdirSync('/proc').flatMap((name) => {
    if (!/^\d+$/.test(name)) return [];
    try {
      const stat = readFileSync(`/proc/${name}/stat`, 'utf8');
      const parent = Number(stat.slice(stat.lastIndexOf(')') + 2).split(' ')[1]);
      return [{ id: Number(name), parent, command: readFileSync(`/proc/${name}/cmdline`, 'utf8') }];
    } catch {
      return []; // it ended while the list was read
    }
  });
}

function fromPs(): Row[] {
  const rows = execFileSync('ps', ['-eo', 'pid=,ppid=,args='], { encoding: 'utf8' }).split('\n');
  return rows.flatMap((row) => {
    const [, id, parent, command = ''] = /^\s*(\d+)\s+(\d+)\s+(.*)$/.exec(row) ?? [];
    return id === undefined ? [] : [{ id: Number(id), parent: Number(parent), command }];
  });
}
