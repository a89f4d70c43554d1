/** Why a connection was not opened; intake turns it into words for people. */
export type OpeningError = Unreachable | SecurityFailed | NamespaceMissing;

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
