import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readText } from '../../../gateway/binding/textFile.ts';
import { LineError } from '../../../model/trouble/trouble.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'scoreline-text-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

async function refusal(path: string): Promise<LineError> {
  const error: unknown = await readText(path).catch((reason: unknown) => reason);
  if (!(error instanceof LineError)) throw new Error(`not refused with words: ${String(error)}`);
  return error;
}

describe('a file that a person wrote', () => {
  it('is read as it is, without the mark that some editors put in front', async () => {
    const file = join(folder, 'line.yaml');
    writeFileSync(file, '\uFEFFname: Tüte');
    expect(await readText(file)).toBe('name: Tüte');
  });

  it.each([
    ['a picture', Buffer.from('89504e470d0a1a0a0000000d', 'hex')],
    ['text in 16 bits a character', Buffer.from('name: a', 'utf16le')],
    ['text in another eight bits', Buffer.from('name: Tüte', 'latin1')],
  ])('is refused in whole sentences when it is %s', async (_what, bytes) => {
    const file = join(folder, 'line.yaml');
    writeFileSync(file, bytes);
    const { message, why, mend } = await refusal(file);
    expect(message).toBe(`The file ${file} cannot be read.`);
    expect(why).toBe('It is not text, or text that is not saved as UTF-8.');
    expect(mend).toBe('Check that this is the file you meant, and save it as UTF-8.');
  });

  it('that is not there, is a folder, or has a name too long is refused with the reason', async () => {
    expect((await refusal(join(folder, 'none.yaml'))).why).toBe('There is no such file.');
    expect((await refusal(folder)).why).toBe('It is not a file.');
    expect((await refusal(join(folder, 'x'.repeat(300)))).why).toBe('The name is too long.');
  });
});
