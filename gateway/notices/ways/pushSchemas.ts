import { z } from 'zod';
import { wordsIn } from '../../../model/words/words.ts';
import { answer, inPath, json } from '../../api/openApiParts.ts';

const words = wordsIn('en').push.describe;
const base64url = z.string().regex(/^[\w-]{1,200}=?=?$/);

/** A subscription as a browser tells it (Push API). */
export const subscriptionBody = z.strictObject({
  endpoint: z.string().max(2000),
  /** Browsers say it, and none of them keeps to it. */
  expirationTime: z.number().nullable().optional(),
  keys: z.strictObject({ p256dh: base64url, auth: base64url }),
});

export const pushAnswer = z.strictObject({
  /** Whether push is set up here. */
  running: z.boolean(),
  /** The public key to subscribe with, in base64url; null where it is not set up. */
  key: z.string().nullable(),
  /** Browsers of who is logged in; `id` is the SHA-256 of the address that the push service gave. Null for nobody. */
  own: z.array(z.strictObject({ id: z.string(), since: z.number() })).nullable(),
});
export type PushAnswer = z.infer<typeof pushAnswer>;

export const addedAnswer = z.strictObject({ ok: z.literal(true), id: z.string() });
const doneAnswer = z.strictObject({ ok: z.literal(true) });

export function pushPaths(): Readonly<Record<string, unknown>> {
  return {
    '/api/notices/push': {
      get: answer(words.state, pushAnswer),
      post: {
        ...answer(words.add, addedAnswer, '201'),
        requestBody: { required: true, content: json(subscriptionBody) },
      },
    },
    '/api/notices/push/{id}': {
      delete: { ...answer(words.remove, doneAnswer), parameters: [inPath('id')] },
    },
  };
}
