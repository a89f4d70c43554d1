import { X509Certificate } from 'node:crypto';

/** A certificate in use, with its key. Moments in milliseconds since 1970. */
export interface Held {
  readonly key: string;
  /** As PEM text, that of this machine first. */
  readonly cert: string;
  readonly from: number;
  readonly until: number;
  /** Signed by its own key: nobody vouches for it but who compared it. */
  readonly ownSigned: boolean;
}

/** Reads what a certificate says of itself. Throws where it is none. */
export function heldOf(key: string, cert: string): Held {
  const first = new X509Certificate(cert);
  return {
    key,
    cert,
    from: Date.parse(first.validFrom),
    until: Date.parse(first.validTo),
    ownSigned: first.subject === first.issuer && first.verify(first.publicKey),
  };
}

/** SHA-256 of a certificate in groups of four hexadecimal digits, as long as each other, to be compared by eye. */
export function fingerprintOf({ cert }: Pick<Held, 'cert'>): string {
  const digits = new X509Certificate(cert).fingerprint256.replaceAll(':', '');
  return digits.match(/.{4}/g)!.join(' ');
}

/** The day of a moment in UTC, for a length of time that is told in months. */
export function dayOf(ms: number): string {
  return new Date(ms).toISOString().slice(0, 10);
}

/** What a certificate names: host names in small letters, and addresses. */
export function covers({ cert }: Pick<Held, 'cert'>, { kind, value }: Name): boolean {
  const certificate = new X509Certificate(cert);
  return kind === 'ip'
    ? certificate.checkIP(value) !== undefined
    : certificate.checkHost(value, { subject: 'never' }) !== undefined;
}

/** A name or address by which a browser may call this machine. */
export interface Name {
  readonly kind: 'dns' | 'ip';
  readonly value: string;
}
