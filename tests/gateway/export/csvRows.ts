/** A CSV file (RFC 4180) with a header row, taken apart. */
export function csvRows(text: string): readonly Record<string, string>[] {
  const rows: string[][] = [[]];
  const cell = /("(?:[^"]|"")*"|[^",\r\n]*)(,|\r\n)/gy;
  for (let found = cell.exec(text); found; found = cell.exec(text)) {
    const [, raw = '', after] = found;
    rows.at(-1)!.push(raw.startsWith('"') ? raw.slice(1, -1).replaceAll('""', '"') : raw);
    if (after === '\r\n') rows.push([]);
  }
  if (rows.pop()!.length > 0) throw new Error('a CSV file does not end with a line end');
  const [header = [], ...rest] = rows;
  return rest.map((row) => {
    if (row.length !== header.length) throw new Error(`a row of ${row.length} cells: ${row.join('|')}`);
    return Object.fromEntries(header.map((name, place) => [name, row[place]!]));
  });
}
