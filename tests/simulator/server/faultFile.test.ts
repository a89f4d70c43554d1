import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { LineError } from '../../../model/trouble/trouble.ts';
import { tagsOf } from '../../../simulator/lines/tags.ts';
import { standard } from '../../../simulator/lines/variant.ts';
import { readFaultFile } from '../../../simulator/server/faultFile.ts';

const folder = mkdtempSync(join(tmpdir(), 'scoreline-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function read(text: string) {
  const file = join(folder, 'faults.txt');
  writeFileSync(file, text);
  return readFaultFile(file, tagsOf(standard));
}

it('reads the faults of a file', () => {
  const kinds = read('0:00:02 link cut for 1 s\n0:00:01 counter Discharge.Good reset').map(
    ({ kind }) => kind,
  );
  expect(kinds).toEqual(['reset', 'cut']);
});

const refused: readonly (readonly [string, () => unknown, string])[] = [
  ['a file that is not there', () => readFaultFile(join(folder, 'none'), []), 'cannot be read from'],
  ['a line that is no fault', () => read('0:00:01 link cut'), 'Line 1 of the faults'],
  ['a tag that the line does not have', () => read('0:00:01 value Nowhere bad for 1 s'), 'Nowhere'],
  ['a counter that is none', () => read('0:00:01 counter Cartoner.State reset'), 'Cartoner.State'],
  ['a button that is none', () => read('0:00:01 button Discharge.Good pressed for 1 s'), 'Discharge.Good'],
];

for (const [what, work, sentence] of refused) {
  it(`refuses ${what}, and says what to mend`, () => {
    try {
      work();
    } catch (error) {
      expect(error).toBeInstanceOf(LineError);
      const { message, why, mend } = error as LineError;
      expect(message).toContain(sentence);
      expect(why.length).toBeGreaterThan(10);
      expect(mend.length).toBeGreaterThan(10);
      return;
    }
    expect.unreachable();
  });
}
