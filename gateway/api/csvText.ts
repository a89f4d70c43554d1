import { zoneOffset } from '../../model/calendar/calendar.ts';

/** Rows as comma-separated values (RFC 4180), each ended by CR LF; a value that needs it stands in double quotes. */
export function csvText(rows: Iterable<readonly string[]>): string {
  let text = '';
  for (const row of rows) text += `${row.map(quoted).join(',')}\r\n`;
  return text;
}

/**
 * What people typed, for a file that is opened in a spreadsheet: what would be taken for a formula there begins with an
 * apostrophe, by which spreadsheets know text. Full-width and small forms of the signs count as the signs (NFKC), and what
 * is not seen before them, such as spaces and control characters, does not hide them.
 */
export function typedText(text: string): string {
  const seen = text.normalize('NFKC');
  return /^[\s\p{C}]*[=+\-@]|^\p{Cc}/u.test(seen) ? `'${text}` : text;
}

/** `2026-03-17T10:31:22.000+01:00`: milliseconds since 1970 as ISO 8601, by the zone's clock, with its offset. */
export function isoMoment(ms: number, zone: string): string {
  const offset = zoneOffset(ms, zone);
  const minutes = Math.round(Math.abs(offset) / 60_000);
  const two = (n: number) => String(n).padStart(2, '0');
  const sign = offset < 0 ? '-' : '+';
  return `${new Date(ms + offset).toISOString().slice(0, -1)}${sign}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

function quoted(value: string): string {
  return /[",\r\n]/.test(value) ? `"${value.replaceAll('"', '""')}"` : value;
}
