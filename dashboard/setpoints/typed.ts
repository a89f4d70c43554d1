/** A number as people type it, with a point or a comma and with either minus; undefined where it is none. */
export function numberTyped(text: string): number | undefined {
  const plain = text.trim().replace('−', '-').replace(',', '.');
  return /^[+-]?\d{1,6}(\.\d{1,6})?$/.test(plain) ? Number(plain) : undefined;
}
