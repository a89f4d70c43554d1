import type { RanOn } from '../../model/past/ranOn.ts';
import type { SafetyPast } from '../../model/past/safetyPast.ts';
import { OLDER_FINDINGS } from '../../model/fold/findings.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { CloseFinding } from '../matters/close-finding.tsx';
import { seenNumbers } from '../past/numbers.ts';
import { Rich } from '../type/line.tsx';
import { Lanes } from './lanes.tsx';
import { restNumbers } from './numbers.ts';
import { SeeIt } from '../replay/seeIt.tsx';

const { past } = words.screen;
const said = past.safety.ranOn;

/** So many of those that nobody has closed are drawn; the table has all of them. */
const DRAWN_MOST = 3;
/** Once an entry is kept, it is asked for again after so long. */
const AGAIN_MS = 700;

/** First of all: a guard that read open, or a device pressed, while the line ran. Only what nobody has explained is yellow. */
export function RanOnSheet({
  safety,
  zone,
  again,
}: {
  readonly safety: SafetyPast;
  readonly zone: string;
  readonly again: () => void;
}) {
  const { ranOn, ranOnCount, olderFindings } = safety;
  const waiting = ranOn.filter(isOpen);
  const waits = ranOnCount.lasts + ranOnCount.open + olderFindings;
  return (
    <section className="sheet ranon">
      <h2>{said.title}</h2>
      <div className="ranonsum">
        <p>
          <b className="big">
            <Figure of="findings">{said.count(ranOnCount, olderFindings)}</Figure>
          </b>{' '}
          <b>{said.waits(waits)}</b>{' '}
          <span>
            <Rich text={said.rest(ranOnCount)} of={restNumbers(ranOnCount)} />
          </span>
        </p>
        <ul>
          {waiting.slice(0, DRAWN_MOST).map((one) => (
            <li key={one.id}>
              <Lanes one={one} zone={zone} />
              <div onSubmit={() => setTimeout(again, AGAIN_MS)}>
                <b>{said.titleOf(one, zone)}</b>
                <p>{said.either(one)}</p>
                <p className="second">{one.reading === 'lasts' ? said.stillSo : said.stays}</p>
                {one.reading === 'open' && <CloseFinding finding={one.id} />}
              </div>
            </li>
          ))}
          {olderFindings > 0 && (
            <li onSubmit={() => setTimeout(again, AGAIN_MS)}>
              <b>{said.olderTitle}</b>
              <div>
                <p>
                  <Rich text={said.older(olderFindings)} of={[['findings', past.count(olderFindings)]]} />
                </p>
                <CloseFinding finding={OLDER_FINDINGS} />
              </div>
            </li>
          )}
        </ul>
      </div>
      {ranOn.length > 0 ? <Table ranOn={ranOn} zone={zone} again={again} /> : <p>{said.none}</p>}
      <p className="foot">
        <Rich text={past.seen(safety.seen, zone)} of={seenNumbers(safety.seen)} /> {said.bound(safety.bound)}
      </p>
    </section>
  );
}

function isOpen({ reading }: RanOn): boolean {
  return reading === 'lasts' || reading === 'open';
}

function Table({
  ranOn,
  zone,
  again,
}: {
  readonly ranOn: readonly RanOn[];
  readonly zone: string;
  readonly again: () => void;
}) {
  const { columns } = said;
  const drawn = ranOn.filter(isOpen).slice(0, DRAWN_MOST);
  return (
    <table className="carded">
      <thead>
        <tr>
          <th>{columns.began}</th>
          <th>{columns.device}</th>
          <th className="n">
            <Figure of="ranOn">{columns.lasted}</Figure>
          </th>
          <th>{columns.read}</th>
          <th>{columns.reading}</th>
        </tr>
      </thead>
      <tbody>
        {ranOn.map((one) => (
          <tr key={one.id}>
            <td>
              <SeeIt at={one.at} until={one.until}>
                {past.on(one.at, zone)} <b>{past.exactly(one.at, zone)}</b>
              </SeeIt>
            </td>
            <td>{one.name}</td>
            <td className="n" data-label={columns.lasted}>
              {said.lasted(one)}
            </td>
            <td data-label={columns.read}>{said.read(one)}</td>
            <td>
              <span className={isOpen(one) ? 'tag abnormal' : ''}>{said.readings[one.reading]}</span>
              {one.closed && <small>{said.closed(one.closed, zone)}</small>}
              {one.reading === 'open' && !drawn.includes(one) && (
                <div onSubmit={() => setTimeout(again, AGAIN_MS)}>
                  <CloseFinding finding={one.id} />
                </div>
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
