import { damagedBlob } from './damage.ts';

/**
 * A growing run of bytes. Whole numbers are written seven bits at a time, the lowest first; signed ones are folded
 * onto the even and odd numbers, so that small ones of either sign take one byte.
 */
export class ByteWriter {
  private bytes = new Uint8Array(256);
  private view = new DataView(this.bytes.buffer);
  length = 0;

  byte(value: number): void {
    this.room(1);
    this.bytes[this.length++] = value;
  }

  /** A whole number from 0 to 2^53. */
  count(value: number): void {
    this.room(8);
    let rest = value;
    while (rest >= 0x80000000) {
      const low = rest % 128;
      this.bytes[this.length++] = low | 0x80;
      rest = (rest - low) / 128;
    }
    while (rest >= 0x80) {
      this.bytes[this.length++] = (rest & 0x7f) | 0x80;
      rest >>>= 7;
    }
    this.bytes[this.length++] = rest;
  }

  /** A whole number between -2^52 and 2^52; minus zero becomes zero. */
  signed(value: number): void {
    this.count(value < 0 ? -2 * value - 1 : 2 * value);
  }

  single(value: number): void {
    this.room(4);
    this.view.setFloat32(this.length, value, true);
    this.length += 4;
  }

  double(value: number): void {
    this.room(8);
    this.view.setFloat64(this.length, value, true);
    this.length += 8;
  }

  fixed32(value: number): void {
    this.room(4);
    this.view.setUint32(this.length, value, true);
    this.length += 4;
  }

  /** UTF-16 code units, so that any string comes back as it was, lone surrogates too. */
  text(value: string): void {
    this.count(value.length);
    for (let place = 0; place < value.length; place += 1) this.count(value.charCodeAt(place));
  }

  /** So many bytes for the caller to fill, before the next write. */
  take(length: number): Uint8Array {
    this.room(length);
    this.length += length;
    return this.bytes.subarray(this.length - length, this.length);
  }

  /** What was written so far; valid until the next write. */
  written(): Uint8Array {
    return this.bytes.subarray(0, this.length);
  }

  private room(more: number): void {
    if (this.length + more <= this.bytes.length) return;
    const grown = new Uint8Array(Math.max(this.bytes.length * 2, this.length + more));
    grown.set(this.bytes.subarray(0, this.length));
    this.bytes = grown;
    this.view = new DataView(grown.buffer);
  }
}

/** Reads what a `ByteWriter` wrote. Reading beyond the end is damage, never a made-up number. */
export class ByteReader {
  private readonly bytes: Uint8Array;
  private readonly view: DataView;
  private at = 0;

  constructor(bytes: Uint8Array) {
    this.bytes = bytes;
    this.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  }

  byte(): number {
    return this.bytes[this.take(1)]!;
  }

  count(): number {
    let value = 0;
    for (let shift = 0; shift < 28; shift += 7) {
      const byte = this.byte();
      value |= (byte & 0x7f) << shift;
      if (byte < 0x80) return value;
    }
    for (let scale = 268435456; scale <= 2 ** 49; scale *= 128) {
      const byte = this.byte();
      value += (byte & 0x7f) * scale;
      if (byte < 0x80) return value;
    }
    throw damagedBlob();
  }

  signed(): number {
    const folded = this.count();
    return folded % 2 === 0 ? folded / 2 : -(folded + 1) / 2;
  }

  single(): number {
    return this.view.getFloat32(this.take(4), true);
  }

  double(): number {
    return this.view.getFloat64(this.take(8), true);
  }

  fixed32(): number {
    return this.view.getUint32(this.take(4), true);
  }

  text(): string {
    const length = this.count();
    const parts: string[] = [];
    for (let read = 0; read < length; read += 4096) {
      const units = Array.from({ length: Math.min(4096, length - read) }, () => this.count());
      parts.push(String.fromCharCode(...units));
    }
    return parts.join('');
  }

  /** Bytes that their number leads. */
  part(): ByteReader {
    return new ByteReader(this.bytesOf(this.count()));
  }

  /** The next bytes, so many. */
  bytesOf(length: number): Uint8Array {
    const from = this.take(length);
    return this.bytes.subarray(from, from + length);
  }

  /** How many bytes are left. */
  left(): number {
    return this.bytes.length - this.at;
  }

  private take(length: number): number {
    const from = this.at;
    if (from + length > this.bytes.length) throw damagedBlob();
    this.at = from + length;
    return from;
  }
}
