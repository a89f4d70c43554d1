import type { NextFunction, Request, Response } from 'express';
import { z } from 'zod';
import { wordsIn } from '../../model/words/words.ts';
import { answer } from '../api/openApiParts.ts';
import { notAllowed } from '../people/refusals.ts';
import type { Entrance } from './entrance.ts';

const words = wordsIn('en').gateway.tls;
/** For so long a browser comes by HTTPS alone: long enough to be worth it, short enough to go back. Seconds. */
const STRICT_SECONDS = 180 * 86_400;

/** Refuses what did not come the way it was to come, and tells browsers to keep to it (RFC 6797). */
export function guard(entrance: Entrance) {
  return (request: Request, response: Response, next: NextFunction): void => {
    const { encrypted, refused } = entrance.came(request);
    if (refused !== undefined) throw notAllowed(words[refused]);
    if (encrypted && entrance.strict())
      response.set('Strict-Transport-Security', `max-age=${STRICT_SECONDS}`);
    next();
  };
}

/** What a screen has to know of the way that it is reached. */
export const encryptionAnswer = z.strictObject({
  /** It is served in clear text beyond the gateway's own machine, and has to say so. */
  clearText: z.boolean(),
  by: z.enum(['own', 'files', 'proxy']).nullable(),
  /** Null where the gateway itself has no certificate. */
  certificateUntil: z.number().nullable(),
});

export function encryptionOf({ clearText, by, until }: Entrance): z.infer<typeof encryptionAnswer> {
  return { clearText, by: by ?? null, certificateUntil: until() ?? null };
}

export function encryptionPaths(): Readonly<Record<string, unknown>> {
  return { '/api/encryption': { get: answer(words.describe, encryptionAnswer) } };
}
