import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readSecret } from '../../../gateway/notices/ways/secret.ts';
import { readWays } from '../../../gateway/notices/waysFile.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'scoreline-ways-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const whole = `
mail:
  host: mail.plant.example
  port: 587
  security: startTls
  from: line3@plant.example
  logIn:
    user: line3
    password:
      file: mail.secret
webhooks:
  - id: pager
    address: https://pager.plant.example/calls
    key:
      env: SCORELINE_PAGER_KEY
addresses:
  012: twelve@plant.example
trusted: plant.pem
`;

function written(text: string) {
  writeFileSync(join(folder, 'ways.yaml'), text);
  return readWays(folder);
}

describe('the file of ways', () => {
  it('is read with places of secrets beside it, and people’s numbers as they are written', async () => {
    writeFileSync(join(folder, 'plant.pem'), 'PEM');
    expect(await written(whole)).toEqual({
      mail: {
        host: 'mail.plant.example',
        port: 587,
        security: 'startTls',
        from: 'line3@plant.example',
        logIn: { user: 'line3', password: { file: join(folder, 'mail.secret') } },
      },
      webhooks: [
        { id: 'pager', address: 'https://pager.plant.example/calls', key: { env: 'SCORELINE_PAGER_KEY' } },
      ],
      addresses: new Map([['012', 'twelve@plant.example']]),
      trusted: 'PEM',
    });
  });

  it('need not be there: then no notice goes out', async () => {
    expect(await readWays(folder)).toBeUndefined();
  });

  it.each([
    ['a password in the clear', whole.replace('startTls', 'none'), /never sent in the clear/],
    ['a password in the file itself', whole.replace(/password:\n.*\n/, 'password: secret\n'), /password/],
    ['a key that is not known', `${whole}more: 1\n`, /more/],
    ['an address of another kind', whole.replace('https:', 'file:'), /http:\/\/ or https:\/\//],
    ['a password in an address', whole.replace('https://', 'https://a:b@'), /no user and no password/],
    [
      'two mail addresses in one',
      whole.replace('twelve@plant.example', 'a@b.example, c@d.example'),
      /name@host/,
    ],
    ['a name in place of a number', whole.replace('012:', 'somebody:'), /./],
    ['a way named mail', whole.replace('id: pager', 'id: mail'), /same name/],
    ['what is no YAML', 'mail: [', /not YAML/],
    ['certificates that are not there', whole, /no such file/],
  ])('is refused for %s, and says why', async (_name, text, why) => {
    await expect(written(text)).rejects.toMatchObject({ name: 'LineError', why: expect.stringMatching(why) });
  });
});

describe('a password or key', () => {
  const file = () => join(folder, 'key');
  function kept(text: string, mode = 0o600): { readonly file: string } {
    writeFileSync(file(), text);
    chmodSync(file(), mode);
    return { file: file() };
  }

  it('is read from the environment, or from a file that only its owner may read, without the line’s end', () => {
    expect(readSecret({ env: 'KEY' }, { KEY: 'by the door' })).toBe('by the door');
    expect(readSecret(kept('under the mat\n'))).toBe('under the mat');
    expect(readSecret(kept(' spaces count ', 0o400))).toBe(' spaces count ');
  });

  it('is refused where others may read it, and is never told', () => {
    for (const mode of [0o640, 0o604, 0o660]) {
      try {
        readSecret(kept('under the mat', mode));
        expect.unreachable();
      } catch (error) {
        expect(error).toMatchObject({ name: 'LineError', why: expect.stringMatching(/Others/) });
        expect(JSON.stringify({ ...(error as Error), message: (error as Error).message })).not.toContain(
          'mat',
        );
      }
    }
  });

  it('is refused where there is none: unset, empty, too long, a folder, not there', () => {
    const refused = { name: 'LineError' };
    const attempt = (act: () => string) => {
      try {
        return act();
      } catch (error) {
        return error;
      }
    };
    mkdirSync(join(folder, 'sub'), { mode: 0o700 });
    expect(attempt(() => readSecret({ env: 'KEY' }, {}))).toMatchObject(refused);
    expect(attempt(() => readSecret({ env: 'KEY' }, { KEY: '' }))).toMatchObject(refused);
    expect(attempt(() => readSecret(kept('\n')))).toMatchObject(refused);
    expect(attempt(() => readSecret(kept('x'.repeat(5000))))).toMatchObject(refused);
    expect(attempt(() => readSecret({ file: join(folder, 'sub') }))).toMatchObject(refused);
    expect(attempt(() => readSecret({ file: join(folder, 'none') }))).toMatchObject(refused);
  });
});
