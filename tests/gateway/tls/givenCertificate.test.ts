import { generateKeyPairSync } from 'node:crypto';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { fingerprintOf } from '../../../gateway/tls/held.ts';
import { makeKey } from '../../../gateway/tls/makeCertificate.ts';
import { openCertificate, type Certificate } from '../../../gateway/tls/tls.ts';
import { LineError } from '../../../model/trouble/trouble.ts';
import { DAY, type Files, folder, machine, NOW, voices, writeGiven, writeShort } from './certificates.ts';

async function opened(files: Files, { names = ['localhost'], at = () => NOW } = {}) {
  const heard = voices();
  const certificate = (await openCertificate(
    { kind: 'files', ...files, proxies: [] },
    { ...heard, data: '/nowhere', names, host: '0.0.0.0', now: at, machine },
  )) as Certificate;
  return { ...heard, certificate };
}

async function refusal(files: Files, at = () => NOW): Promise<LineError> {
  const error: unknown = await opened(files, { at }).catch((reason: unknown) => reason);
  if (!(error instanceof LineError)) throw new Error(`not refused with words: ${String(error)}`);
  for (const sentence of [error.message, error.why, error.mend]) expect(sentence).toMatch(/^\S.*[^.]\.$/);
  return error;
}

describe('given certificate files', () => {
  it('are read, and their fingerprint and end are said', async () => {
    const { certificate, said } = await opened(await writeGiven(folder()));
    expect(said).toEqual([
      `Given certificate, good until 2028-06-18. Its SHA-256: ${fingerprintOf(certificate.current())}`,
    ]);
  });

  it('that are not there, or are a folder, are refused with the path', async () => {
    const files = await writeGiven(folder());
    const gone = await refusal({ ...files, key: '/nowhere/plant.key' });
    expect([gone.message, gone.why]).toEqual([
      '/nowhere/plant.key cannot be read.',
      'There is no such file or folder.',
    ]);
    expect((await refusal({ ...files, certificate: folder() })).why).toBe('It is a folder, not a file.');
  });

  it('that hold something else, or a locked key, are refused', async () => {
    const files = await writeGiven(folder());
    expect((await refusal({ ...files, certificate: files.key })).message).toMatch(/holds no certificate\.$/);
    expect((await refusal({ ...files, key: files.certificate })).message).toMatch(/holds no private key/);
    const { privateKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' });
    const locked = { type: 'pkcs8', format: 'pem', cipher: 'aes-256-cbc', passphrase: 'secret' } as const;
    writeFileSync(files.key, privateKey.export(locked));
    expect((await refusal(files)).why).toContain('without a passphrase');
  });

  it('whose key belongs to another certificate are refused', async () => {
    const files = await writeGiven(folder());
    writeFileSync(files.key, makeKey());
    expect((await refusal(files)).message).toBe(
      `The key in ${files.key} does not belong to the certificate in ${files.certificate}.`,
    );
  });

  it('that have expired, or are not good yet, are refused with the day', async () => {
    const files = await writeGiven(folder());
    expect((await refusal(files, () => NOW + 826 * DAY)).message).toMatch(/was good until 2028-06-18\.$/);
    expect((await refusal(files, () => NOW - DAY)).message).toMatch(/is good from 2026-03-16 on\.$/);
  });

  it('of a key that the encryption library takes for too short are refused', async () => {
    const files = await writeShort(folder());
    const { message, why } = await refusal(files);
    expect([message, why]).toEqual([
      `The certificate in ${files.certificate} cannot be used.`,
      'The encryption library refuses it (ERR_SSL_EE_KEY_TOO_SMALL).',
    ]);
  });

  it('that do not name this machine as people call it are used, with a warning', async () => {
    const files = await writeGiven(folder());
    const { said } = await opened(files, { names: ['line3.plant.example'] });
    expect(said[1]).toBe(
      'Browsers will warn: the certificate does not name line3.plant.example, only DNS:localhost, IP Address:127.0.0.1.',
    );
  });

  it('are taken over when they change, without a start', async () => {
    const into = folder();
    const { certificate, warned } = await opened(await writeGiven(into));
    const taken: string[] = [];
    certificate.follow(({ cert }) => void taken.push(cert));
    await certificate.look();
    expect(taken).toEqual([]);
    const files = await writeGiven(into, { made: NOW + 1000 });
    await certificate.look();
    certificate.stop();
    expect(taken).toEqual([readFileSync(files.certificate, 'utf8')]);
    expect(warned).toEqual([expect.stringContaining(fingerprintOf(certificate.current()))]);
  });

  it('that change to what does not fit are not used: those before go on, and the log says so once', async () => {
    const into = folder();
    const { certificate, warned } = await opened(await writeGiven(into));
    const before = certificate.current();
    const taken: string[] = [];
    certificate.follow(({ cert }) => void taken.push(cert));
    writeFileSync(join(into, 'plant.key'), makeKey());
    await certificate.look();
    await certificate.look();
    expect(warned).toEqual([
      expect.stringMatching(
        /^The changed certificate files are not used, and those before go on\. The key in /,
      ),
    ]);
    const right = await writeGiven(into);
    await certificate.look();
    expect(taken).toEqual([readFileSync(right.certificate, 'utf8')]);
    rmSync(right.certificate);
    const so = warned.length;
    await certificate.look();
    await certificate.look();
    expect(warned).toHaveLength(so + 1);
    certificate.stop();
    expect(taken).toHaveLength(1);
    expect(certificate.current().cert).not.toBe(before.cert);
    expect(warned.at(-1)).toContain('There is no such file or folder.');
  });

  it('are said to expire from two weeks before on, once a day', async () => {
    let now = NOW;
    const files = await writeGiven(folder());
    const { certificate, warned } = await opened(files, { at: () => now });
    const { until } = certificate.current();
    now = until - 14 * DAY - 1;
    await certificate.look();
    expect(warned).toEqual([]);
    now += 1;
    await certificate.look();
    now += 3_600_000;
    await certificate.look();
    expect(warned).toEqual([`The certificate in ${files.certificate} is good until 2028-06-18 only.`]);
    now = until;
    await certificate.look();
    expect(warned[1]).toMatch(/was good until 2028-06-18: browsers refuse it\.$/);
  });
});
