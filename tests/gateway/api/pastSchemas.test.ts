import type { DiagnosisTold } from '../../../model/diagnosis/told.ts';
import type { SetPointOpened, SetPointsPast } from '../../../model/past/setPointsPast.ts';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { sameAs } from '../../../gateway/api/sameAs.ts';
import type { ChangeoversPast } from '../../../model/past/changeoversPast.ts';
import { ALIGNMENTS } from '../../../model/past/compared/aligned.ts';
import type { PastRun } from '../../../model/past/runsPast.ts';
import type { SafetyPast } from '../../../model/past/safetyPast.ts';
import type { StationsPast } from '../../../model/past/stationsPast.ts';
import type { StopsPast } from '../../../model/past/stopsPast.ts';
import { epochMs, HOUR, type Instant, type Millis } from '../../../model/units/units.ts';
import { monday } from '../../simulator/simulatedLine.ts';
import { openSimulatedSite, type SimulatedSite } from './simulatedSite.ts';

interface Described {
  readonly paths: Record<string, Record<string, Operation>>;
}
interface Operation {
  readonly parameters: readonly { readonly name: string; readonly required: boolean }[];
  readonly responses: Record<string, { readonly content: Record<string, { readonly schema: object }> }>;
}

/** More than a day, so that every shift, kind of changeover and kind of stop is in it. */
const HOURS = 30;
const hour = (n: number) => epochMs((monday + n * HOUR) as Instant);
/** Beginning with the line, before there was anything, in the middle, and empty. */
const spans = [
  `from=${hour(0)}`,
  `from=${hour(-30)}&to=${hour(9)}`,
  `from=${hour(16)}&to=${hour(24)}`,
  `from=${hour(20)}&to=${hour(20)}`,
];

let site: SimulatedSite;
let api: Described;
beforeAll(async () => {
  site = await openSimulatedSite(HOURS, { seed: 11, lively: 6 });
  api = (await site.described()) as Described;
});
afterAll(() => site?.close());

const author = { kind: 'screen', screen: 'desk' };

/** What the description says that is answered there. */
function schemaOf(path: string): z.ZodType {
  const operation = api.paths[`/api/lines/{line}/${path}`]?.get;
  const schema = operation?.responses['200']?.content['application/json']?.schema;
  if (!schema) throw new Error(`nothing is described for ${path}`);
  return z.fromJSONSchema(schema as Parameters<typeof z.fromJSONSchema>[0]);
}

/** The answer, once it was seen to be as described, and told apart wherever it holds more. */
async function described<Answer>(path: string, asked: string): Promise<Answer> {
  const response = await site.get(asked);
  expect(response.status, asked).toBe(200);
  const answer: unknown = await response.json();
  const schema = schemaOf(path);
  expect(schema.safeParse(answer).error?.issues ?? [], asked).toEqual([]);
  for (const [place, spoiled] of withMore(answer))
    expect(schema.safeParse(spoiled).success, `${asked} with more at ${place}`).toBe(false);
  return answer as Answer;
}

/** Copies of an answer with a key that nobody knows, one in each kind of place that it has. */
function withMore(answer: unknown): ReadonlyMap<string, unknown> {
  const spoiled = new Map<string, unknown>();
  const visit = (part: unknown, place: string, put: (part: unknown) => unknown) => {
    if (Array.isArray(part)) {
      if (part.length > 0)
        visit(part[0], `${place}[]`, (changed) => put([changed, ...(part as unknown[]).slice(1)]));
    } else if (typeof part === 'object' && part !== null) {
      spoiled.set(place, put({ ...part, nobodyKnows: {} }));
      for (const [key, value] of Object.entries(part))
        visit(value, `${place}.${key}`, (changed) => put({ ...part, [key]: changed }));
    }
  };
  visit(answer, '', (changed) => changed);
  return spoiled;
}

describe('what is answered of the past is what is described, and no key more', () => {
  it('stops, and what the PLC told around each of them', async () => {
    const kinds = new Set<string>();
    const links = new Set<string>();
    for (const span of spans) {
      const { list } = await described<StopsPast>('past/stops', `past/stops?${span}&most=1000`);
      for (const { kind, chain } of list) {
        kinds.add(kind);
        for (const link of chain) links.add(link.kind);
      }
      for (const { id } of list.slice(0, 12)) await described('past/around', `past/around?stop=${id}`);
    }
    expect([...kinds].sort()).toEqual(['blocked', 'machine', 'operator', 'safety', 'starved']);
    expect(links.size).toBeGreaterThanOrEqual(4);
  });

  it('stations, and each of them', async () => {
    for (const span of spans) {
      const { stations } = await described<StationsPast>('past/stations', `past/stations?${span}`);
      for (const { station } of stations)
        await described('past/stations/{station}', `past/stations/${station.id}?${span}`);
    }
  });

  it('stop devices and guards, with a test and an answer that a person recorded', async () => {
    const tested = { id: 't-1', author, kind: 'tested', method: 'opened', person: '31' };
    const device = site.live.line.guards[0]!.id;
    expect((await site.enter({ ...tested, device })).status).toBe(201);
    const roles = new Set<string>();
    for (const span of spans) {
      const safety = await described<SafetyPast>('past/safety', `past/safety?${span}&most=1000`);
      for (const { role } of safety.list) roles.add(role);
    }
    expect(roles.size).toBeGreaterThanOrEqual(2);
  });

  it('changeovers, and each of them opened', async () => {
    const kinds = new Set<string>();
    for (const span of spans) {
      const { list } = await described<ChangeoversPast>('past/changeovers', `past/changeovers?${span}`);
      for (const { kind, id } of list) {
        kinds.add(kind);
        await described('past/changeovers', `past/changeovers?${span}&at=${id}`);
      }
    }
    expect(kinds.size).toBeGreaterThanOrEqual(2);
  });

  it('runs, and two of them and two shifts one over the other', async () => {
    const runs = await described<readonly PastRun[]>('past/runs', 'past/runs');
    const stretches = [runs[0]!, runs[1]!, { from: hour(0), to: hour(8) }, { from: hour(8), to: hour(16) }];
    for (const align of ALIGNMENTS)
      for (const [here, there] of [stretches.slice(0, 2), stretches.slice(2)] as const)
        await described(
          'past/compared',
          `past/compared?from=${here!.from}&to=${here!.to}&otherFrom=${there!.from}&otherTo=${there!.to}&align=${align}`,
        );
  });

  it('the set-point book of every size, and each of its adjustments opened', async () => {
    let told = 0;
    for (const size of ['sachet-20', 'sachet-48', 'sampler-12']) {
      const { rows } = await described<SetPointsPast>('past/setpoints', `past/setpoints?size=${size}`);
      expect(rows).toHaveLength(12);
      for (const { number } of rows) {
        const { runs } = await described<SetPointOpened>(
          'past/setpoints/{adjustment}',
          `past/setpoints/${number}?size=${size}`,
        );
        told += runs.length;
      }
    }
    expect(told).toBeGreaterThan(12);
    expect((await site.get('past/setpoints?size=none')).status).toBe(404);
    expect((await site.get('past/setpoints/99')).status).toBe(404);
  });

  it('what may explain the trouble of each station', async () => {
    const kinds = new Set<string>();
    for (const station of ['pick', 'bottom-minor', 'bottom-major', 'top-major']) {
      const told = await described<DiagnosisTold>(
        'past/stations/{station}/diagnosis',
        `past/stations/${station}/diagnosis`,
      );
      kinds.add(told.kind);
      if (told.kind !== 'told') continue;
      const { causes, unlikely, dontKnow } = told.diagnosis;
      const sum = causes.reduce((all, { chance }) => all + chance, unlikely + dontKnow.chance);
      expect(sum).toBeCloseTo(1, 9);
    }
    // too young a line for more
    expect([...kinds]).toEqual(['tooFew']);
    expect((await site.get('past/stations/none/diagnosis')).status).toBe(404);
  });

  it('what there is, what signals mean, and how they read', async () => {
    await described('past', 'past');
    const meanings = await described<readonly unknown[]>('past/signals', 'past/signals');
    const rows = await described<readonly unknown[]>('signals', 'signals');
    expect(rows).toHaveLength(meanings.length);
  });

  it('every parameter that is described is understood, and a value it may not have is refused', async () => {
    const two = { from: hour(0), to: hour(8), otherFrom: hour(8), otherTo: hour(16) };
    const needed: Readonly<Record<string, string>> = {
      stop: (await described<StopsPast>('past/stops', 'past/stops')).list[0]!.id,
      ...Object.fromEntries(Object.entries(two).map(([name, at]) => [name, String(at)])),
    };
    const past = Object.entries(api.paths).filter(
      ([path]) => path.includes('/past') && !path.endsWith('cancel'),
    );
    expect(past.length).toBeGreaterThanOrEqual(9);
    for (const [path, { get }] of past) {
      const names = get!.parameters.map(({ name }) => name);
      const required = get!.parameters.filter((one) => one.required && needed[one.name] !== undefined);
      const at = path
        .replace('/api/lines/{line}/', '')
        .replace('{station}', 'loading')
        .replace('{adjustment}', '5.2');
      const query = new URLSearchParams(required.map(({ name }) => [name, needed[name]!]));
      expect((await site.get(`${at}?${query}`)).status, at).toBe(200);
      for (const name of names.filter((one) => one === 'from' || one === 'most' || one === 'kind')) {
        query.set(name, 'no such');
        expect((await site.get(`${at}?${query}`)).status, `${at} ${name}`).toBe(400);
      }
    }
  });
});

it('a schema that is not the model’s does not compile', () => {
  interface Told {
    readonly stood: Millis;
    readonly name: string | undefined;
  }
  const whole = { stood: z.number(), name: z.string().optional() };
  expect(sameAs<Told>()(z.strictObject(whole)).safeParse({ stood: 1 }).success).toBe(true);
  // @ts-expect-error a key is missing
  sameAs<Told>()(z.strictObject({ stood: z.number() }));
  // @ts-expect-error a key too many
  sameAs<Told>()(z.strictObject({ ...whole, more: z.string().optional() }));
  // @ts-expect-error never unknown, where the model may not know
  sameAs<Told>()(z.strictObject({ ...whole, name: z.string() }));
  // @ts-expect-error of another kind
  sameAs<Told>()(z.strictObject({ ...whole, stood: z.string() }));
});
