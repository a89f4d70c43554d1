/** Moments as people read them, in the line's own zone. Formatters are kept: making one costs more than using it. */
const kept = new Map<string, Intl.DateTimeFormat>();

function formatter(locale: string, zone: string, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = `${locale} ${zone} ${Object.keys(options).join(' ')}`;
  let found = kept.get(key);
  if (found === undefined) {
    found = new Intl.DateTimeFormat(locale, { timeZone: zone, ...options });
    kept.set(key, found);
  }
  return found;
}

/** `10:42` */
export function clock(at: number, zone: string, locale: string): string {
  return formatter(locale, zone, { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }).format(at);
}

/** `10:42:14`, where order matters. */
export function clockSeconds(at: number, zone: string, locale: string): string {
  const options = { hour: '2-digit', minute: '2-digit', second: '2-digit', hourCycle: 'h23' } as const;
  return formatter(locale, zone, options).format(at);
}

/** `Wed 02:00` */
export function weekdayClock(at: number, zone: string, locale: string): string {
  const day = formatter(locale, zone, { weekday: 'short' }).format(at);
  return `${day} ${clock(at, zone, locale)}`;
}

/** `10`, the hour alone, for an axis. */
export function hour(at: number, zone: string, locale: string): string {
  return clock(at, zone, locale).slice(0, 2);
}

/** `Tue 17 Mar` */
export function day(at: number, zone: string, locale: string): string {
  const options = { weekday: 'short', day: 'numeric', month: 'short' } as const;
  return formatter(locale, zone, options).format(at).replaceAll(',', '');
}

/** `Tue 17 Mar 2026`, on paper, which is kept. */
export function dayOfYear(at: number, zone: string, locale: string): string {
  return `${day(at, zone, locale)} ${formatter(locale, zone, { year: 'numeric' }).format(at)}`;
}
