import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { epochMs } from '../../../model/units/units.ts';
import { stops } from '../../model/notices/noticeRows.ts';
import { at, changes } from '../../model/smallLine.ts';
import { poll } from '../../integration/process.ts';
import { line, openSite, type Site } from './web.ts';

interface Described {
  readonly paths: Record<string, Record<string, Operation>>;
}
interface Operation {
  readonly responses: Record<string, { readonly content: Record<string, { readonly schema: object }> }>;
  readonly parameters?: readonly { readonly name: string; readonly in: string; readonly required: boolean }[];
  readonly requestBody?: { readonly content: Record<string, { readonly schema: object }> };
}

let site: Site;
let api: Described;
/** An export that is done. */
let exported: string;
/** Some addresses answer an admin only. */
let admin: { readonly cookie: string };
beforeAll(async () => {
  site = await openSite({ second: 60, exports: true });
  await site.live.offer(
    changes(line, [
      [30, 'state', 11],
      [30, 'reason', 51],
      [50, 'state', 6],
      [59, 'heartbeat', 1],
    ]),
  );
  const { key, level, facts, look } = stops('fold');
  await site.live.enter({
    id: 'raised',
    at: epochMs(at(59)),
    author: { kind: 'itself' },
    ...{
      kind: 'noticeRaised',
      notice: 'n1',
      key,
      level,
      facts,
      look,
      since: epochMs(at(30)),
      station: 'fold',
    },
  });
  const first = await fetch(`${site.address}/api/session/admin`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ code: site.people.firstCode, number: '1', secret: 'correct horse 9' }),
  });
  admin = { cookie: first.headers.get('set-cookie')!.split(';')[0]! };
  exported = await exportedFile();
  api = (await (await site.get('/api/openapi.json')).json()) as Described;
});
afterAll(() => site.close());

async function exportedFile(): Promise<string> {
  const path = `/api/lines/${line.id}/exports`;
  const body = { from: epochMs(at(0)), to: epochMs(at(60)), tables: ['stops'], format: 'csv' };
  const headers = { 'content-type': 'application/json' };
  const sent = await fetch(`${site.address}${path}`, { method: 'POST', headers, body: JSON.stringify(body) });
  const { id } = (await sent.json()) as { readonly id: string };
  await poll(async () => {
    const { state } = (await (await site.get(`${path}/${id}`)).json()) as { readonly state: string };
    return state === 'done';
  });
  return id;
}

/** What the description says an answer is, as something that can check one. */
function schemaOf(operation: Operation | undefined, status: string): z.ZodType {
  const schema = operation?.responses[status]?.content['application/json']?.schema;
  if (!schema) throw new Error(`nothing is described for ${status}`);
  return z.fromJSONSchema(schema as Parameters<typeof z.fromJSONSchema>[0]);
}

/** The address with what it needs to be answered. */
async function askedAt(path: string): Promise<string> {
  const filled = path
    .replace('{line}', line.id)
    .replace('{station}', 'fold')
    .replace('{notice}', 'n1')
    .replace('{export}', exported)
    .replace('{adjustment}', '2.2')
    .replace('{position}', '0');
  const needed = (api.paths[path]!.get!.parameters ?? []).filter((one) => one.in === 'query' && one.required);
  if (needed.length === 0) return filled;
  const names = needed.map(({ name }) => name);
  if (names.includes('otherFrom')) {
    const [begin, middle, end] = [0, 30, 60].map((second) => epochMs(at(second)));
    return `${filled}?from=${begin}&to=${middle}&otherFrom=${middle}&otherTo=${end}`;
  }
  // moments of a stretch, which serve as positions too
  if (names.includes('from')) return `${filled}?from=0&to=${epochMs(at(60))}`;
  expect(names).toEqual(['stop']);
  const { list } = (await (await site.get(`/api/lines/${line.id}/past/stops`)).json()) as {
    readonly list: readonly { readonly id: string }[];
  };
  return `${filled}?stop=${list[0]!.id}`;
}

describe('/api/openapi.json', () => {
  it('describes every address, and every answer is as described', async () => {
    const paths = Object.keys(api.paths).filter((path) => api.paths[path]!.get);
    expect(paths.length).toBeGreaterThanOrEqual(17);
    for (const path of paths) {
      const response = await site.get(await askedAt(path), admin);
      // nothing of this tape is sealed yet, and only for what is there can be a stand-in
      const status = path.endsWith('/stand-in') ? '404' : '200';
      expect(String(response.status), path).toBe(status);
      if (path.endsWith('/pieces/{position}') || path.endsWith('/tape/bytes')) {
        expect(response.headers.get('content-type'), path).toBe('application/octet-stream');
        continue;
      }
      if (path.endsWith('.csv')) {
        expect(response.headers.get('content-type'), path).toMatch(/^text\/csv/);
        expect(await response.text(), path).toMatch(/^(what|figure|part),/);
        continue;
      }
      if (path.endsWith('/file')) {
        expect(response.headers.get('content-type'), path).toBe('application/zip');
        continue;
      }
      const read = schemaOf(api.paths[path]!.get, status === '200' ? '200' : '4XX').safeParse(
        await response.json(),
      );
      expect(read.error?.issues ?? [], path).toEqual([]);
    }
  });

  it('describes what is refused: an answer that is not as described is told apart', async () => {
    const wrong = await site.get('/api/lines/other/view');
    const described = schemaOf(api.paths['/api/lines/{line}/view']!.get, '4XX');
    const answer: unknown = await wrong.json();
    expect(described.safeParse(answer).success).toBe(true);
    expect(described.safeParse({ ok: false }).success).toBe(false);
  });

  it('names a parameter for every part of a path in braces', () => {
    for (const [path, operations] of Object.entries(api.paths)) {
      for (const operation of Object.values(operations)) {
        const names = (operation.parameters ?? []).map((parameter) => parameter.name);
        for (const [, name] of path.matchAll(/\{(\w+)\}/g)) expect(names, path).toContain(name);
      }
    }
  });

  it('takes an entry made by its own description', async () => {
    const post = api.paths['/api/lines/{line}/entries']!.post!;
    const schema = post.requestBody!.content['application/json']!.schema;
    const entry = {
      id: 'by-1',
      author: { kind: 'screen', screen: 'desk' },
      kind: 'note',
      words: 'guide rattles',
    };
    const made = z.fromJSONSchema(schema as Parameters<typeof z.fromJSONSchema>[0]);
    expect(made.safeParse(entry).success).toBe(true);
    const response = await site.enter(entry);
    expect(response.status).toBe(201);
    expect(schemaOf(post, '201').safeParse(await response.json()).success).toBe(true);
  });

  it('[AS1] tells of every question about the past that it can be asked as of a position', () => {
    const past = Object.entries(api.paths).filter(([path]) => path.startsWith('/api/lines/{line}/past'));
    const asked = past.flatMap(([path, { get }]) => (get ? [{ path, get }] : []));
    expect(asked.length).toBeGreaterThan(20);
    for (const { path, get } of asked) {
      const named = get.parameters?.filter((one) => one.in === 'query').map(({ name }) => name);
      expect(named, path).toEqual(expect.arrayContaining(['asOf', 'shownAt']));
    }
  });
});
