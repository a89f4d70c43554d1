import { KeyObject, webcrypto } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { Name } from '../../../gateway/tls/held.ts';
import { makeCertificate, makeKey } from '../../../gateway/tls/makeCertificate.ts';
import type { Machine } from '../../../gateway/tls/names.ts';

export const machine: Machine = { name: 'cell3.plant.example', addresses: ['192.0.2.7', '2001:db8::7'] };
export const NOW = Date.UTC(2026, 2, 16, 5);
export const DAY = 86_400_000;

/** An empty folder, deleted when its test is over. */
export function folder(): string {
  const made = mkdtempSync(join(tmpdir(), 'scoreline-tls-'));
  onTestFinished(() => rmSync(made, { recursive: true, force: true }));
  return made;
}

/** A gateway's voices, and what they said. */
export function voices() {
  const said: string[] = [];
  const warned: string[] = [];
  const log = { info: () => {}, warn: (what: unknown) => void warned.push(String(what)) };
  return { said, warned, log, say: (text: string) => void said.push(text) };
}

export interface Files {
  readonly key: string;
  readonly certificate: string;
}

const LOCAL: readonly Name[] = [
  { kind: 'dns', value: 'localhost' },
  { kind: 'ip', value: '127.0.0.1' },
];

/** A key and certificate as a plant would give them, in files of a folder. */
export async function writeGiven(
  into: string,
  { names = LOCAL, made = NOW }: { names?: readonly Name[]; made?: number } = {},
): Promise<Files> {
  const key = makeKey();
  const files = { key: join(into, 'plant.key'), certificate: join(into, 'plant.pem') };
  writeFileSync(files.key, key, { mode: 0o600 });
  writeFileSync(files.certificate, await makeCertificate(key, names, made));
  return files;
}

/** A certificate that was good enough thirty years ago: for an RSA key of 512 bits. */
export async function writeShort(into: string): Promise<Files> {
  await import('reflect-metadata');
  const x509 = await import('@peculiar/x509');
  const kind = { name: 'RSASSA-PKCS1-v1_5', hash: 'SHA-256' };
  const keys = (await webcrypto.subtle.generateKey(
    { ...kind, modulusLength: 512, publicExponent: new Uint8Array([1, 0, 1]) },
    true,
    ['sign', 'verify'],
  )) as CryptoKeyPair;
  const certificate = await x509.X509CertificateGenerator.createSelfSigned({
    name: 'CN=localhost',
    notBefore: new Date(NOW - DAY),
    notAfter: new Date(NOW + DAY),
    ...{ keys, signingAlgorithm: kind },
  });
  const files = { key: join(into, 'short.key'), certificate: join(into, 'short.pem') };
  const key = KeyObject.from(keys.privateKey as webcrypto.CryptoKey);
  writeFileSync(files.key, key.export({ type: 'pkcs8', format: 'pem' }));
  writeFileSync(files.certificate, certificate.toString('pem'));
  return files;
}
