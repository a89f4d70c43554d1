import { crc32, inflateRawSync } from 'node:zlib';

/** What is in a ZIP file, by its list at the end, with checksums checked. */
export function unzipped(zip: Buffer): ReadonlyMap<string, Buffer> {
  const end = zip.lastIndexOf(Buffer.from([0x50, 0x4b, 5, 6]));
  const files = new Map<string, Buffer>();
  let at = zip.readUInt32LE(end + 16);
  for (let left = zip.readUInt16LE(end + 10); left > 0; left -= 1) {
    const [method, crc, packed, length] = [
      zip.readUInt16LE(at + 10),
      zip.readUInt32LE(at + 16),
      zip.readUInt32LE(at + 20),
      zip.readUInt32LE(at + 24),
    ];
    const nameLength = zip.readUInt16LE(at + 28);
    const name = zip.toString('utf8', at + 46, at + 46 + nameLength);
    const local = zip.readUInt32LE(at + 42);
    const from = local + 30 + zip.readUInt16LE(local + 26) + zip.readUInt16LE(local + 28);
    const stored = zip.subarray(from, from + packed);
    const bytes = method === 8 ? inflateRawSync(stored) : stored;
    if (bytes.length !== length || crc32(bytes) !== crc)
      throw new Error(`${name} in the ZIP file is damaged`);
    files.set(name, bytes);
    at += 46 + nameLength;
  }
  return files;
}
