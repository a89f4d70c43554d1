import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readSecret } from '../../../gateway/notices/ways/secret.ts';
import { certificateFor } from './certificate.ts';
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

const read = async (text: string) => (await written(text))?.ways;

function written(text: string) {
  writeFileSync(join(folder, 'ways.yaml'), text);
  return readWays(folder);
}

const PEM = certificateFor('mail.plant.example').cert;

describe('the file of ways', () => {
  it('is read with places of secrets beside it, and people’s numbers as they are written', async () => {
    writeFileSync(join(folder, 'plant.pem'), PEM);
    expect(await read(whole)).toEqual({
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
      trusted: PEM,
    });
  });

  it('need not be there: then no notice goes out', async () => {
    expect(await readWays(folder)).toBeUndefined();
  });

  it.each([
    ['a password in the clear', whole.replace('startTls', 'none'), 3, ['mail'], /never sent in the clear/],
    [
      'a password in the file itself',
      whole.replace(/password:\n.*\n/, 'password: secret\n'),
      9,
      ['mail'],
      /password/,
    ],
    ['a key that is not known', `${whole}more: 1\n`, 19, [], /more/],
    [
      'an address of another kind',
      whole.replace('https:', 'file:'),
      13,
      ['pager'],
      /http:\/\/ or https:\/\//,
    ],
    ['a password in an address', whole.replace('https://', 'https://a:b@'), 13, ['pager'], /no user and no/],
    [
      'two mail addresses in one',
      whole.replace('twelve@plant.example', 'a@b.example, c@d.example'),
      17,
      [],
      /name@/,
    ],
    ['a name in place of a number', whole.replace('012:', 'somebody:'), 17, [], /./],
    ['a way named mail', whole.replace('id: pager', 'id: mail'), 12, [], /same name/],
    ['webhooks that are no list', 'webhooks: 5\n', 1, [], /are a list/],
    ['what is no YAML', 'screens: https://a.example/\nmail: [', 2, [], /./],
    [
      'an address of the screens that is none',
      whole.replace('webhooks:', 'screens: line3\nwebhooks:'),
      11,
      [],
      /^The address of the screens/,
    ],
    ['a second document', `${whole}---\npush: {}\n`, 19, [], /one document/],
    ['what has no parts', '- mail', 1, [], /no parts/],
    ['a way that is there twice', `${whole}mail: {}\n`, 19, [], /./],
  ])(
    '[NR4] says of %s at which line it stands, and which ways are left out',
    async (_name, text, line, ways, why) => {
      writeFileSync(join(folder, 'plant.pem'), PEM);
      const { faults, ways: left } = (await written(text))!;
      expect(faults).toHaveLength(1);
      const [fault] = faults;
      expect(fault).toMatchObject({ at: { line }, ways });
      expect(fault!.why).toMatch(why);
      expect(fault!.mend).toMatch(/\.$/);
      // nothing of what is written there is told
      expect(JSON.stringify(faults)).not.toMatch(/plant\.example|secret\b|a:b@/);
      const there = [...(left.mail ? ['mail'] : []), ...left.webhooks.map(({ id }) => id)];
      for (const way of ways) expect(there).not.toContain(way);
    },
  );

  it('[NR4] leaves what is right: the other ways, and the other addresses', async () => {
    writeFileSync(join(folder, 'plant.pem'), PEM);
    const wrong = whole.replace('port: 587', 'port: none').replace('addresses:', 'addresses:\n  13: nobody');
    const { ways, faults } = (await written(wrong))!;
    expect(faults.map(({ at, ways: out }) => [at.line, ...out])).toEqual([[4, 'mail'], [17]]);
    expect(ways).toMatchObject({ webhooks: [{ id: 'pager' }], trusted: PEM });
    expect(ways.mail).toBeUndefined();
    expect([...ways.addresses.keys()]).toEqual(['012']);
  });

  it('[NR4] without the certificates to trust leaves out whatever would be held against them', async () => {
    const plain = `${whole.replace(/webhooks:\n/, 'webhooks:\n  - { id: dect, address: "http://dect.example/", key: { env: K } }\n')}`;
    const { ways, faults } = (await written(plain))!;
    expect(faults).toMatchObject([
      { at: { line: 19 }, ways: ['mail', 'pager'], why: expect.stringMatching(/no such file/) },
    ]);
    expect(ways.webhooks.map(({ id }) => id)).toEqual(['dect']);
    expect(ways).not.toHaveProperty('mail');
  });

  it.each([
    ['without a certificate in it', 'none', /no certificate in it/],
    ['with one that is cut short', `${PEM}${PEM.slice(0, 120)}`, /at place 2 in it is damaged or cut short/],
    ['with one that is damaged', PEM.replace('MI', 'XX'), /at place 1 in it is damaged/],
  ])('[NR4] trusts no file %s', async (_what, text, why) => {
    writeFileSync(join(folder, 'plant.pem'), text);
    expect((await written(whole))!.faults).toMatchObject([
      { ways: ['mail', 'pager'], why: expect.stringMatching(why) },
    ]);
    writeFileSync(join(folder, 'plant.pem'), `of the plant\n${PEM}${PEM}`);
    expect((await written(whole))!.faults).toEqual([]);
  });

  it('[NR4] that cannot be read as text has no ways, and says so', async () => {
    writeFileSync(join(folder, 'ways.yaml'), Buffer.from([0, 1, 2]));
    expect(await readWays(folder)).toMatchObject({ ways: { webhooks: [] }, faults: [{ at: { line: 1 } }] });
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
