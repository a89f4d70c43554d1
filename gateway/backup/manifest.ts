import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { onFile } from './onFile.ts';

const words = wordsIn('en').gateway.backup;

/** The file of a backup that says what is in it. */
export const MANIFEST = 'backup.json';
const KIND = 'scoreline backup';
const FORMAT = 1;

const hash = z.string().regex(/^[0-9a-f]{64}$/);
/** A path below the folder, whoever wrote it. */
const name = z
  .string()
  .max(300)
  .refine(
    (text) => !/[\\:\0]/.test(text) && text.split('/').every((part) => !['', '.', '..'].includes(part)),
  );

const content = z.strictObject({
  kind: z.literal(KIND),
  format: z.literal(FORMAT),
  /** ISO 8601. */
  made: z.iso.datetime(),
  modelVersion: z.string().max(100),
  /** Whether keys and certificates are in it. */
  keys: z.boolean(),
  files: z.array(z.strictObject({ name, bytes: z.number().int().min(0), sha256: hash })),
  /** What the tape holds of each line: positions, and the hash of its changes. */
  lines: z.array(
    z.strictObject({
      id: z.string(),
      begin: z.number().int(),
      end: z.number().int(),
      /** Changes that were damaged on the disk already. */
      unread: z.number().int(),
      sha256: hash,
    }),
  ),
  /** What lay in the data folder and is not in it. */
  leftOut: z.array(z.string()),
});
export type BackupContent = z.infer<typeof content>;
export type BackupFile = BackupContent['files'][number];
export type BackupLine = BackupContent['lines'][number];

export function manifestOf(parts: Omit<BackupContent, 'kind' | 'format'>): BackupContent {
  return { kind: KIND, format: FORMAT, ...parts };
}

/** Its own hash stands beside what it says, so that damage to it is found as well. */
export function writeManifest(folder: string, backup: BackupContent): void {
  const file = join(folder, MANIFEST);
  const text = `${JSON.stringify({ backup, sha256: sumOf(backup) }, undefined, 2)}\n`;
  onFile(file, () => writeFileSync(file, text, { mode: 0o600, flush: true }));
}

export function readManifest(folder: string): BackupContent {
  const file = join(folder, MANIFEST);
  const text = onFile(file, () => readFileSync(file, 'utf8'), words.noBackup(folder));
  const read = z.strictObject({ backup: content, sha256: hash }).safeParse(jsonOf(text));
  if (read.success && sumOf(read.data.backup) === read.data.sha256) return read.data.backup;
  const newer = z
    .object({ backup: z.object({ kind: z.literal(KIND), format: z.number().min(FORMAT + 1) }) })
    .safeParse(jsonOf(text)).success;
  if (newer) throw new LineError(words.newer(file), { why: words.newerWhy, mend: words.newerMend });
  throw new LineError(words.damaged([file]), { why: words.damagedWhy, mend: words.damagedMend });
}

function sumOf(backup: BackupContent): string {
  return createHash('sha256').update(JSON.stringify(backup)).digest('hex');
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined; // told as damage by whoever asked
  }
}
