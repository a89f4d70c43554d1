import { useState } from 'react';
import type { ShownSignal, SignalChoice, SignalSheet, SignalSheets } from '../../model/past/signalSheets.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { Carton, Mark } from '../marks/symbols.tsx';
import { Caution } from '../matters/caution.tsx';
import { Rich } from '../type/line.tsx';

const said = words.screen.past.signals;
const { count } = words.screen.past;

/** Signals of a place shown at first; what is to be mended stands first among them. */
const SHOWN = 8;
/** Stop devices and guards are shown all, as far as a plant's line goes. */
const DEVICES_SHOWN = 40;

/** Signals by where they belong. A place without trouble is one key, which opens it. */
export function Sheets({
  sheets,
  choice,
  several,
}: {
  readonly sheets: SignalSheets;
  readonly choice: SignalChoice;
  /** Signals come from more than one server. */
  readonly several: boolean;
}) {
  const [opened, setOpened] = useState<readonly string[]>([]);
  const isOpen = (sheet: SignalSheet) =>
    choice !== 'all' || sheet.place !== 'station' || sheet.mend > 0 || opened.includes(sheet.id);
  const closed = sheets.sheets.filter((sheet) => !isOpen(sheet));
  return (
    <section className="sheet signalsheets">
      <h2>{said.list}</h2>
      {sheets.sheets.length === 0 && <p>{said.nothing}</p>}
      {sheets.sheets.filter(isOpen).map((sheet, place) => (
        <Sheet key={sheet.id} sheet={sheet} several={several} first={place === 0} />
      ))}
      {closed.length > 0 && (
        <div className="closedsheets noprint">
          {closed.map((sheet) => (
            <button
              type="button"
              key={sheet.id}
              aria-expanded={false}
              onClick={() => setOpened([...opened, sheet.id])}
            >
              <Carton drawing={sheet.station?.drawing ?? 'discharge'} width={26} className="small" />
              <span>
                <b>{nameOf(sheet)}</b>
                {said.sheet(sheet)}
              </span>
            </button>
          ))}
        </div>
      )}
      <p className="foot">{said.foot}</p>
    </section>
  );
}

function nameOf({ place, station }: SignalSheet): string {
  if (station) return said.stationOf(station.number, station.name);
  return place === 'devices' ? said.stopping : said.line;
}

function Sheet({
  sheet,
  several,
  first,
}: {
  readonly sheet: SignalSheet;
  readonly several: boolean;
  /** All sheets have the same columns: those of the first one can be reached by keyboard. */
  readonly first: boolean;
}) {
  const [whole, setWhole] = useState(false);
  const shown = whole
    ? sheet.shown
    : sheet.shown.slice(0, Math.max(sheet.place === 'devices' ? DEVICES_SHOWN : SHOWN, sheet.mend));
  const { columns } = said;
  const left = sheet.shown.length - shown.length;
  return (
    <>
      <h3>
        {sheet.station && <Carton drawing={sheet.station.drawing} width={30} className="small" />}
        {nameOf(sheet)}{' '}
        <span>
          <Rich
            text={said.sheet(sheet)}
            of={[
              ['signals', count(sheet.signals)],
              ['toMend', sheet.mend === 0 ? '' : count(sheet.mend)],
            ]}
            quiet
          />
        </span>
      </h3>
      {sheet.place === 'devices' && <Caution text={words.screen.caution.short} mark={28} />}
      <table>
        <thead>
          <tr>
            <th>{columns.meaning}</th>
            <th>{columns.tag}</th>
            <th>
              <Figure of="signalValue" quiet={!first}>
                {columns.now}
              </Figure>
            </th>
            <th>
              <Figure of="signalAge" quiet={!first}>
                {columns.quality}
              </Figure>
            </th>
            <th>
              <Figure of="samplingGranted" quiet={!first}>
                {columns.sampled}
              </Figure>
            </th>
            <th>{columns.trouble}</th>
          </tr>
        </thead>
        <tbody>
          {shown.map((signal) => (
            <Row key={signal.id} signal={signal} several={several} />
          ))}
        </tbody>
      </table>
      {left > 0 && (
        <button type="button" className="btn plain noprint" onClick={() => setWhole(true)}>
          {said.more(left)}
        </button>
      )}
    </>
  );
}

function Row({ signal, several }: { readonly signal: ShownSignal; readonly several: boolean }) {
  const wrong = said.wrong(signal);
  const means = said.means(signal);
  const twin = said.twin(signal.twin);
  return (
    <tr className={wrong ? 'wrong' : ''}>
      <td className="meaning">
        <b>{said.meaning(signal)}</b>
        {twin !== '' && <small>{twin}</small>}
      </td>
      <td className="tag">
        {signal.tag}
        {several && <small>{said.server(signal.server)}</small>}
      </td>
      <td className={`now ${signal.quality}`} data-name={said.columns.now}>
        <b>{said.value(signal)}</b> {means}
      </td>
      <td data-name={said.columns.quality}>{said.quality(signal)}</td>
      <td data-name={said.columns.sampled}>{said.sampling(signal)}</td>
      <td className="trouble">
        {wrong ? (
          <>
            <b>
              <Mark id="n-want" size={18} /> {wrong[0]}
            </b>
            <small>{said.mendIt(wrong[1])}</small>
          </>
        ) : (
          said.none
        )}
      </td>
    </tr>
  );
}
