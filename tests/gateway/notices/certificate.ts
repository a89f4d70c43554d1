import { generateKeyPairSync, sign } from 'node:crypto';

export interface Certificate {
  readonly key: string;
  readonly cert: string;
}

/** A certificate that nobody but a test has ever trusted, signed by itself, for a name or an IPv4 address (RFC 5280). */
export function certificateFor(name: string): Certificate {
  const { privateKey, publicKey } = generateKeyPairSync('ec', { namedCurve: 'prime256v1' });
  const subject = der(0x30, der(0x31, der(0x30, oid(2, 5, 4, 3), der(0x0c, Buffer.from(name)))));
  const algorithm = der(0x30, oid(1, 2, 840, 10045, 4, 3, 2)); // ECDSA with SHA-256
  const octets = name.split('.').map(Number);
  const isAddress = octets.every((one) => Number.isInteger(one));
  const alternative = isAddress ? der(0x87, Buffer.from(octets)) : der(0x82, Buffer.from(name));
  const extension = der(0x30, oid(2, 5, 29, 17), der(0x04, der(0x30, alternative)));
  const body = der(
    0x30,
    der(0xa0, der(0x02, Buffer.from([2]))), // version 3
    der(0x02, Buffer.from([1])),
    algorithm,
    subject,
    der(0x30, der(0x17, Buffer.from('200101000000Z')), der(0x17, Buffer.from('491231235959Z'))),
    subject,
    publicKey.export({ type: 'spki', format: 'der' }),
    der(0xa3, der(0x30, extension)),
  );
  const whole = der(0x30, body, algorithm, bits(sign('sha256', body, privateKey)));
  const lines = whole.toString('base64').match(/.{1,64}/g)!;
  return {
    key: privateKey.export({ type: 'pkcs8', format: 'pem' }).toString(),
    cert: ['-----BEGIN CERTIFICATE-----', ...lines, '-----END CERTIFICATE-----', ''].join('\n'),
  };
}

/** A value with its tag and its length. */
function der(tag: number, ...parts: readonly Buffer[]): Buffer {
  const content = Buffer.concat(parts);
  const { length } = content;
  if (length < 0x80) return Buffer.concat([Buffer.from([tag, length]), content]);
  return Buffer.concat([Buffer.from([tag, 0x82, length >> 8, length & 0xff]), content]);
}

function bits(content: Buffer): Buffer {
  return der(0x03, Buffer.from([0]), content);
}

function oid(first: number, second: number, ...rest: readonly number[]): Buffer {
  const groups = rest.map((number) => {
    const bytes = [number & 0x7f];
    for (let left = number >> 7; left > 0; left >>= 7) bytes.unshift((left & 0x7f) | 0x80);
    return Buffer.from(bytes);
  });
  return der(0x06, Buffer.from([first * 40 + second]), ...groups);
}
