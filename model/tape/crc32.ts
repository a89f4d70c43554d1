/** CRC-32 as in ISO 3309, reflected, polynomial 0xEDB88320: the checksum of a blob. */
const table = new Int32Array(256).map((_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit += 1) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  return rest;
});

/** The checksum of a stretch of bytes, 0 to 4,294,967,295; of the ASCII text `123456789` it is 0xCBF43926. */
export function crc32(bytes: Uint8Array): number {
  let rest = -1;
  for (let place = 0; place < bytes.length; place += 1) {
    rest = (rest >>> 8) ^ table[(rest ^ bytes[place]!) & 0xff]!;
  }
  return ~rest >>> 0;
}
