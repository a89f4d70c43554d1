import { useState } from 'react';
import { clockText } from '../../model/export/clockText.ts';
import type { ExportRow } from '../../model/export/job.ts';
import { words } from '../app/words.ts';
import { send } from '../people/session.ts';

const { exporting } = words;
const said = exporting.form;

/** Exports that are being made or can be fetched, the newest first: how far each is, its file, and a way to end it. */
export function ExportRows({
  path,
  zone,
  rows,
  again,
}: {
  readonly path: string;
  readonly zone: string;
  readonly rows: readonly ExportRow[];
  readonly again: () => void;
}) {
  const [why, setWhy] = useState<string>();
  if (rows.length === 0) return null;
  const cancel = async (id: string) => {
    const sent = await send('POST', `${path}/${id}/cancel`, {});
    setWhy(sent.ok ? undefined : sent.why);
    again();
  };
  return (
    <>
      <ul className="exports">
        {rows.map((row) => (
          <li key={row.id}>
            <span>
              <b>{said.period(clockOf(row.from, zone), clockOf(row.to, zone))}</b>
              <small>
                {said.formats[row.format]}:{' '}
                {row.tables.map((table) => exporting.tables[table].name).join(', ')}
              </small>
            </span>
            <span>
              {row.state === 'running' && <progress max={1} value={row.share} />}
              <span>{stateOf(row)}</span>
            </span>
            <span className="exportkeys">
              {row.state === 'done' && (
                <a className="btn" href={`${path}/${row.id}/file`} download>
                  {said.fetch}
                </a>
              )}
              {(row.state === 'running' || row.state === 'done') && (
                <button type="button" className="btn plain" onClick={() => void cancel(row.id)}>
                  {row.state === 'running' ? said.cancel : said.drop}
                </button>
              )}
            </span>
          </li>
        ))}
      </ul>
      {why !== undefined && (
        <p className="why" role="alert">
          {why}
        </p>
      )}
    </>
  );
}

function stateOf({ state, table, rows, share, bytes, trouble }: ExportRow): string {
  switch (state) {
    case 'running':
      return said.running(
        table === null ? undefined : exporting.tables[table].name,
        rows,
        Math.floor(share * 100),
      );
    case 'done':
      return said.done(rows, bytes);
    case 'cancelled':
      return said.cancelled;
    case 'failed':
      return trouble ? said.failed(trouble.what, trouble.why, trouble.mend) : said.failedUnsaid;
  }
}

function clockOf(ms: number, zone: string): string {
  return clockText(ms, zone).replace('T', ' ');
}
