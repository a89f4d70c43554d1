import { createECDH } from 'node:crypto';
import { isIP } from 'node:net';
import { z } from 'zod';
import { wordsIn } from '../../../model/words/words.ts';

const words = wordsIn('en').push;
const HOST = /^(?=.{1,253}$)[a-z0-9]([a-z0-9-]*[a-z0-9])?(\.[a-z0-9]([a-z0-9-]*[a-z0-9])?)*$/;

/** Web push in the file of ways. */
export const pushPart = z.strictObject({
  /** By which a push service reaches who runs this gateway (RFC 8292, 2.1). */
  subject: z
    .string()
    .max(500)
    .refine(
      (text) => /^mailto:[^\s@<>,;]+@[A-Za-z0-9.-]+$/.test(text) || /^https:\/\/[^\s/]+/.test(text),
      words.subject,
    ),
  /** Host names of push services, each with what stands below it; any on the internet where none is named. */
  services: z
    .array(z.string().refine((text) => HOST.test(text), words.service))
    .max(20)
    .default([]),
});
export type PushSettings = z.infer<typeof pushPart>;

/**
 * Whether the gateway may send there. Who is logged in names the address: so it leads to a push service that was named,
 * or at least by HTTPS to a host name that is none of one’s own network alone.
 */
export function isServed(endpoint: string, { services }: PushSettings): boolean {
  if (!URL.canParse(endpoint)) return false;
  const { protocol, username, password, hostname } = new URL(endpoint);
  if (protocol !== 'https:' || username !== '' || password !== '') return false;
  if (services.length > 0)
    return services.some((service) => hostname === service || hostname.endsWith(`.${service}`));
  const isAddress = isIP(hostname) !== 0 || hostname.startsWith('[');
  return (
    hostname.includes('.') && !isAddress && !/\.(local|localhost|internal|lan|home\.arpa)$/.test(hostname)
  );
}

/** Whether these are a point of the curve and a secret as web push encrypts with (RFC 8291, 2 and 3.2). */
export function areKeys({ p256dh, auth }: { readonly p256dh: string; readonly auth: string }): boolean {
  if (Buffer.from(auth, 'base64url').length !== 16) return false;
  const ours = createECDH('prime256v1');
  ours.generateKeys();
  try {
    ours.computeSecret(Buffer.from(p256dh, 'base64url'));
    return true;
  } catch {
    return false; // what is no point of the curve is refused by the library in words of its own
  }
}
