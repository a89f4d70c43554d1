import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { views } from '../dashboard/views/views.ts';
import { outbox, overview, settings, takenBack, triedWith, ways } from './noticeSettingsAnswers.ts';
import { openStage, type Stage } from './stage.ts';

const chosen = {
  settings,
  at: Date.UTC(2026, 1, 9, 8, 0),
  by: { kind: 'person', number: '4711' },
  why: 'night shift stopped reading them',
};

let stage: Stage;
let inUse: object = chosen;
const again: string[] = [];
/** Drafts that were sent to be tried. */
const drafts: unknown[] = [];

beforeAll(async () => {
  stage = await openStage(views.quiet, (path, query, sent) => {
    if (path.endsWith('/notices/settings')) return inUse;
    if (path.endsWith('/notices/tried')) {
      if (sent !== undefined) drafts.push(JSON.parse(sent));
      return sent === undefined ? triedWith(5) : triedWith(5, 77);
    }
    if (path.endsWith('/past')) return overview;
    if (path === '/api/notices/ways') return ways;
    if (path === '/api/notices/outbox') return query.get('state') === 'withdrawn' ? takenBack : outbox;
    if (path.endsWith('/trial')) return { ok: true, arrived: true, said: 'The receiver has taken it.' };
    if (!path.endsWith('/again')) return undefined;
    again.push(path);
    return { ok: true };
  });
});
afterAll(async () => stage?.end());
afterEach(() => {
  inUse = chosen;
});

async function opened(width: number, height: number): Promise<Page> {
  const page = await stage.page(width, height);
  await page.goto(`${stage.address}/notices/settings`);
  await page.getByRole('heading', { name: 'What did not arrive' }).waitFor();
  await page.getByRole('button', { name: 'Use this' }).first().waitFor();
  return page;
}

describe('settings of notices', { timeout: 120_000 }, () => {
  it('show the same days for each budget, the one in use marked, and by whom and why it was chosen', async () => {
    const page = await opened(1440, 900);
    await page.getByText('Chosen by number 4711 on Mon 9 Feb 2026 at 09:00').waitFor();
    await page.getByText('“night shift stopped reading them”').waitFor();
    await page.getByText('88 shifts; seen for 702 of 720 hours.').waitFor();
    expect(await page.locator('.tried tr.inuse th').allInnerTexts()).toEqual(['5 shifts']);
    for (const { falseOnceInShifts: budget, notices, found, nothing, unsaid } of triedWith(5).rows) {
      const row = page.locator(`tr[data-budget="${budget}"]`);
      const marks = [row.locator('.was-found'), row.locator('.was-nothing'), row.locator('.was-unsaid')];
      expect(await Promise.all(marks.map((mark) => mark.count()))).toEqual([found, nothing, unsaid]);
      expect(found + nothing + unsaid).toBe(notices.length);
    }
  });

  it('[NT1] tell of each kind what they would have told, or why the past cannot tell, and of each person how much', async () => {
    const page = await opened(1440, 900);
    const row = (kind: string) => page.locator(`.triedkinds tr[data-kind="${kind}"]`);
    expect(await row('stops').locator('td').allInnerTexts()).toEqual([
      '34 + 6',
      '7.9',
      '31',
      'stations with too few earlier runs are not judged, now as then',
    ]);
    expect((await row('stopsCounted').locator('td').allInnerTexts()).slice(0, 3)).toEqual(['off', '–', '0']);
    const [untold, aWeek, , why] = await row('disk').locator('td').allInnerTexts();
    expect([untold, aWeek]).toEqual(['–', '–']);
    expect(why).toBe('Cannot be told from the past: how much of the disk was free is not kept.');
    const told = page.locator('.triedkinds tr[data-person="4711"] td');
    expect(await told.allInnerTexts()).toEqual(['88', '20.5']);
    await page.getByText('1 notice would have reached nobody by name.').waitFor();
  });

  it('[NT1] tell the same of what is changed and not saved, until it is changed again', async () => {
    const page = await opened(1440, 900);
    const key = page.getByRole('button', { name: 'Go through them by what is changed here' });
    expect(await key.count()).toBe(0);
    const press = page.locator('li[data-kind="press"]').getByRole('checkbox');
    await press.uncheck();
    await key.click();
    await page.getByText('Gone through by what is changed here and not saved.').waitFor();
    const stops = page.locator('.triedkinds tr[data-kind="stops"] td').first();
    expect(await stops.textContent()).toBe('77 + 6');
    const { when, who } = settings;
    expect(drafts).toEqual([{ settings: { when: { ...when, press: { on: false } }, who } }]);
    await press.check();
    await expect.poll(() => stops.textContent(), { timeout: 60_000 }).toBe('34 + 6');
  });

  it('say each rule as a sentence, and send a rota, a plan and quiet hours as they were typed', async () => {
    const page = await opened(1440, 900);
    await page.getByRole('checkbox', { name: 'no test recorded: on or off' }).check();
    await page.locator('li[data-kind="test"]').getByRole('textbox').fill('45');
    await page.getByLabel('Level: rate below target').selectOption('call');
    await page.getByLabel('counted within').selectOption('cartons');

    const person = page.locator('.person').first();
    await person.getByText('Budget, stations, hours').click();
    await person.getByRole('button', { name: 'Quiet hours' }).click();
    await person.getByLabel('from', { exact: true }).fill('21:30');
    await person.getByLabel('Sun', { exact: true }).uncheck();

    await page.getByRole('button', { name: 'Another turn' }).click();
    await page.getByLabel('Turn 3', { exact: true }).selectOption('4712');
    await page.getByRole('button', { name: 'Another step' }).click();
    const save = page.getByRole('button', { name: 'Save with a reason' });
    await page.getByLabel('Why, in a few words').fill('three in turns');
    await page.getByText('Plan 1: a step tells nobody.').waitFor();
    expect(await save.isDisabled()).toBe(true);
    await page.locator('.plansteps > li').last().getByLabel('number 4711').check();
    await save.click();

    await expect.poll(() => stage.entries.length, { timeout: 60_000 }).toBe(1);
    const { when, who } = settings;
    const [first, second] = who.recipients;
    const [plan] = who.plans;
    expect(stage.entries.at(-1)).toMatchObject({ kind: 'noticeSettings', why: 'three in turns' });
    expect((stage.entries.at(-1) as { settings: object }).settings).toEqual({
      when: {
        ...when,
        test: { on: true, days: 45 },
        stopsCounted: { ...when.stopsCounted, within: { kind: 'cartons', cartons: 1000 } },
        levels: { ...when.levels, rate: 'call' },
      },
      who: {
        recipients: [
          { ...first, when: { quiet: [{ from: '21:30', to: '06:00', days: [1, 2, 3, 4, 5, 6] }] } },
          second,
        ],
        rotas: [{ ...who.rotas[0], turns: ['4711', '4712', '4712'] }],
        plans: [
          {
            ...plan,
            steps: [...plan!.steps, { afterMinutes: 20, tell: [{ kind: 'person', person: '4711' }] }],
          },
        ],
      },
    });
  });

  it('[NR1] [NR2] mark who would not be reached, where people, turns and plans are set', async () => {
    const page = await opened(1440, 900);
    const mark = page.locator('.person').nth(1).locator('.unreached');
    expect(await mark.textContent()).toContain('access has ended, so nothing is told');
    expect(await page.locator('.person').first().locator('.unreached').count()).toBe(0);
    const turns = page.getByLabel('Turn 2', { exact: true }).locator('option');
    expect(await turns.allTextContents()).toEqual(['4711', '4712 (access ended)']);
    await page.locator('.plansteps').getByText('number 4712 (access ended)').first().waitFor();
  });

  it('[NR4] say what is wrong in the file of ways, and at which line', async () => {
    const page = await opened(1440, 900);
    const faults = page.getByRole('list', { name: 'What is wrong in the file of ways' });
    expect(await faults.textContent()).toContain('Line 7, place 5 of ways.yaml. The way pager is left out');
  });

  it('[NR5] send a trial to a person by a way, and say what became of it', async () => {
    const page = await opened(1440, 900);
    await page.getByRole('button', { name: 'Try mail for number 4711' }).click();
    await page.getByText('Trial by mail: The receiver has taken it.').waitFor();
  });

  it('tell that somebody else saved others meanwhile, and lead back to those', async () => {
    const page = await opened(1440, 900);
    await page.locator('li[data-kind="disk"]').getByRole('checkbox').uncheck();
    inUse = { ...chosen, settings: { ...settings, when: { ...settings.when, returnedHours: 24 } } };
    await page.reload();
    await page.getByText('Somebody else has saved other settings since you began.').waitFor();
    await page.getByRole('button', { name: 'Back to what is in use' }).click();
    await page.getByText('Nothing is changed.').waitFor();
    expect(await page.locator('li[data-kind="disk"]').getByRole('checkbox').isChecked()).toBe(true);
  });

  it('find room on a phone, with nothing to press smaller than a finger, and try again what did not arrive', async () => {
    const page = await opened(390, 844);
    for (const summary of await page.locator('.person summary').all()) await summary.click();
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(390);
    for (const key of await page.locator('.noticesettings .btn').all())
      expect((await key.boundingBox())!.height).toBeGreaterThanOrEqual(44);
    await page.getByText('The receiver is not reached.').waitFor();
    await page.getByText('Taken by number 4712 at 03:12 before it went out.').waitFor();
    await page.getByRole('button', { name: 'Try again' }).click();
    await expect.poll(() => again, { timeout: 60_000 }).toEqual(['/api/notices/outbox/letter-1/again']);
  });
});
