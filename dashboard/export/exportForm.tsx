import { type FormEvent, useState } from 'react';
import { clockMoment, clockText } from '../../model/export/clockText.ts';
import { EXPORT_TABLES, type ExportTable } from '../../model/export/columns.ts';
import { EXPORT_FORMATS, type ExportFormat, type ExportRow } from '../../model/export/job.ts';
import { words } from '../app/words.ts';
import { useAsked } from '../past/asked.ts';
import { Choice } from '../past/choose.tsx';
import { send } from '../people/session.ts';
import { usePart } from '../store/use.tsx';
import { ExportRows } from './exportRows.tsx';

const { exporting } = words;
const said = exporting.form;

/** How often it is asked how far they are: while one is being made, and otherwise. Milliseconds. */
const ASK_MS = { running: 1000, over: 30_000 };
/** Ticked at first: what most ask for. */
const USUAL: readonly ExportTable[] = ['stops', 'runs', 'minutes'];

/** Takes a period out as files; `from` and `to` (milliseconds since 1970) are what it begins with. */
export function ExportForm({
  line,
  from,
  to,
}: {
  readonly line: string;
  readonly from: number;
  readonly to: number;
}) {
  const { zone } = usePart('line');
  const [begin, setBegin] = useState<string>();
  const [end, setEnd] = useState<string>();
  const [tables, setTables] = useState<readonly ExportTable[]>(USUAL);
  const [format, setFormat] = useState<ExportFormat>('csv');
  const [state, setState] = useState<{ readonly busy: boolean; readonly why?: string }>({ busy: false });
  const path = `/api/lines/${encodeURIComponent(line)}/exports`;
  const [running, setRunning] = useState(false);
  const rows = useAsked<readonly ExportRow[]>(path, running ? ASK_MS.running : ASK_MS.over);
  const going = rows.data?.some((row) => row.state === 'running') ?? false;
  if (going !== running) setRunning(going);
  const [first, last] = [begin ?? clockText(from, zone), end ?? clockText(Math.ceil(to / 1000) * 1000, zone)];

  const start = async (event: FormEvent) => {
    event.preventDefault();
    const period = { from: clockMoment(first, zone), to: clockMoment(last, zone) };
    const wrong = mistakeIn(period, tables);
    if (wrong !== undefined) return setState({ busy: false, why: wrong });
    setState({ busy: true });
    const sent = await send('POST', path, { ...period, tables, format });
    setState(sent.ok ? { busy: false } : { busy: false, why: sent.why });
    rows.again();
  };
  const tick = (table: ExportTable, on: boolean) =>
    setTables(EXPORT_TABLES.filter((one) => (one === table ? on : tables.includes(one))));
  return (
    <section className="sheet exporting noprint" aria-labelledby="export-title">
      <h2 id="export-title">{said.title}</h2>
      <p className="second">{said.lead}</p>
      <form onSubmit={(event) => void start(event)}>
        <div className="fields">
          <Moment label={said.from} value={first} set={setBegin} />
          <Moment label={said.to} value={last} set={setEnd} />
          <span className="second">{said.zone(zone)}</span>
        </div>
        <fieldset className="exporttables">
          <legend>{said.tables}</legend>
          {EXPORT_TABLES.map((table) => (
            <label key={table}>
              <input
                type="checkbox"
                checked={tables.includes(table)}
                onChange={({ target }) => tick(table, target.checked)}
              />
              <span>
                <b>{exporting.tables[table].name}</b> <small>{exporting.tables[table].about}</small>
              </span>
            </label>
          ))}
        </fieldset>
        <div className="exportkeys">
          <Choice
            label={said.format}
            options={EXPORT_FORMATS.map((id) => ({ id, said: said.formats[id] }))}
            chosen={format}
            choose={(id) => setFormat(EXPORT_FORMATS.find((known) => known === id) ?? 'csv')}
          />
          <span className="second">{format === 'csv' ? said.csvFor : said.parquetFor}</span>
          <button type="submit" className="btn" disabled={state.busy}>
            {state.busy ? said.starting : said.start}
          </button>
        </div>
        {state.why !== undefined && (
          <p className="why" role="alert">
            {state.why}
          </p>
        )}
      </form>
      <ExportRows path={path} zone={zone} rows={rows.data ?? []} again={rows.again} />
      <p className="foot">
        {said.people} {said.kept}
      </p>
    </section>
  );
}

function Moment({
  label,
  value,
  set,
}: {
  readonly label: string;
  readonly value: string;
  readonly set: (text: string) => void;
}) {
  return (
    <label>
      <span>{label}</span>
      <input type="datetime-local" step={1} value={value} onChange={({ target }) => set(target.value)} />
    </label>
  );
}

function mistakeIn(
  { from, to }: { readonly from: number | undefined; readonly to: number | undefined },
  tables: readonly ExportTable[],
): string | undefined {
  if (from === undefined || to === undefined || to <= from) return said.noPeriod;
  return tables.length === 0 ? said.noTables : undefined;
}
