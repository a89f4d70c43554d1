import type { DeviceCell, DevicePast } from '../../model/past/devicesPast.ts';
import type { SafetyPast } from '../../model/past/safetyPast.ts';
import type { TimeCell } from '../../model/past/timeCells.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { DeviceMark, TestMark } from './device-mark.tsx';
import { SeeIt } from '../replay/seeIt.tsx';

const { past } = words.screen;
const said = past.safety.devices;

/** Marks drawn in one cell; of more, a sign that there are more. */
const MARKS_MOST = 8;

/** Each stop device and guard in the order of the drawing, never by count: when it was used, and what is known of it. */
export function Devices({ safety, zone }: { readonly safety: SafetyPast; readonly zone: string }) {
  const { columns, key } = said;
  return (
    <section className="sheet devicespast">
      <h2>
        {said.title}
        <ul className="pastkey">
          <li>
            <i className="use caused" /> {key.caused}
          </li>
          <li>
            <i className="use" /> {key.during}
          </li>
          <li>
            <i className="use dotted" /> {key.uncertain}
          </li>
          <li>
            <TestMark /> {key.test}
          </li>
          <li>
            <i className="use abnormal" /> {key.open}
          </li>
          <li>
            <i className="use unseenhatch" /> {key.unseen}
          </li>
        </ul>
      </h2>
      <table className="carded">
        <thead>
          <tr>
            <th>{columns.device}</th>
            <th>
              {columns.cells}
              <Dates cells={safety.cells} zone={zone} />
            </th>
            <th className="n">
              <Figure of="causedStops">{columns.caused}</Figure>
            </th>
            <th className="n">
              <Figure of="usedDuring">{columns.during}</Figure>
            </th>
            <th className="n">
              <Figure of="orderUncertain">{columns.uncertain}</Figure>
            </th>
            <th className="n">
              <Figure of="noStopCame">{columns.noStop}</Figure>
            </th>
            <th>
              <Figure of="lastOperated">{columns.lastOperated}</Figure>
            </th>
            <th>
              <Figure of="lastOperated">{columns.lastRunning}</Figure>
            </th>
            <th>
              <Figure of="standstillSeen">{columns.standstill}</Figure>
            </th>
            <th>
              <Figure of="lastTested">{columns.lastTest}</Figure>
            </th>
          </tr>
        </thead>
        <tbody>
          {safety.devices.map((device) => (
            <Row key={device.id} device={device} cells={safety.cells} zone={zone} />
          ))}
        </tbody>
      </table>
      <p className="foot">{said.foot}</p>
    </section>
  );
}

function Dates({ cells, zone }: { readonly cells: readonly TimeCell[]; readonly zone: string }) {
  const first = cells[0]?.from ?? 0;
  const last = cells.at(-1)?.to ?? 0;
  const long = last - first > 40 * 3_600_000;
  return (
    <span className="celldates" aria-hidden="true">
      {cells
        .filter(({ dated }) => dated)
        .map(({ from }) => (
          <span key={from} style={{ left: `${(100 * (from - first)) / Math.max(1, last - first)}%` }}>
            {long ? past.on(from, zone).split(' ').slice(1).join(' ') : past.at(from, zone)}
          </span>
        ))}
    </span>
  );
}

function Row({
  device,
  cells,
  zone,
}: {
  readonly device: DevicePast;
  readonly cells: readonly TimeCell[];
  readonly zone: string;
}) {
  const { columns } = said;
  const { sum, candidates, kind } = device;
  return (
    <tr>
      <td className="who1">
        <div>
          <DeviceMark door={kind === 'guard'} used="caused" size={26} />
          <span>
            <b>{device.name}</b>
            {candidates.length > 0 && <small>{said.oneOf(candidates)}</small>}
          </span>
        </div>
      </td>
      <td className="when1">
        <Cells device={device} cells={cells} />
      </td>
      <Count n={sum.caused} label={columns.caused} />
      <Count n={sum.during} label={columns.during} />
      <Count n={sum.uncertain} label={columns.uncertain} />
      <Count n={sum.noStop} label={columns.noStop} />
      <Answer
        label={columns.lastOperated}
        answer={said.operated(device.lastOperated, zone)}
        at={usedAt(device.lastOperated)}
      />
      <Answer
        label={columns.lastRunning}
        answer={said.operated(device.lastRunning, zone)}
        at={usedAt(device.lastRunning)}
      />
      <Answer label={columns.standstill} answer={said.standstill(device.standstill, zone)} />
      <Answer label={columns.lastTest} answer={said.test(device.lastTest, zone)} />
    </tr>
  );
}

function usedAt(operated: DevicePast['lastOperated']): number | undefined {
  return operated.kind === 'notSeen' ? undefined : operated.at;
}

function Count({ n, label }: { readonly n: number; readonly label: string }) {
  return (
    <td className="n count1" data-label={label}>
      {past.count(n)}
    </td>
  );
}

function Answer({
  label,
  answer,
  at,
}: {
  readonly label: string;
  readonly answer: readonly [string, string];
  /** When that was, where somebody saw it. */
  readonly at?: number | undefined;
}) {
  return (
    <td data-label={label}>
      {at === undefined ? answer[0] : <SeeIt at={at}>{answer[0]}</SeeIt>}
      {answer[1] !== '' && <small>{answer[1]}</small>}
    </td>
  );
}

/** One mark is one use, standing on its time. */
function Cells({ device, cells }: { readonly device: DevicePast; readonly cells: readonly TimeCell[] }) {
  return (
    <div className="usecells" role="img" aria-label={said.cellsSaid(device)}>
      {device.cells.map((cell, place) => (
        <span key={cells[place]?.from} className={cells[place]?.unseen ? 'unseenhatch' : ''}>
          <Marks cell={cell} />
        </span>
      ))}
    </div>
  );
}

function Marks({ cell }: { readonly cell: DeviceCell }) {
  const marks = [
    ...Array.from({ length: cell.open }, () => 'use abnormal'),
    ...Array.from({ length: cell.caused }, () => 'use caused'),
    ...Array.from({ length: cell.uncertain + cell.noStop }, () => 'use dotted'),
    ...Array.from({ length: cell.during }, () => 'use'),
  ];
  const shown = marks.length > MARKS_MOST ? marks.slice(0, MARKS_MOST - 1) : marks;
  return (
    <>
      {shown.map((look, place) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: marks of one look are all the same
        <i key={place} className={look} />
      ))}
      {marks.length > shown.length && <small>{said.more}</small>}
      {cell.tests > 0 && <TestMark size={14} />}
    </>
  );
}
