import { once } from 'node:events';
import { type FileHandle, open } from 'node:fs/promises';
import { crc32, createDeflateRaw } from 'node:zlib';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { onFileLong } from '../backup/onFile.ts';
import type { Parcel } from './export.ts';
import type { Sink } from './tableFile.ts';

const words = wordsIn('en').exporting;

/* The ZIP format (PKWARE's APPNOTE.TXT 6.3, from memory), without its extension for 4 GB and more. */
const LOCAL = 0x04034b50;
const CENTRAL = 0x02014b50;
const END = 0x06054b50;
const AFTER = 0x08074b50;
/** Lengths and checksum stand after the content (bit 3), and names are UTF-8 (bit 11). */
const FLAGS = 0x0808;
/** Version 2.0 of the format. */
const VERSION = 20;
const STORED = 0;
const DEFLATED = 8;
/** Bytes of one file in it, unpacked: its length has four bytes. */
const LARGEST = 2 ** 32 - 1;

interface Entry {
  readonly name: Buffer;
  readonly at: number;
  readonly method: number;
  crc: number;
  packed: number;
  bytes: number;
}

/** One ZIP file, written from beginning to end: text deflated, Parquet as it is, since that is packed already. */
export class ZipParcel implements Parcel {
  private readonly path: string;
  private readonly out: FileHandle;
  private readonly most: number;
  private readonly time: Buffer;
  private readonly entries: Entry[] = [];
  bytes = 0;

  private constructor(path: string, out: FileHandle, { now, most }: { now: number; most: number }) {
    this.path = path;
    this.out = out;
    this.most = most;
    this.time = dosTime(now);
  }

  /** `most`: bytes that it may have. `now`: milliseconds since 1970, for the files' times. */
  static async open(path: string, wish: { readonly now: number; readonly most: number }): Promise<ZipParcel> {
    return new ZipParcel(path, await onFileLong(path, () => open(path, 'wx', 0o600)), wish);
  }

  async file(name: string, write: (sink: Sink) => Promise<void>): Promise<void> {
    const method = name.endsWith('.parquet') ? STORED : DEFLATED;
    const entry: Entry = { name: Buffer.from(name), at: this.bytes, method, crc: 0, packed: 0, bytes: 0 };
    this.entries.push(entry);
    await this.put(numbers([LOCAL, 4], [VERSION, 2], [FLAGS, 2], [method, 2]), this.time);
    await this.put(numbers([0, 4], [0, 4], [0, 4], [entry.name.length, 2], [0, 2]), entry.name);
    const pack = method === STORED ? this.storing(entry) : this.deflating(entry);
    try {
      await write(async (bytes) => {
        entry.crc = crc32(bytes, entry.crc);
        entry.bytes += bytes.length;
        this.refuseBeyond(entry.bytes, LARGEST);
        await pack.add(bytes);
      });
      await pack.end();
    } finally {
      pack.drop();
    }
    await this.put(numbers([AFTER, 4], [entry.crc, 4], [entry.packed, 4], [entry.bytes, 4]));
  }

  /** Writes the list of what is in it: it is whole then. */
  async finish(): Promise<void> {
    const at = this.bytes;
    for (const { name, at: begin, method, crc, packed, bytes } of this.entries) {
      await this.put(numbers([CENTRAL, 4], [VERSION, 2], [VERSION, 2], [FLAGS, 2], [method, 2]), this.time);
      await this.put(numbers([crc, 4], [packed, 4], [bytes, 4], [name.length, 2], [0, 2], [0, 2]));
      await this.put(numbers([0, 2], [0, 2], [0, 4], [begin, 4]), name);
    }
    const { length } = this.entries;
    const size = this.bytes - at;
    await this.put(numbers([END, 4], [0, 2], [0, 2], [length, 2], [length, 2], [size, 4], [at, 4], [0, 2]));
    await onFileLong(this.path, () => this.out.sync());
  }

  async close(): Promise<void> {
    await this.out.close();
  }

  private refuseBeyond(bytes: number, most: number): void {
    if (bytes > most)
      throw new LineError(words.tooLarge, { why: words.tooLargeWhy(most), mend: words.tooLargeMend });
  }

  private storing(entry: Entry) {
    return {
      add: async (bytes: Uint8Array) => {
        entry.packed += bytes.length;
        await this.put(bytes);
      },
      end: async () => {},
      drop: () => {},
    };
  }

  private deflating(entry: Entry) {
    const deflate = createDeflateRaw({ level: 6 });
    let made: Buffer[] = [];
    deflate.on('data', (bytes: Buffer) => void made.push(bytes));
    const write = async () => {
      const ready = made;
      made = [];
      for (const bytes of ready) {
        entry.packed += bytes.length;
        await this.put(bytes);
      }
    };
    return {
      add: async (bytes: Uint8Array) => {
        await new Promise<void>((resolve, reject) =>
          deflate.write(bytes, (error) => (error ? reject(error) : resolve())),
        );
        await write();
      },
      end: async () => {
        const ended = once(deflate, 'end');
        deflate.end();
        await ended;
        await write();
      },
      drop: () => void deflate.destroy(),
    };
  }

  private async put(...pieces: readonly Uint8Array[]): Promise<void> {
    for (const piece of pieces) {
      this.bytes += piece.length;
      this.refuseBeyond(this.bytes, this.most);
      await onFileLong(this.path, () => this.out.writeFile(piece));
    }
  }
}

/** Whole numbers, each in so many bytes, least first. */
function numbers(...values: readonly (readonly [value: number, bytes: 2 | 4])[]): Buffer {
  const out = Buffer.alloc(values.reduce((sum, [, bytes]) => sum + bytes, 0));
  let at = 0;
  for (const [value, bytes] of values) at = out.writeUIntLE(value, at, bytes);
  return out;
}

/** To two seconds; the format has no zone, so it is UTC. */
function dosTime(ms: number): Buffer {
  const at = new Date(ms);
  const time = (at.getUTCHours() << 11) | (at.getUTCMinutes() << 5) | (at.getUTCSeconds() >> 1);
  const date = ((at.getUTCFullYear() - 1980) << 9) | ((at.getUTCMonth() + 1) << 5) | at.getUTCDate();
  return numbers([time, 2], [date, 2]);
}
