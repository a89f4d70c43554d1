import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
/** So much of an element is told: enough to find it. */
const TOLD = 200;

/** What axe-core finds on a page as it stands: each rule that is broken, with how often and where first. */
export async function faultsIn(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe);
  return page.evaluate(async (told) => {
    interface Found {
      readonly violations: readonly { id: string; nodes: readonly { html: string }[] }[];
    }
    const { axe: made } = globalThis as unknown as { axe: { run: (where: Document) => Promise<Found> } };
    const { violations } = await made.run(document);
    return violations.map(({ id, nodes }) => `${id}, ${nodes.length}: ${nodes[0]?.html.slice(0, told)}`);
  }, TOLD);
}
