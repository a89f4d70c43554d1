/** CRC-32 as in ISO 3309, reflected, polynomial 0xEDB88320: the checksum of a blob. Four bytes at a step, by four tables. */
const tables = Array.from({ length: 4 }, () => new Int32Array(256));
const [first, second, third, fourth] = tables as [Int32Array, Int32Array, Int32Array, Int32Array];
for (let byte = 0; byte < 256; byte += 1) {
  let rest = byte;
  for (let bit = 0; bit < 8; bit += 1) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  first[byte] = rest;
}
for (let table = 1; table < 4; table += 1)
  for (let byte = 0; byte < 256; byte += 1) {
    const before = tables[table - 1]![byte]!;
    tables[table]![byte] = (before >>> 8) ^ first[before & 0xff]!;
  }

/** The checksum of a stretch of bytes, 0 to 4,294,967,295; of the ASCII text `123456789` it is 0xCBF43926. */
export function crc32(bytes: Uint8Array): number {
  let rest = -1;
  let place = 0;
  for (; place + 4 <= bytes.length; place += 4) {
    rest ^= bytes[place]! | (bytes[place + 1]! << 8) | (bytes[place + 2]! << 16) | (bytes[place + 3]! << 24);
    rest =
      fourth[rest & 0xff]! ^
      third[(rest >>> 8) & 0xff]! ^
      second[(rest >>> 16) & 0xff]! ^
      first[rest >>> 24]!;
  }
  for (; place < bytes.length; place += 1) rest = (rest >>> 8) ^ first[(rest ^ bytes[place]!) & 0xff]!;
  return ~rest >>> 0;
}
