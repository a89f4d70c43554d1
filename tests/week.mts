// makes records of a week of the demo line, on an SQLite tape, by Making; prints size and times
import { mkdtempSync, statSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
const root = process.argv[2]!;
const { Making } = await import(`${root}/gateway/records/making.ts`);
const { openRecords } = await import(`${root}/gateway/records/records.ts`);
const { openSqliteTape } = await import(`${root}/gateway/tape/sqliteTape.ts`);
const { startLiveLine } = await import(`${root}/gateway/live/liveLine.ts`);
const { boundLine, changesOf, monday } = await import(`${root}/tests/simulator/simulatedLine.ts`);
const { runUntil, startMachine, takeEntries } = await import(`${root}/simulator/machine/machine.ts`);
const { HOUR, epochMs } = await import(`${root}/model/units/units.ts`);
const DAYS = Number(process.argv[3] ?? 7);
const folder = mkdtempSync(join(tmpdir(), 'scoreline-week-'));
const bound = boundLine();
const { line } = bound;
const tape = await openSqliteTape(folder, new Map([[line.id, line.signals]]));
async function* chunks() {
  const machine = startMachine({ seed: 3, start: monday });
  for (let h = 1; h <= DAYS * 24; h += 1) { yield changesOf(bound, runUntil(machine, monday + h * HOUR)); takeEntries(machine); }
}
await tape.importSealed(line.id, chunks());
const records = openRecords(folder);
let now = epochMs(monday + DAYS * 24 * HOUR);
const live = await startLiveLine({ line, tape, records, now: () => now, speed: 1, outside: () => ({ servers: [] }), told: () => {} });
const began = performance.now(); const cpu = process.cpuUsage();
const making = new Making({ tape, records, line, version: live.version, stopping: new AbortController().signal });
await making.goOn(tape.end(line.id));
const took = performance.now() - began; const used = process.cpuUsage(cpu);
await live.takeOver(making, false);
console.log(JSON.stringify({ days: DAYS, end: tape.end(line.id), makingMs: Math.round(took), cpuMs: Math.round((used.user + used.system) / 1000) }));
if (process.argv[4] === 'ask') {
  const { createServer } = await import('node:http');
  const { createApi } = await import(`${root}/gateway/api/api.ts`);
  const { knownHost } = await import(`${root}/gateway/api/hostNames.ts`);
  const server = createServer(createApi({ lines: new Map([[line.id, live]]), tape, past: { records, status: () => ({ kind: 'whole' }), cancel: () => {} }, now: () => now, signals: () => [], servers: () => [], known: knownHost([]), dashboard: folder, log: console } as never));
  await new Promise<void>((r) => server.listen(0, '127.0.0.1', r));
  const base = `http://127.0.0.1:${(server.address() as { port: number }).port}/api/lines/${line.id}/past`;
  const time = async (path: string) => { const b = performance.now(); const r = await fetch(base + path); await r.text(); if (!r.ok) throw new Error(path + r.status); return Math.round((performance.now() - b) * 10) / 10; };
  const paths = ['', '/stops', '/stations', '/safety', '/changeovers', '/figures', '/report?kind=shift', '/maintenance', '/course'];
  await tape; 
  for (const p of paths) await time(p);
  const out: Record<string, unknown> = {};
  for (const share of [0.9, 0.3, 0.6]) {
    const position = Math.floor(tape.end(line.id) * share) + 12345;
    const q = (p: string) => `${p}${p.includes('?') ? '&' : '?'}asOf=${position}`;
    const fold = await time(q('/signals'));
    const first: Record<string, number> = {}, second: Record<string, number> = {}, nowMs: Record<string, number> = {};
    for (const p of paths) { first[p] = await time(q(p)); second[p] = await time(q(p)); await time(p); nowMs[p] = await time(p); }
    const next = await time(q('/signals').replace(String(position), String(position + 40)));
    const nextStops = await time(q('/stops').replace(String(position), String(position + 40)));
    out[share] = { fold, first, second, nowMs, next, nextStops };
  }
  console.log(JSON.stringify(out, null, 1));
  server.close(); server.closeAllConnections();
}
await live.stop(); records.close(); await tape.close();
console.log('records.sqlite', statSync(join(folder, 'records.sqlite')).size, 'tape', statSync(join(folder, 'tape.sqlite')).size);
if (process.argv[5] === 'keep') console.log(folder); else rmSync(folder, { recursive: true });
