import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { open, rm } from 'node:fs/promises';
import { onFileLong } from './onFile.ts';

/** What a file holds, as a number, and how much it is. */
export interface Held {
  readonly bytes: number;
  readonly sha256: string;
}

const PIECE = 1 << 20;

/** SHA-256 of a file. `read`: told how many bytes of it were read since the last word. */
export async function heldIn(
  file: string,
  stopping: AbortSignal,
  read: (bytes: number) => void = () => {},
): Promise<Held> {
  return onFileLong(file, async () => {
    const hash = createHash('sha256');
    let bytes = 0;
    for await (const piece of createReadStream(file, { highWaterMark: PIECE }) as AsyncIterable<Buffer>) {
      stopping.throwIfAborted();
      hash.update(piece);
      bytes += piece.length;
      read(piece.length);
    }
    return { bytes, sha256: hash.digest('hex') };
  });
}

/** Copies a file so that it outlasts a loss of power, readable by this user alone; what is there already is replaced. */
export async function copyOf(
  source: string,
  target: string,
  stopping: AbortSignal,
  copied: (bytes: number) => void = () => {},
): Promise<void> {
  await onFileLong(target, () => rm(target, { force: true }));
  const out = await onFileLong(target, () => open(target, 'wx', 0o600));
  try {
    const pieces = createReadStream(source, { highWaterMark: PIECE }) as AsyncIterable<Buffer>;
    await onFileLong(source, async () => {
      for await (const piece of pieces) {
        stopping.throwIfAborted();
        await onFileLong(target, () => out.writeFile(piece));
        copied(piece.length);
      }
    });
    await onFileLong(target, () => out.sync());
  } finally {
    await out.close();
  }
}
