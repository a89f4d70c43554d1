import { describe, expect, it } from 'vitest';
import { doneAnswer, maintenanceAnswer } from '../../../gateway/api/maintenanceSchema.ts';
import { entriesAnswer } from '../../../gateway/api/pastEntries.ts';
import type { DoneRow } from '../../../model/past/donePast.ts';
import type { EntriesPast } from '../../../model/past/entriesPast.ts';
import type { MaintenancePast } from '../../../model/past/maintenancePast.ts';
import { at, changes, type Rows } from '../../model/smallLine.ts';
import { line, type Site, siteForTest } from './web.ts';

const past = `/api/lines/${line.id}/past`;
const desk = { kind: 'screen', screen: 'desk' };
const jam = at(30).toString(36);
const rows: Rows = [
  [30, 'state', 11],
  [30, 'reason', 51],
  [90, 'state', 6],
  [90, 'reason', 0],
  [91, 'good', 21],
];

/** A tuck jam that people put at the pick, a change because of it that was entered wrong, and a withdrawn test. */
async function site(): Promise<Site> {
  const made = await siteForTest({ second: 200 });
  await made.live.offer(changes(line, rows));
  const enter = async (id: string, body: object) =>
    expect((await made.enter({ id, author: desk, ...body })).status, id).toBe(201);
  const parts = [{ after: 0, station: 'pick', class: 'starved' }];
  await enter('cause', { kind: 'cause', stop: jam, parts, words: 'no board' });
  const expects = { measure: 'stops', direction: 'fewer' };
  const changed = {
    kind: 'changed',
    station: 'pick',
    changed: { of: 'lot', name: 'B7' },
    words: 'new board',
    expects,
  };
  await enter('changed', changed);
  await enter('right', {
    ...{ kind: 'correction', of: 'changed', was: 'changed', why: 'read wrong' },
    body: { ...changed, changed: { of: 'lot', name: 'B8' } },
  });
  await enter('tested', { kind: 'tested', device: 'panel', method: 'pressed', person: '41' });
  await enter('gone', { kind: 'correction', of: 'tested', was: 'tested', why: 'another line' });
  made.clock.second += 1;
  return made;
}

describe('what people said, over the interface', () => {
  it('[EN1] stands as it was said first, with what is said now, who said it, when and why', async () => {
    const made = await site();
    const answer = (await (await made.get(`${past}/entries`)).json()) as EntriesPast;
    expect(entriesAnswer.safeParse(answer).error).toBeUndefined();
    expect(answer.answers).toEqual([
      { id: 'material', name: 'board missing' },
      { id: 'cleaning', name: 'cleaning' },
    ]);
    expect(answer.list.map(({ id, correctable }) => [id, correctable])).toEqual([
      ['tested', true],
      ['changed', true],
      ['cause', true],
    ]);
    expect(answer.list[0]!.corrections).toMatchObject([
      { id: 'gone', body: null, why: 'another line', by: desk },
    ]);
    expect(answer.list[1]).toMatchObject({
      first: { changed: { name: 'B7' } },
      corrections: [{ body: { changed: { name: 'B8' } }, why: 'read wrong' }],
    });
    expect(answer.list[2]).toMatchObject({
      stopAt: answer.list[2]!.stopAt,
      first: { parts: [{ station: 'pick' }] },
    });
  });

  it('[EN1] a withdrawn test is no last test of its device', async () => {
    const made = await site();
    const safety = (await (await made.get(`${past}/safety`)).json()) as {
      devices: readonly { id: string; lastTest?: unknown }[];
    };
    expect(safety.devices.find(({ id }) => id === 'panel')).not.toHaveProperty('lastTest');
  });

  it('[HE2] Maintenance shows the last 30 days of each station, as known now', async () => {
    const made = await site();
    const answer = (await (await made.get(`${past}/maintenance`)).json()) as MaintenancePast;
    expect(maintenanceAnswer.safeParse(answer).error).toBeUndefined();
    expect(answer.days).toHaveLength(30);
    expect(answer.days.every(({ unseen }) => unseen)).toBe(true);
    const [first] = answer.stations;
    expect(first).toMatchObject({ station: { id: 'pick' }, stops: 1, stood: 60_000 });
    expect(first!.days.at(-1)).toEqual({ stops: 1, stood: 60_000 });
    expect(answer.stations.slice(1).map(({ stops }) => stops)).toEqual([0, 0]);
  });

  it('[HE1] what was done stands as it is known now, with whether it held', async () => {
    const made = await site();
    const answer = (await (await made.get(`${past}/done?station=pick`)).json()) as DoneRow[];
    expect(doneAnswer.safeParse(answer).error).toBeUndefined();
    expect(answer).toMatchObject([
      {
        kind: 'changed',
        changed: { name: 'B8' },
        corrected: true,
        held: { verdict: 'cannotTell', why: { kind: 'noneBefore', needed: 3 } },
      },
    ]);
    expect(await (await made.get(`${past}/done?station=fold`)).json()).toEqual([]);
  });
});
