import type { Certificates } from './certificates.ts';

/** Why a connection was not opened; intake turns it into words for people. */
export type OpeningError = Unreachable | SecurityFailed | NotTrusted | NamespaceMissing;

/** Nothing answers, or it answered that it will not. */
export class Unreachable extends Error {
  override readonly name = 'Unreachable';
}

/** Where a person finds what the server showed. */
export interface ShownCertificate {
  readonly fingerprint: string | undefined;
  readonly rejectedFile: string;
  readonly trustedFolder: string;
}

/** The server's certificate is not trusted, or it does not offer the security asked for. Nothing weaker is tried. */
export class SecurityFailed extends Error {
  override readonly name = 'SecurityFailed';
  readonly shown: ShownCertificate | undefined;

  constructor(status: string, shown?: ShownCertificate) {
    super(status);
    this.shown = shown;
  }
}

/** The server lacks the namespace in which the tags should be. */
export class NamespaceMissing extends Error {
  override readonly name = 'NamespaceMissing';
  readonly known: readonly string[];

  constructor(namespace: string, known: readonly string[]) {
    super(namespace);
    this.known = known;
  }
}

/** The server does not trust our own certificate. */
export class NotTrusted extends Error {
  override readonly name = 'NotTrusted';
  readonly own: { readonly file: string; readonly fingerprint: string };

  constructor(status: string, own: { readonly file: string; readonly fingerprint: string }) {
    super(status);
    this.own = own;
  }
}

/** What the library's words mean when no connection came about. */
export function whyNotOpen(error: unknown, certificates: Certificates): OpeningError {
  const detail = detailOf(error);
  const certificate = /verification failed.*?(BadC\w+|BadS\w+)/s.exec(detail)?.[1];
  if (certificate) {
    return new SecurityFailed(certificate, {
      fingerprint: certificates.fingerprint(),
      rejectedFile: certificates.rejectedFile(),
      trustedFolder: certificates.trustedFolder,
    });
  }
  if (/cannot find (an )?endpoint/i.test(detail)) return new SecurityFailed('notOffered');
  return whyNotTrusted(error, certificates) ?? new Unreachable(detail.split('\n')[0]!);
}

/** What a server answers to whom it does not trust: some say only that a check of theirs failed. Else undefined. */
export function whyNotTrusted(error: unknown, certificates: Certificates): NotTrusted | undefined {
  const status = /Bad(SecurityChecksFailed|Certificate\w+)/.exec(detailOf(error))?.[0];
  return status === undefined ? undefined : new NotTrusted(status, certificates.own());
}

function detailOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
