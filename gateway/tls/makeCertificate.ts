import { generateKeyPairSync, createPrivateKey, createPublicKey, randomBytes, webcrypto } from 'node:crypto';
import type { Name } from './held.ts';

const DAY_MS = 86_400_000;
/** Some devices take no certificate for longer, whoever trusts it. */
export const GOOD_DAYS_MOST = 825;
/** A screen's clock may be behind so far. Milliseconds. */
const BEFORE_MS = 3_600_000;
/** The longest common name (RFC 5280, appendix A.1). */
const COMMON_NAME_MOST = 64;
const CURVE = 'P-256';

/** A private key as PEM text. */
export function makeKey(): string {
  const { privateKey } = generateKeyPairSync('ec', { namedCurve: CURVE });
  return privateKey.export({ type: 'pkcs8', format: 'pem' }).toString();
}

/**
 * A certificate that is signed by its own key, for a server of these names and nothing else: it can vouch for no other
 * (RFC 5280). Good from an hour ago on.
 */
export async function makeCertificate(key: string, names: readonly Name[], now: number): Promise<string> {
  // the library stands on this, and it takes its time to load: only where a certificate is made
  await import('reflect-metadata');
  const x509 = await import('@peculiar/x509');
  const first = names.find(({ kind }) => kind === 'dns')?.value ?? '';
  const from = now - BEFORE_MS;
  const certificate = await x509.X509CertificateGenerator.createSelfSigned({
    serialNumber: serialNumber(),
    name: [{ CN: [`Scoreline ${first}`.trim().slice(0, COMMON_NAME_MOST)] }],
    notBefore: new Date(from),
    notAfter: new Date(from + GOOD_DAYS_MOST * DAY_MS - 1000),
    keys: await importedKeys(key),
    signingAlgorithm: { name: 'ECDSA', hash: 'SHA-256' },
    extensions: [
      new x509.BasicConstraintsExtension(false, undefined, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.digitalSignature, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      new x509.SubjectAlternativeNameExtension(names.map(({ kind, value }) => ({ type: kind, value }))),
    ],
  });
  return `${certificate.toString('pem').trim()}\n`;
}

/** Not to be guessed, and a positive number (RFC 5280, 4.1.2.2). */
function serialNumber(): string {
  const bytes = randomBytes(16);
  bytes[0] = (bytes[0]! & 0x3f) | 0x40;
  return bytes.toString('hex');
}

async function importedKeys(pem: string): Promise<CryptoKeyPair> {
  const { subtle } = webcrypto;
  const kind = { name: 'ECDSA', namedCurve: CURVE };
  const secret = createPrivateKey(pem);
  const open = createPublicKey(secret);
  const [privateKey, publicKey] = await Promise.all([
    subtle.importKey('pkcs8', secret.export({ type: 'pkcs8', format: 'der' }), kind, false, ['sign']),
    subtle.importKey('spki', open.export({ type: 'spki', format: 'der' }), kind, true, ['verify']),
  ]);
  return { privateKey, publicKey } as CryptoKeyPair;
}
