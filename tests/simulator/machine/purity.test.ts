import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const folder = fileURLToPath(new URL('../../../simulator/machine/', import.meta.url));
const files = readdirSync(folder).map((name) => ({ name, text: readFileSync(folder + name, 'utf8') }));
const imports = files.flatMap(({ name, text }) =>
  [...text.matchAll(/from '([^']+)'/g)].map(([, from]) => ({ name, from: from ?? '' })),
);

it('the machine knows no clock, no chance but its own, and nothing of the computer it runs on', () => {
  expect(files.length).toBeGreaterThan(15);
  for (const { text } of files)
    expect(text).not.toMatch(/\bDate\b|Math\.random|performance|process\.|setTimeout|crypto/);
});

it('of the model it takes units only, and of the simulator only what is as pure as itself', () => {
  const allowed =
    /^(\.\/|\.\.\/lines\/(cartoner|changeoverSteps|tags|variant)|\.\.\/ledger\/entries|\.\.\/calendar\/|\.\.\/\.\.\/model\/units\/)/;
  expect(imports.length).toBeGreaterThan(50);
  expect(imports.filter(({ from }) => !allowed.test(from))).toEqual([]);
});
