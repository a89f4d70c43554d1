import type { PastChangeover } from '../../model/past/changeover.ts';
import type { ChangeoversPast, ListedChangeover } from '../../model/past/changeoversPast.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { seenNumbers } from '../past/numbers.ts';
import { Rich } from '../type/line.tsx';
import { SeeIt } from '../replay/seeIt.tsx';

const { past } = words.screen;
const said = past.changeovers;

const WIDTH = 240;

/** Each changeover of the stretch, the newest first: what it stood, then its run-up, as a wedge. */
export function ChangeoverList({
  changeovers,
  zone,
  open,
  more,
}: {
  readonly changeovers: ChangeoversPast;
  readonly zone: string;
  readonly open: (at: string) => void;
  readonly more: () => void;
}) {
  const { columns } = said;
  const { list, opened, longest } = changeovers;
  return (
    <section className="sheet changeoverlist">
      <h2>
        <span>
          <Rich
            text={said.list(changeovers.changeovers)}
            of={[['changeovers', past.count(changeovers.changeovers)]]}
          />
        </span>
      </h2>
      {list.length > 0 && (
        <table>
          <thead>
            <tr>
              <th>{columns.began}</th>
              <th>{columns.pair}</th>
              <th>{columns.wedge}</th>
              <th className="n">
                <Figure of="changeoverFirstGood">{columns.firstGood}</Figure>
              </th>
              <th className="n">
                <Figure of="changeoverTime">{columns.atRate}</Figure>
              </th>
              <th className="n">
                <Figure of="changeoverLost">{columns.lost}</Figure>
              </th>
              <th className="n">
                <Figure of="trial">{columns.trial}</Figure>
              </th>
              <th className="n">
                <Figure of="adjustmentOff">{columns.offBook}</Figure>
              </th>
            </tr>
          </thead>
          <tbody>
            {list.map((changeover) => (
              <Row
                key={changeover.id}
                changeover={changeover}
                zone={zone}
                longest={longest}
                isOpen={opened?.changeover.id === changeover.id}
                open={open}
              />
            ))}
          </tbody>
        </table>
      )}
      <p className="foot">
        <Rich text={past.seen(changeovers.seen, zone)} of={seenNumbers(changeovers.seen)} /> {said.foot}
      </p>
      {list.length > 0 && (
        <p className="foot">
          {said.shown(list.length, changeovers.changeovers)}
          {list.length < changeovers.changeovers && (
            <button type="button" className="btn plain noprint" onClick={more}>
              {said.showMore}
            </button>
          )}
        </p>
      )}
    </section>
  );
}

function Row({
  changeover,
  zone,
  longest,
  isOpen,
  open,
}: {
  readonly changeover: ListedChangeover;
  readonly zone: string;
  readonly longest: number;
  readonly isOpen: boolean;
  readonly open: (at: string) => void;
}) {
  const { ends, idle, unseen, fromBlend, kind } = changeover;
  return (
    <tr className={isOpen ? 'opened' : ''}>
      <td>
        <button
          type="button"
          className="openrow"
          aria-current={isOpen}
          aria-label={said.open(changeover, zone)}
          onClick={() => open(changeover.id)}
        >
          {past.when(changeover.at, zone)}
        </button>{' '}
        <SeeIt at={changeover.at} until={changeover.over} named={said.pairOf(changeover)} />
      </td>
      <td>
        {said.pairOf(changeover)}
        {kind === 'artwork' && fromBlend !== undefined && <small>{said.before(fromBlend)}</small>}
      </td>
      <td className="wedge">
        <Wedge changeover={changeover} longest={longest} />
        {idle >= 60_000 && (
          <small>
            <Rich text={said.idle(idle)} of={[['idleTime', past.past(idle)]]} quiet />
          </small>
        )}
        {unseen > 0 && (
          <small>
            <Rich text={said.unseen(unseen)} of={[['gap', past.past(unseen)]]} quiet />
          </small>
        )}
      </td>
      <td className="n" data-name={said.columns.firstGood}>
        {said.minutes(changeover.untilFirstGood)}
      </td>
      <td className="n" data-name={said.columns.atRate}>
        <b>{ends === 'atRate' ? said.minutes(changeover.lasted) : said.ends[ends]}</b>
      </td>
      <td className="n" data-name={said.columns.lost}>
        {said.cartons(changeover.lost)}
      </td>
      <td className="n" data-name={said.columns.trial}>
        {past.count(changeover.trialCartons)}
      </td>
      <td className="n" data-name={said.columns.offBook}>
        {said.offBook(changeover.offBook)}
      </td>
    </tr>
  );
}

/** Solid while it stood, then rising to at rate, which is a cut; what was never at rate has none. */
function Wedge({ changeover, longest }: { readonly changeover: PastChangeover; readonly longest: number }) {
  const { stood, lasted, ends } = changeover;
  const x = (ms: number) => (WIDTH * ms) / Math.max(1, longest);
  const [back, over] = [x(stood), x(lasted)];
  return (
    <svg
      width={WIDTH + 4}
      height={22}
      viewBox={`-1 0 ${WIDTH + 4} 22`}
      role="img"
      aria-label={said.drawn(changeover)}
    >
      <path className="stood" d={`M0 3H${back}V19H0Z`} />
      <path className="runup" d={`M${back} 19V12L${over} 3V19Z`} />
      {ends === 'atRate' && <path className="over" d={`M${over} 1V21`} />}
    </svg>
  );
}
