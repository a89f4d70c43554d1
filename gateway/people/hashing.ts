import { randomBytes, scrypt, timingSafeEqual } from 'node:crypto';

/** What one hash costs (RFC 7914): 128 × cost × block bytes of memory, `parallel` times after one another. */
export interface HashCost {
  readonly cost: number;
  readonly block: number;
  readonly parallel: number;
}

/** 32 MiB and about a quarter of a second on a small machine. */
export const HASH_COST: HashCost = { cost: 2 ** 15, block: 8, parallel: 3 };

const SALT_BYTES = 16;
const HASH_BYTES = 32;

/** A secret as it is kept: its parameters, a salt of its own, and the hash. */
export async function hashSecret(secret: string, cost: HashCost): Promise<string> {
  const salt = randomBytes(SALT_BYTES);
  const hash = await derived(secret, salt, cost);
  return ['scrypt', cost.cost, cost.block, cost.parallel, coded(salt), coded(hash)].join('$');
}

/** Whether a secret is the one that is kept; compared in constant time. */
export async function isSecret(secret: string, kept: string): Promise<boolean> {
  const { cost, salt, hash } = parsed(kept);
  return timingSafeEqual(await derived(secret, salt, cost), hash);
}

/** Whether it was hashed at another cost than is wanted now. */
export function isOfOtherCost(kept: string, wanted: HashCost): boolean {
  const { cost } = parsed(kept);
  return cost.cost !== wanted.cost || cost.block !== wanted.block || cost.parallel !== wanted.parallel;
}

function parsed(kept: string): { readonly cost: HashCost; readonly salt: Buffer; readonly hash: Buffer } {
  const [, cost, block, parallel, salt = '', hash = ''] = kept.split('$');
  return {
    cost: { cost: Number(cost), block: Number(block), parallel: Number(parallel) },
    salt: Buffer.from(salt, 'base64url'),
    hash: Buffer.from(hash, 'base64url'),
  };
}

/** The same characters, however a keyboard put them together, are the same secret. */
function derived(secret: string, salt: Buffer, { cost, block, parallel }: HashCost): Promise<Buffer> {
  const options = { N: cost, r: block, p: parallel, maxmem: 2 * 128 * cost * block + 1024 * 1024 };
  return new Promise((resolve, reject) => {
    scrypt(secret.normalize('NFKC'), salt, HASH_BYTES, options, (error, hash) => {
      if (error) reject(error);
      else resolve(hash);
    });
  });
}

function coded(bytes: Buffer): string {
  return bytes.toString('base64url');
}
