const unitMs = { ms: 1, s: 1000, min: 60_000, h: 3_600_000 } as const;
const written = /^(\d{1,7}(?:\.\d{1,3})?) ?(ms|s|min|h)$/;

/** `10 min` in milliseconds; undefined for anything else. */
export function durationMs(text: string): number | undefined {
  const [, amount, unit] = written.exec(text) ?? [];
  return amount === undefined ? undefined : Number(amount) * unitMs[unit as keyof typeof unitMs];
}
