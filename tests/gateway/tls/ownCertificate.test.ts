import { X509Certificate } from 'node:crypto';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { fingerprintOf } from '../../../gateway/tls/held.ts';
import { makeKey } from '../../../gateway/tls/makeCertificate.ts';
import { openCertificate, type Certificate } from '../../../gateway/tls/tls.ts';
import type { LineError } from '../../../model/trouble/trouble.ts';
import { DAY, folder, machine, NOW, voices } from './certificates.ts';

interface Wish {
  readonly data: string;
  readonly at?: () => number;
  readonly names?: readonly string[];
  readonly host?: string;
  readonly addresses?: readonly string[];
}

async function opened({ data, at = () => NOW, names = [], host = '0.0.0.0', addresses }: Wish) {
  const heard = voices();
  const certificate = (await openCertificate(
    { kind: 'own', proxies: [] },
    {
      ...heard,
      ...{ data, names, host, now: at },
      machine: addresses === undefined ? machine : { ...machine, addresses },
    },
  )) as Certificate;
  return { ...heard, certificate, seen: new X509Certificate(certificate.current().cert) };
}

async function refusal(data: string): Promise<LineError> {
  return opened({ data }).then(
    () => {
      throw new Error('it was not refused');
    },
    (error: LineError) => error,
  );
}

describe('a certificate of our own', () => {
  it('is made on first use, for the names and addresses of this machine, and its key is for its owner alone', async () => {
    const data = folder();
    const { seen, said, certificate } = await opened({
      data,
      names: ['Line3.plant.example', '198.51.100.4'],
    });
    for (const name of ['line3.plant.example', 'cell3.plant.example', 'cell3', 'localhost'])
      expect(seen.checkHost(name, { subject: 'never' }), name).toBeDefined();
    for (const address of ['198.51.100.4', '192.0.2.7', '2001:db8::7', '127.0.0.1', '::1'])
      expect(seen.checkIP(address), address).toBeDefined();
    expect(seen.ca).toBe(false);
    expect(seen.checkHost('other.example')).toBeUndefined();
    expect(readdirSync(join(data, 'tls')).toSorted()).toEqual(['certificate.pem', 'key.pem']);
    expect(statSync(join(data, 'tls/key.pem')).mode & 0o777).toBe(0o600);
    expect(statSync(join(data, 'tls')).mode & 0o077).toBe(0);
    expect(readFileSync(join(data, 'tls/certificate.pem'), 'utf8')).not.toContain('PRIVATE');
    expect(said).toEqual([
      'A key and a certificate were made.',
      `Certificate of its own, good until 2028-06-18. Before you trust it, compare its SHA-256: ${fingerprintOf(certificate.current())}`,
      `To trust it on a screen, take the certificate from ${join(data, 'tls/certificate.pem')}`,
    ]);
  });

  it('says its fingerprint in groups as long as each other, the same digits that a browser shows', async () => {
    const { seen, certificate } = await opened({ data: folder() });
    const told = fingerprintOf(certificate.current());
    expect(told).toMatch(/^([0-9A-F]{4} ){15}[0-9A-F]{4}$/);
    expect(told.replaceAll(' ', '')).toBe(seen.fingerprint256.replaceAll(':', ''));
  });

  it('is good from an hour ago on, for 825 days', async () => {
    const { certificate } = await opened({ data: folder() });
    const { from, until } = certificate.current();
    expect([NOW - from, until - from]).toEqual([3_600_000, 825 * DAY - 1000]);
  });

  it('is the same at the next start, and only its fingerprint is said', async () => {
    const data = folder();
    const first = await opened({ data });
    const second = await opened({ data, at: () => NOW + 700 * DAY });
    expect(second.seen.fingerprint256).toBe(first.seen.fingerprint256);
    expect(second.said).toHaveLength(2);
  });

  it('is made anew for a name or address that it lacks, and not for an IPv6 address, which changes every day', async () => {
    const data = folder();
    const first = await opened({ data });
    const other = await opened({ data, addresses: ['192.0.2.7', '2001:db8::99'] });
    expect(other.seen.fingerprint256).toBe(first.seen.fingerprint256);
    const named = await opened({ data, names: ['line3.plant.example'] });
    expect(named.said[0]).toBe('Another certificate was made: the one before lacked line3.plant.example.');
    const moved = await opened({ data, names: ['line3.plant.example'], addresses: ['192.0.2.8'] });
    expect(moved.said[0]).toBe('Another certificate was made: the one before lacked 192.0.2.8.');
    const key = (seen: X509Certificate) => seen.publicKey.export({ type: 'spki', format: 'pem' });
    expect(key(moved.seen)).toBe(key(first.seen));
  });

  it('is renewed 30 days before it expires, at a start and while the gateway runs', async () => {
    const data = folder();
    let now = NOW;
    const { certificate, warned } = await opened({ data, at: () => now });
    const taken: string[] = [];
    certificate.follow(({ cert }) => void taken.push(cert));
    const before = certificate.current();
    now = before.until - 30 * DAY - 1;
    await certificate.look();
    expect(taken).toEqual([]);
    now += 1;
    await certificate.look();
    certificate.stop();
    const after = certificate.current();
    expect(after.until - now).toBeGreaterThan(800 * DAY);
    expect(taken).toEqual([after.cert]);
    expect(readFileSync(join(data, 'tls/certificate.pem'), 'utf8')).toBe(after.cert);
    expect(warned).toEqual([
      'Another certificate was made: the one before is good until 2028-06-18 only.',
      expect.stringContaining(fingerprintOf(after)),
    ]);
    const later = await opened({ data, at: () => after.until - DAY });
    expect(later.said[0]).toMatch(/is good until \d{4}-\d\d-\d\d only\.$/);
  });

  it('of a clock that was set back is made anew: no screen would take one that is good only later', async () => {
    const data = folder();
    await opened({ data });
    const { said } = await opened({ data, at: () => NOW - DAY });
    expect(said[0]).toMatch(/only be good later/);
  });

  it('is made anew in words where it is damaged or of another key', async () => {
    const data = folder();
    await opened({ data });
    writeFileSync(join(data, 'tls/certificate.pem'), 'nothing');
    expect((await opened({ data })).said[0]).toMatch(/cannot be used: another was made/);
    writeFileSync(join(data, 'tls/key.pem'), makeKey());
    const { said, seen, certificate } = await opened({ data });
    expect(said[0]).toMatch(/cannot be used: another was made/);
    expect(seen.verify(seen.publicKey)).toBe(true);
    expect(certificate.current().ownSigned).toBe(true);
  });

  it('does not use a key that others may read, nor what is no key', async () => {
    const data = folder();
    await opened({ data });
    const key = join(data, 'tls/key.pem');
    chmodSync(key, 0o640);
    expect((await refusal(data)).mend).toContain('chmod 600');
    chmodSync(key, 0o600);
    writeFileSync(key, 'nothing');
    const { message, why } = await refusal(data);
    expect([message, why]).toEqual([`The key ${key} is not used.`, 'It is no private key that can be read.']);
  });

  it('is not written through a link out of the data folder', async () => {
    const data = folder();
    const outside = folder();
    symlinkSync(outside, join(data, 'tls'));
    expect((await refusal(data)).why).toContain('outside the data folder');
    expect(readdirSync(outside)).toEqual([]);
  });

  it('whose writing was broken off is made again', async () => {
    const data = folder();
    mkdirSync(join(data, 'tls'), { mode: 0o700 });
    writeFileSync(join(data, 'tls/key.pem.new'), 'half a k');
    writeFileSync(join(data, 'tls/certificate.pem.new'), 'half a c');
    await opened({ data });
    expect(existsSync(join(data, 'tls/key.pem.new'))).toBe(false);
    expect(readdirSync(join(data, 'tls')).toSorted()).toEqual(['certificate.pem', 'key.pem']);
  });

  it('names one address where it listens on one alone', async () => {
    const { seen } = await opened({ data: folder(), host: '192.0.2.9' });
    expect(seen.checkIP('192.0.2.9')).toBeDefined();
    expect(seen.checkIP('192.0.2.7')).toBeUndefined();
  });
});
