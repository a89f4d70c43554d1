/** Trouble that a person can mend: what happened, why, and how to mend it, each a whole sentence. */
export class LineError extends Error {
  override readonly name = 'LineError';
  readonly why: string;
  readonly mend: string;

  constructor(what: string, { why, mend }: { readonly why: string; readonly mend: string }) {
    super(what);
    this.why = why;
    this.mend = mend;
  }
}

/** Ends the process at a mistake of our own: a state that the code itself must never reach. */
export function assert(condition: unknown, mistake: string): asserts condition {
  if (!condition) throw new Error(`Mistake in Scoreline: ${mistake}`);
}
