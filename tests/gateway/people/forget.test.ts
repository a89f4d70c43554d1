import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { startForgetting } from '../../../gateway/people/forgetting.ts';
import { openPeople } from '../../../gateway/people/people.ts';
import { SETTINGS } from '../../../gateway/people/settings.ts';
import { CHEAP } from '../api/web.ts';

const DAY = 86_400_000;

async function plant() {
  const data = mkdtempSync(join(tmpdir(), 'scoreline-forget-'));
  const clock = { ms: 1_000_000 };
  const people = openPeople(data, { now: () => clock.ms, cost: CHEAP });
  onTestFinished(() => {
    people.close();
    rmSync(data, { recursive: true });
  });
  const { administration } = people;
  for (const [number, name] of [
    ['17', 'A. Example'],
    ['18', 'B. Sample'],
  ] as const)
    await administration.add({ number, roles: ['operator'], name });
  people.push.add('17', { endpoint: 'https://push.example/1', p256dh: 'k', auth: 'a' });
  const holding = (text: string) =>
    readdirSync(data).filter((file) => readFileSync(join(data, file)).includes(text));
  return { people, administration, clock, holding };
}

describe('what is kept of people', () => {
  it('[OI9] goes 90 days after their access ended, from every file: the number stays, and others lose nothing', async () => {
    const { people, administration, clock, holding } = await plant();
    administration.change('17', { disabled: true });
    clock.ms += 90 * DAY - 1;
    expect(people.forgetEnded()).toEqual([]);
    expect(administration.name('17')).toBe('A. Example');
    clock.ms += 1;
    const told: unknown[] = [];
    const log = { info: (text: unknown) => void told.push(text), error: () => {} } as never;
    startForgetting(people, log)();
    expect(told).toEqual([expect.stringMatching(/number 17 are erased/)]);
    expect(holding('A. Example')).toEqual([]);
    expect(holding('B. Sample')).toEqual(['people.sqlite']);
    expect(administration.all()).toMatchObject([
      { number: '17', name: null, secrets: [], sessions: 0, roles: ['operator'] },
      { number: '18', name: 'B. Sample', secrets: ['code'] },
    ]);
    expect([...people.shutOff()]).toEqual(['17']);
    expect(people.forgetEnded()).toEqual([]);
  });

  it('[OI9] stays where their access was given back, or an admin has set that it does; or goes sooner', async () => {
    const { people, administration, clock } = await plant();
    for (const number of ['17', '18']) administration.change(number, { disabled: true });
    administration.set({ ...SETTINGS, namesKeptDays: 0 });
    clock.ms += 3650 * DAY;
    expect(people.forgetEnded()).toEqual([]);
    administration.change('17', { disabled: false });
    administration.set({ ...SETTINGS, namesKeptDays: 7 });
    expect(people.forgetEnded()).toEqual(['18']);
    expect(administration.name('17')).toBe('A. Example');
    expect(administration.name('18')).toBeUndefined();
    // a clock that is put back makes nobody older
    administration.change('17', { disabled: true });
    clock.ms -= 30 * DAY;
    expect(people.forgetEnded()).toEqual([]);
  });
});
