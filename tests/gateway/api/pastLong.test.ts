import { numbersBy } from '../../../gateway/api/pastChangeovers.ts';
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createApi } from '../../../gateway/api/api.ts';
import { knownHost } from '../../../gateway/api/hostNames.ts';
import { type LiveLine, startLiveLine } from '../../../gateway/live/liveLine.ts';
import { openRecords, type Records } from '../../../gateway/records/records.ts';
import { openSqliteTape } from '../../../gateway/tape/sqliteTape.ts';
import { changeoversPast } from '../../../model/past/changeoversPast.ts';
import { crewChanges } from '../../../model/past/crewAt.ts';
import { safetyPast } from '../../../model/past/safetyPast.ts';
import type { RecordBodies, RecordKind, RecordStep } from '../../../model/records/records.ts';
import type { Change } from '../../../model/signals/signals.ts';
import { epochMs, HOUR, type Instant, MINUTE, seconds } from '../../../model/units/units.ts';
import { daysOfRecords } from '../../bench/pastRecords.ts';
import { boundLine, monday } from '../../simulator/simulatedLine.ts';

const DAYS = 16;
const { line } = boundLine();
const begun = (monday - DAYS * 24 * HOUR) as Instant;
const folder = mkdtempSync(join(tmpdir(), 'scoreline-test-long-'));
const failed: unknown[] = [];
let records: Records;
let live: LiveLine;
let address = '';
let end: () => Promise<void>;

const entry = (at: Instant, id: string, body: object): RecordStep => ({
  kind: 'put',
  record: {
    kind: 'entry',
    at,
    until: at,
    id,
    body: { at, entry: { id, at: epochMs(at), author: { kind: 'file', file: 'orders' }, ...body } as never },
  },
});
/** Changeovers of each pair, one after another, that were replaced before they came to their rate. */
function neverAtRate(): RecordStep[] {
  const pairs = new Map(all('changeover').map((one) => [`${one.kind} ${one.from} ${one.to}`, one]));
  return [...pairs.values()].flatMap((one, pair) =>
    Array.from({ length: 45 }, (_, n): RecordStep => {
      const begin = (ago(330) + (pair * 45 + n) * MINUTE) as Instant;
      const end = (begin + MINUTE) as Instant;
      const body = {
        ...one,
        begin,
        end,
        trialBegan: null,
        productionBack: null,
        firstGood: null,
        atRate: null,
      };
      return { kind: 'put', record: { kind: 'changeover', at: begin, until: end, id: 'replaced', body } };
    }),
  );
}

/** A guard that reads open for some seconds while the line runs, up to a stop long before most of what is asked for. */
function readOpen(): Change[] {
  const { begin } = all('stop').find((stop) => stop.begin > ago(80))!;
  const signal = (role: string) => line.signals.findIndex((one) => one.role === role);
  const guard = line.signals.findIndex(({ role, of }) => role === 'guard' && of === line.guards[0]!.id);
  const rows: [number, number, Change['value']][] = [
    [0, signal('link'), true],
    [0, signal('state'), 6],
    [0, signal('mode'), 1],
    [0, guard, false],
    [5, guard, true],
    [15, guard, false],
  ];
  const told = (place: number, at: number, value: Change['value']): Change => {
    const moment = at as Instant;
    return { signal: place, at: moment, received: moment, status: 0, value };
  };
  return [
    ...rows.map(([after, place, value]) => told(place, begin - seconds(17) + seconds(after), value)),
    // and the line is heard until now
    told(signal('state'), monday - seconds(1), 6),
    told(signal('mode'), monday, 1),
  ];
}

const ago = (hours: number) => (monday - hours * HOUR) as Instant;

beforeAll(async () => {
  const tape = await openSqliteTape(folder, new Map([[line.id, line.signals]]));
  records = openRecords(folder);
  const now = () => epochMs(monday);
  live = await startLiveLine({
    line,
    tape,
    records,
    now,
    speed: 1,
    outside: () => ({ servers: [] }),
    told: () => {},
  });
  const edition = records.begin(line.id, live.version);
  for (const steps of daysOfRecords(DAYS, monday)) records.write(edition, steps, 0);
  records.serve(line.id, edition);
  await live.offer(readOpen());
  expect(live.fold().state.open).toHaveLength(1);
  records.write(
    edition,
    [
      entry(ago(200), 't1', {
        kind: 'tested',
        device: line.devices[0]!.id,
        person: '7',
        method: 'pressed at standstill',
      }),
      entry(ago(300), 't2', { kind: 'tested', device: line.guards[1]!.id, person: '7', method: 'opened' }),
      entry(ago(310), 'c1', { kind: 'crew', people: 1 }),
      entry(ago(250), 'o1', { kind: 'order', number: '4400', crew: 3 }),
      {
        kind: 'put',
        record: {
          kind: 'order',
          at: ago(249),
          until: null,
          id: '',
          body: { at: ago(249), order: '4400', crew: 3 },
        },
      },
      // a list of orders to come, each with a crew of its own
      ...Array.from({ length: 12 }, (_, n) =>
        entry(ago(240 - n), `o${n + 2}`, { kind: 'order', number: `${4401 + n}`, crew: 4 }),
      ),
      entry(ago(60), 'c2', { kind: 'crew', people: 2 }),
      ...neverAtRate(),
    ],
    0,
  );
  const server = createServer(
    createApi({
      lines: new Map([[line.id, live]]),
      tape,
      past: { records, status: () => ({ kind: 'whole' }), cancel: () => {} },
      now,
      signals: () => [],
      servers: () => [],
      known: knownHost([]),
      dashboard: folder,
      log: { error: (what: unknown) => void failed.push(what) },
    }),
  );
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/api/lines/${line.id}/past/`;
  end = async () => {
    await new Promise<void>((resolve) => void server.close(() => resolve()));
    server.closeAllConnections();
    await live.stop();
    records.close();
    await tape.close();
    rmSync(folder, { recursive: true, force: true });
  };
});

afterAll(() => end?.());

async function answer(path: string, span: { from: Instant; to: Instant }): Promise<unknown> {
  const response = await fetch(`${address}${path}?from=${epochMs(span.from)}&to=${epochMs(span.to)}`);
  expect([response.status, failed]).toEqual([200, []]);
  return response.json();
}

/** Every record there is, from the beginning on. */
const all = <Kind extends RecordKind>(kind: Kind): RecordBodies[Kind][] =>
  records.ask({ line: line.id, kind, from: begun, to: (monday + 1) as Instant });
const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

const spans = [0, 3, 30, 100, 240].flatMap((back) =>
  [1, 8, 50].map((hours) => ({ from: ago(back + hours), to: ago(back) })),
);

describe('answers that look up only what they need are those of all that is stored', () => {
  it.each(spans.map((span) => [(monday - span.from) / HOUR, (monday - span.to) / HOUR, span] as const))(
    'safety stops of %d to %d hours ago',
    async (_from, _to, span) => {
      const { index } = live.fold();
      const said = (await answer('safety', span)) as { devices: { standstill: unknown }[]; list: object[] };
      const whole = plain(
        safetyPast({
          index,
          ...span,
          since: records.first(line.id)!,
          earlier: [],
          begun: records.first(line.id)!,
          stops: all('stop').filter(({ begin }) => begin < span.to),
          presses: all('press').filter(({ pressed }) => pressed < span.to),
          guards: all('guard').filter(({ at }) => at < span.to),
          gaps: all('gap').filter(({ from }) => from < span.to),
          entries: all('entry'),
          findings: [
            ...all('finding').filter(({ at, to }) => at < span.to && (to === null || to > span.from)),
            ...live.fold().state.open.filter(({ at }) => at < span.to),
          ],
          open: new Set(live.fold().state.open.map(({ id }) => id)),
          olderFindings: 0,
          standstills: new Map(),
          device: undefined,
          most: 40,
        }),
      ) as typeof said;
      const without = ({ devices, list, ...rest }: typeof said) => ({
        ...rest,
        devices: devices.map((device) => ({ ...device, standstill: undefined })),
        list: list.map((use) => ({ ...use, candidates: undefined })),
      });
      expect(without(said)).toEqual(without(whole));
      // and once more, from what was remembered
      expect(await answer('safety', span)).toEqual(said);
    },
  );

  it.each(spans.map((span) => [(monday - span.from) / HOUR, (monday - span.to) / HOUR, span] as const))(
    'changeovers of %d to %d hours ago',
    async (_from, _to, span) => {
      const { index } = live.fold();
      const near = (from: Instant, to: Instant) => ({
        minutes: records.ask({ line: line.id, kind: 'minute', from, to }),
        stops: records.ask({ line: line.id, kind: 'stop', from, to }),
        gaps: records.ask({ line: line.id, kind: 'gap', from, to }),
      });
      const whole = changeoversPast({
        index,
        ...span,
        now: live.now(),
        changeovers: all('changeover'),
        alike: () => all('changeover'),
        near,
        gaps: all('gap'),
        begun: records.first(line.id)!,
        remember: (_key, _to, make) => make(),
        crew: () => crewChanges(index, all('entry'), all('order')),
        numbers: numbersBy(records, live),
        filter: {},
        most: 20,
      });
      expect(await answer('changeovers', span)).toEqual(plain(whole));
      // and once more, from what was remembered
      expect(await answer('changeovers', span)).toEqual(plain(whole));
    },
  );

  it('and what late data or another making changed is looked up again', async () => {
    const span = { from: ago(48), to: ago(0) };
    const before = await answer('changeovers', span);
    const edition = records.edition(line.id)!;
    const stop = all('stop').findLast(({ begin }) => begin < ago(2))!;
    const changeover = all('changeover').at(-1)!;
    records.write(
      edition,
      [
        {
          kind: 'put',
          record: {
            kind: 'stop',
            at: (changeover.productionBack! + 1) as Instant,
            until: (changeover.productionBack! + HOUR / 60) as Instant,
            id: 'late',
            body: {
              ...stop,
              id: 'late',
              class: 'stopped',
              begin: (changeover.productionBack! + 1) as Instant,
              end: (changeover.productionBack! + HOUR / 60) as Instant,
            },
          },
        },
      ],
      0,
    );
    expect(await answer('changeovers', span)).not.toEqual(before);
    const empty = records.begin(line.id, 'another');
    records.serve(line.id, empty);
    expect(await answer('changeovers', span)).toMatchObject({ changeovers: 0, list: [] });
    expect(await answer('safety', span)).toMatchObject({ listed: 0 });
  });
});
