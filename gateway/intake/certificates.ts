import { createHash, X509Certificate } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { OPCUACertificateManager } from 'node-opcua';

/** Our name in our own certificate. A server may refuse a client whose certificate says another one. */
export const applicationUri = 'urn:scoreline:gateway';
export const applicationName = 'Scoreline';

/** The folder with our certificate and the servers' ones: `own`, `trusted/certs`, `rejected`. */
export interface Certificates {
  readonly manager: OPCUACertificateManager;
  readonly ownFile: string;
  readonly trustedFolder: string;
  /** Our own certificate, for a person who is to trust it in the PLC, and its SHA-256. It has to have been made. */
  own(): { readonly file: string; readonly fingerprint: string };
  /** SHA-256 of the certificate that a server showed last; undefined before one did. */
  fingerprint(): string | undefined;
  /** The file in `rejected` to be moved to the trusted ones by a person who knows the fingerprint. */
  rejectedFile(): string;
}

/**
 * Opens the folder; keys and our own certificate are made where they are missing. Nothing unknown is trusted: that is
 * for a person to do, by moving a file. A new manager for every client, because closing a client closes its manager;
 * no other process may write into the folder at the same time.
 */
export async function openCertificates(folder: string): Promise<Certificates> {
  mkdirSync(folder, { recursive: true });
  const manager = new OPCUACertificateManager({
    rootFolder: folder,
    automaticallyAcceptUnknownCertificate: false,
  });
  await manager.initialize();
  let shown: Buffer | undefined;
  const check = manager.checkCertificate.bind(manager) as (...from: unknown[]) => unknown;
  const watched = (...from: unknown[]) => {
    shown = (Array.isArray(from[0]) ? from[0][0] : from[0]) as Buffer;
    return check(...from);
  };
  manager.checkCertificate = watched as typeof manager.checkCertificate;
  const ownFile = join(folder, 'own', 'certs', 'scoreline.pem');
  return {
    manager,
    ownFile,
    own: () => ({
      file: ownFile,
      fingerprint: fingerprintOf(new X509Certificate(readFileSync(ownFile)).raw),
    }),
    trustedFolder: join(folder, 'trusted', 'certs'),
    fingerprint: () => shown && fingerprintOf(shown),
    rejectedFile: () => fileOf(join(folder, 'rejected'), shown),
  };
}

/** As PLC screens write it: pairs of hexadecimal digits. */
function fingerprintOf(certificate: Buffer): string {
  const digits = createHash('sha256').update(certificate).digest('hex').toUpperCase();
  return digits.match(/../g)!.join(':');
}

/** The library names a rejected file by the SHA-1 of its certificate. */
function fileOf(folder: string, certificate: Buffer | undefined): string {
  if (!certificate) return folder;
  const digits = createHash('sha1').update(certificate).digest('hex');
  const file = readdirSync(folder).find((name) => name.toLowerCase().includes(digits));
  return file ? join(folder, file) : folder;
}
