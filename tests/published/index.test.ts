import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { type Check, MARKS, shown, type Topic } from './checks/check.ts';
import { topics } from './checks/topics.ts';

const file = join(import.meta.dirname, 'INDEX.md');

/** SCORELINE_PUBLISHED=1 renews INDEX.md. */
const renews = process.env.SCORELINE_PUBLISHED === '1';

function page(): string {
  const all = topics.reduce((sum, { checks }) => sum + checks.length, 0);
  const marks = Object.entries(MARKS).map(([mark, meaning]) => `| [${mark}] | ${meaning} |`);
  return `${[
    '# Figures held to published ones',
    `${all} checks, made from \`checks/\` by \`index.test.ts\`, which fails where this page differs from what they give. Renewed by
\`SCORELINE_PUBLISHED=1 npx vitest run --config tests/vitest.config.ts tests/published/index\`.
Each is held to half of its last printed digit, whole numbers exactly, unless the row says why not; ours are shown with two
digits more. \`-\` is no value, where there is none to give.`,
    ['| mark | the source was |', '| --- | --- |', ...marks].join('\n'),
    ...topics.map(section),
  ].join('\n\n')}\n`;
}

function section({ title, about, checks }: Topic): string {
  const rows = checks.map((check) => row([check.check, sourceOf(check), check.expected, shown(check)]));
  return [
    `## ${title}`,
    '',
    about,
    '',
    row(['check', 'source', 'expected', 'got']),
    '| --- | --- | --- | --- |',
    ...rows,
  ].join('\n');
}

function sourceOf({ source, within, because }: Check): string {
  return within === undefined ? source : `${source} (within ${within} of the last digit: ${because})`;
}

function row(cells: readonly string[]): string {
  return `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
}

it('INDEX.md has every check with its source, what is printed and what ours gives', async () => {
  if (renews) await writeFile(file, page());
  expect(await readFile(file, 'utf8')).toBe(page());
});
