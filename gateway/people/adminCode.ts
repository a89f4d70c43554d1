import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';
import { z } from 'zod';
import type { Kept } from './settings.ts';

/** A code that was not used by then is none. */
export const ADMIN_CODE_MS = 24 * 3_600_000;
/** Digits and letters that are not taken for one another. 80 bits. */
const SYMBOLS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
const LENGTH = 16;

/** Makes a code that makes one person an admin, once; the one before is none any more. Only its hash is kept. */
export function makeAdminCode(kept: Kept, now: number): string {
  const code = [...randomBytes(LENGTH)].map((byte) => SYMBOLS[byte % SYMBOLS.length]).join('');
  kept.put(
    'adminCode',
    JSON.stringify({ hash: hashOf(code).toString('base64url'), until: now + ADMIN_CODE_MS }),
  );
  return code.replace(/(.{4})(?=.)/g, '$1-');
}

/** Whether it is the code that goes, as a person types it: large or small, with or without its dashes. */
export function isAdminCode(kept: Kept, typed: string, now: number): boolean {
  const stored = kept.get('adminCode');
  const { hash, until } = stored === undefined ? NONE : shape.parse(JSON.parse(stored));
  const same = timingSafeEqual(hashOf(typed), Buffer.from(hash, 'base64url'));
  return same && now < until;
}

export function dropAdminCode(kept: Kept): void {
  kept.drop('adminCode');
}

const shape = z.object({ hash: z.string(), until: z.number() });
const NONE = { hash: Buffer.alloc(32).toString('base64url'), until: 0 };

function hashOf(code: string): Buffer {
  const plain = code
    .toUpperCase()
    .replaceAll('O', '0')
    .replaceAll(/[IL]/g, '1')
    .replaceAll(/[^0-9A-Z]/g, '');
  return createHash('sha256').update(plain).digest();
}
