import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { buildDashboard, dashboardFolder, dashboardIsOld } from '../../gateway/commands/dashboard.ts';

it('a dashboard that a test had to build is the one for production: the next start serves it', async () => {
  if (dashboardIsOld()) await buildDashboard();
  const assets = join(dashboardFolder, 'assets');
  const scripts = readdirSync(assets).filter((name) => name.endsWith('.js'));
  expect(scripts.length).toBeGreaterThan(1);
  for (const script of scripts) {
    const text = readFileSync(join(assets, script), 'utf8');
    // the library tells its developers of a tool, and in production it does not
    expect(text.includes('React DevTools'), script).toBe(false);
  }
});
