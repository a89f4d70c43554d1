/** Numbers as people read them: 15,037 and a real minus sign. */
export function count(n: number, locale: string): string {
  return new Intl.NumberFormat(locale, { maximumFractionDigits: 0 }).format(n).replace('-', '−');
}

/** A number with a fixed count of decimals and a real minus sign. */
export function decimal(n: number, decimals: number, locale: string): string {
  return new Intl.NumberFormat(locale, { minimumFractionDigits: decimals, maximumFractionDigits: decimals })
    .format(n)
    .replace('-', '−');
}

/** `38 s`, `2 min 14 s`, `4 h 01 min`; milliseconds in, whole seconds shown. */
export function duration(ms: number, locale: string): string {
  const total = Math.max(0, Math.floor(ms / 1000));
  const unit = (value: number, name: 'hour' | 'minute' | 'second', digits = 1) =>
    new Intl.NumberFormat(locale, {
      style: 'unit',
      unit: name,
      unitDisplay: 'short',
      minimumIntegerDigits: digits,
    })
      .format(value)
      .replace(/\bsecs?\b/, 's')
      .replace(/\bmins?\b/, 'min')
      .replace(/\bhrs?\b/, 'h');
  const hours = Math.floor(total / 3600);
  const minutes = Math.floor((total % 3600) / 60);
  const seconds = total % 60;
  if (hours > 0) return `${unit(hours, 'hour')} ${unit(minutes, 'minute', 2)}`;
  if (minutes > 0) return `${unit(minutes, 'minute')} ${unit(seconds, 'second', 2)}`;
  return unit(seconds, 'second');
}
