import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoLineFile } from '../../gateway/commands/demo.ts';
import { buildDashboard, dashboardIsOld } from '../../gateway/commands/dashboard.ts';
import { type Program, startProgram } from './process.ts';

const PASSWORD = 'correct horse 9';
let folder: string;
let gateway: Program | undefined;

beforeAll(async () => {
  if (dashboardIsOld()) await buildDashboard();
  folder = mkdtempSync(join(tmpdir(), 'scoreline-people-'));
  const text = readFileSync(demoLineFile, 'utf8');
  writeFileSync(
    join(folder, 'line.yaml'),
    text.replace(/endpoint: \S+/, 'endpoint: opc.tcp://127.0.0.1:1').replace(/^orders:\n.*\n/m, ''),
  );
});
afterAll(() => {
  gateway?.child.kill('SIGKILL');
  rmSync(folder, { recursive: true, force: true });
});

/** Starts the whole gateway on a line whose PLC is not there; answers how to ask it. */
async function start(...more: string[]) {
  const data = join(folder, 'data');
  const line = join(folder, 'line.yaml');
  gateway = startProgram('gateway/commands/start.ts', [
    '--line',
    line,
    '--data',
    data,
    '--port',
    '0',
    ...more,
  ]);
  const [, address] = await gateway.until(/Scoreline is at (http:\S+)\//);
  return async (method: string, path: string, body?: unknown, cookie = '') => {
    const response = await fetch(`${address}${path}`, {
      method,
      headers: { 'content-type': 'application/json', cookie },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    return {
      status: response.status,
      body: (await response.json()) as Record<string, unknown>,
      cookie: response.headers.get('set-cookie')?.split(';')[0] ?? '',
    };
  };
}

async function kill(): Promise<void> {
  const { child } = gateway!;
  const ended = new Promise((resolve) => child.once('exit', resolve));
  child.kill('SIGKILL');
  await ended;
}

/** Files anywhere in the data folder in which these bytes stand, in UTF-8 or UTF-16. */
function filesWith(text: string): string[] {
  const data = join(folder, 'data');
  return (readdirSync(data, { recursive: true }) as string[]).filter((file) => {
    if (!statSync(join(data, file)).isFile()) return false;
    const bytes = readFileSync(join(data, file));
    return bytes.includes(text) || bytes.includes(Buffer.from(text, 'utf16le'));
  });
}

describe('people, from the first start on', () => {
  it('a printed code makes an admin; sessions and entries by number outlast a kill; an erased name is in no file', async () => {
    const ask = await start();
    const [, code] = await gateway!.until(/One-time admin code, good for 24 h: (\S+)/);
    const first = await ask('POST', '/api/session/admin', { code, number: '1', secret: PASSWORD });
    expect(first.status).toBe(201);
    const given = await ask(
      'POST',
      '/api/people',
      { number: '17', roles: ['operator'], name: 'Erasable Example' },
      first.cookie,
    );
    const provisional = await ask('POST', '/api/session', { number: '17', secret: given.body.code });
    const own = await ask(
      'PUT',
      '/api/session/secret',
      { secret: given.body.code, next: '480216' },
      provisional.cookie,
    );
    const note = {
      id: 'n-1',
      author: { kind: 'screen', screen: 'desk' },
      kind: 'note',
      words: 'guide rattles',
    };
    expect((await ask('POST', '/api/lines/line-3/entries', note, own.cookie)).status).toBe(201);
    expect(filesWith('Erasable Example')).toEqual(['people.sqlite']);
    expect((await ask('DELETE', '/api/people/17/name', undefined, first.cookie)).status).toBe(200);
    expect(filesWith('Erasable')).toEqual([]);
    for (const secret of [code!, code!.replaceAll('-', ''), PASSWORD, String(given.body.code), '480216'])
      expect(filesWith(secret), secret).toEqual([]);
    await kill();
    expect(filesWith('Erasable')).toEqual([]);

    const again = await start();
    expect(gateway!.said()).not.toContain('admin code');
    const me = await again('GET', '/api/session', undefined, own.cookie);
    expect(me.body.person).toMatchObject({ number: '17', name: null, roles: ['operator'] });
    const { body } = await again('GET', '/api/lines/line-3/changes');
    expect(JSON.stringify(body)).toContain('\\"author\\":{\\"kind\\":\\"person\\",\\"number\\":\\"17\\"}');
    expect(await gateway!.end()).toBe(0);

    const third = await start('--new-admin-code');
    const [, other] = await gateway!.until(/One-time admin code, good for 24 h: (\S+)/);
    const lost = await third('POST', '/api/session/admin', {
      code: other,
      number: '1',
      secret: 'lost the other',
    });
    expect(lost.status).toBe(201);
    expect((await third('GET', '/api/people', undefined, lost.cookie)).status).toBe(200);
    expect(await gateway!.end()).toBe(0);
  });
});
