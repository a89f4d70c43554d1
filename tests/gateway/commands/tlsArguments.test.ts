import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readArguments } from '../../../gateway/commands/arguments.ts';
import { LineError } from '../../../model/trouble/trouble.ts';

const asked = (text: string) => readArguments(text.split(' ').filter((part) => part !== '')).tls;

function refusal(text: string): LineError {
  try {
    asked(text);
  } catch (error) {
    if (error instanceof LineError) return error;
    throw error;
  }
  throw new Error('it was not refused');
}

describe('encryption on the command line', () => {
  it('is not needed on this machine', () => {
    for (const host of ['', '--host localhost', '--host ::1', '--host 127.0.0.9'])
      expect(asked(host)).toBeUndefined();
  });

  it.each(['0.0.0.0', '::', '192.0.2.1', 'line3.plant.example', '::ffff:127.0.0.1'])(
    'is needed on %s unless it is said that clear text is wanted',
    (host) => {
      const { message, why, mend } = refusal(`--host ${host}`);
      expect(message).toBe(`Scoreline does not listen on ${host} without encryption.`);
      for (const sentence of [message, why, mend]) expect(sentence).toMatch(/^\S.*[^.]\.$/);
      for (const way of ['--tls own', '--tls files', '--tls proxy', '--clear-text'])
        expect(mend).toContain(way);
      expect(asked(`--host ${host} --clear-text`)).toEqual({ kind: 'clearText' });
    },
  );

  it('is by a certificate of its own, by files, or by a proxy', () => {
    expect(asked('--tls own')).toEqual({ kind: 'own', proxies: [] });
    expect(asked('--host :: --tls own --proxy 192.0.2.1')).toEqual({ kind: 'own', proxies: ['192.0.2.1'] });
    expect(asked('--tls files --tls-key a.key --tls-certificate a.pem')).toEqual({
      kind: 'files',
      key: resolve('a.key'),
      certificate: resolve('a.pem'),
      proxies: [],
    });
    expect(asked('--tls proxy')).toEqual({ kind: 'proxy', proxies: [], clearText: false });
    expect(asked('--tls proxy --proxy ::1')?.kind).toBe('proxy');
  });

  it('is missing between a proxy of another machine and this one, which has to be accepted', () => {
    const { message, mend } = refusal('--host 0.0.0.0 --tls proxy --proxy 192.0.2.1');
    expect(message).toBe('What the proxy at 192.0.2.1 sends here would not be encrypted.');
    expect(mend).toContain('--tls own');
    expect(asked('--host 0.0.0.0 --tls proxy --proxy 192.0.2.1 --clear-text')).toEqual({
      kind: 'proxy',
      proxies: ['192.0.2.1'],
      clearText: true,
    });
  });

  it.each([
    ['--tls none', '--tls takes one of own, files and proxy'],
    ['--tls files', '--tls files takes both --tls-key and --tls-certificate'],
    ['--tls files --tls-key a', '--tls files takes both --tls-key and --tls-certificate'],
    ['--tls files --tls-key= --tls-certificate a', '--tls files takes both'],
    ['--tls own --tls-key a', '--tls-key goes with --tls files'],
    ['--tls-certificate a', '--tls-certificate goes with --tls files'],
    ['--proxy 192.0.2.1', '--proxy goes with --tls'],
    ['--tls proxy --proxy plant', '“plant” is neither'],
    ['--host :: --tls own --clear-text', '--clear-text does not go with --tls own'],
    ['--clear-text', '--clear-text goes with a --host beyond this machine'],
    ['--tls proxy --clear-text', '--clear-text goes with a --host beyond this machine'],
    ['--clear-text=1', '--clear-text takes no value'],
  ])('that does not fit is said so: %s', (text, what) => {
    expect(refusal(text).message).toContain(what);
  });
});
