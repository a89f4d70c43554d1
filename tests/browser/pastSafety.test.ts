import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { views } from '../dashboard/views/views.ts';
import { faultsIn } from './axeFaults.ts';
import { safetyAnswers } from './safetyAnswers.ts';
import { openStage, type Stage } from './stage.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(views.quiet, safetyAnswers);
});
afterAll(async () => stage.end());

async function open(width: number, height: number, theme = 'light'): Promise<Page> {
  const page = await stage.page(width, height);
  await page.goto(`${stage.address}/safety-stops?theme=${theme}`);
  await page.waitForSelector('.safetyuses');
  return page;
}

describe('the Safety stops screen in a browser', () => {
  it.each([
    [1440, 900, 'light'],
    [390, 844, 'dark'],
    [320, 640, 'light'],
  ] as const)('axe finds nothing at %d by %d in %s, and nothing sticks out', async (width, height, theme) => {
    const page = await open(width, height, theme);
    expect(await faultsIn(page)).toEqual([]);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(over).toBeLessThanOrEqual(0);
  });

  it('has nothing green or red on it, and every target of a phone is 44 px high', async () => {
    const page = await open(390, 844);
    const { coloured, low } = await page.evaluate(() => {
      const probe = document.createElement('i');
      document.body.append(probe);
      const tokens = ['--normal', '--emergency'].map((token) => {
        probe.style.color = `var(${token})`;
        return getComputedStyle(probe).color;
      });
      probe.remove();
      const all = [...document.querySelectorAll('main, main *')];
      const targets = [...document.querySelectorAll('main button, main select, main input, main a')];
      return {
        coloured: all.filter((one) => {
          const { fill, stroke, backgroundColor, color } = getComputedStyle(one);
          return [fill, stroke, backgroundColor, color].some((used) => tokens.includes(used));
        }).length,
        low: targets.filter((one) => one.getBoundingClientRect().height < 44).map((one) => one.outerHTML),
      };
    });
    expect(coloured).toBe(0);
    expect(low).toEqual([]);
  });

  it('a reading while the line ran is closed by keyboard, with what was found', async () => {
    const page = await open(1440, 900);
    const before = stage.entries.length;
    await page.getByLabel('What was found?').first().focus();
    await page.keyboard.type('switch replaced');
    await page.keyboard.press('Enter');
    await page.getByText('Kept: finding closed').waitFor();
    expect(stage.entries.slice(before)).toMatchObject([
      { kind: 'closed', finding: 'guard-door-1', words: 'switch replaced' },
    ]);
  });

  it('a test is recorded with the device, how, and the person’s number; which button it was takes one tap', async () => {
    const page = await open(1440, 900);
    const before = stage.entries.length;
    const form = page.locator('.recordtest');
    await expect.poll(() => form.getByRole('button', { name: 'Record it' }).isDisabled()).toBe(true);
    await form.getByLabel('device or guard').selectOption('door');
    await form.getByLabel('how it was tested').fill('opened at standstill');
    await form.getByLabel('person’s number').fill('31');
    await form.getByRole('button', { name: 'Record it' }).click();
    await page.getByText('Kept: test of a stop device').waitFor();
    await page.locator('.which').getByRole('button', { name: 'back' }).click();
    await page.getByText('Kept: stop button').waitFor();
    expect(stage.entries.slice(before)).toMatchObject([
      { kind: 'tested', device: 'door', method: 'opened at standstill', person: '31' },
      { kind: 'device', press: 'press-1', candidate: 'back' },
    ]);
  });
});
