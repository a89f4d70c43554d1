import { LineError } from '../../model/trouble/trouble.ts';
import type { Words } from '../../model/words/words.ts';
import { NamespaceMissing, NotTrusted, SecurityFailed, Unreachable } from './openingErrors.ts';

/** What a person can do about a connection that could not be opened. */
export function troubleOf(
  error: unknown,
  {
    server,
    endpoint,
    security,
  }: { readonly server: string; readonly endpoint: string; readonly security: string },
  words: Words['gateway']['intake'],
): LineError {
  if (error instanceof SecurityFailed) {
    const { shown } = error;
    if (!shown)
      return new LineError(words.notOffered(server, security), {
        why: words.notOfferedWhy,
        mend: words.notOfferedMend,
      });
    return new LineError(words.untrusted(server, shown.fingerprint ?? '?'), {
      why: words.untrustedWhy(error.message),
      mend: words.untrustedMend(shown.rejectedFile, shown.trustedFolder),
    });
  }
  if (error instanceof NotTrusted)
    return new LineError(words.notTrusted(server), {
      why: words.notTrustedWhy(error.message),
      mend: words.notTrustedMend(error.own.file, error.own.fingerprint),
    });
  if (error instanceof NamespaceMissing)
    return new LineError(words.noNamespace(server, error.message), {
      why: words.noNamespaceWhy(error.known.join(', ')),
      mend: words.noNamespaceMend,
    });
  const detail = error instanceof Error ? error.message : String(error);
  if (error instanceof Unreachable)
    return new LineError(words.unreachable(server, endpoint), {
      why: words.unreachableWhy(detail),
      mend: words.unreachableMend,
    });
  return new LineError(words.refused(server), { why: words.refusedWhy(detail), mend: words.refusedMend });
}
