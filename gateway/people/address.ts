/**
 * Where a guess comes from, as the network says, which nobody can choose freely: an IPv4 address, or of IPv6 the half
 * that one subscriber has, since the other half has more addresses than anybody could count.
 */
export function guessAddress(remote = ''): string {
  const plain = remote.replace(/^::ffff:(?=\d+\.)/, '').replace(/%.*$/, '');
  if (!plain.includes(':')) return plain;
  const [before = '', after] = plain.split('::');
  const groups = before === '' ? [] : before.split(':');
  const behind = after === undefined || after === '' ? [] : after.split(':');
  const zeros = after === undefined ? 0 : Math.max(0, 8 - groups.length - behind.length);
  return [...groups, ...Array<string>(zeros).fill('0'), ...behind].slice(0, 4).join(':');
}
