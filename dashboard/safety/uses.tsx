import type { PastUse, SafetyPast } from '../../model/past/safetyPast.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import type { Numbered } from '../figures/pieces.ts';
import { useEnter, useHeld } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { DeviceMark } from './device-mark.tsx';
import { Steps } from './steps.tsx';
import { SeeIt } from '../replay/seeIt.tsx';

const { past } = words.screen;
const { uses: said, before } = past.safety;

/** Once an answer is kept, the list is asked for again after so long. */
const AGAIN_MS = 700;

/** Each use, the newest first: what came before, and pressed, released, reset, restarted, first good carton. */
export function Uses({
  safety,
  zone,
  device,
  choose,
  more,
  again,
}: {
  readonly safety: SafetyPast;
  readonly zone: string;
  readonly device: string | undefined;
  readonly choose: (device: string | undefined) => void;
  readonly more: () => void;
  readonly again: () => void;
}) {
  const { columns, key } = said;
  const { list, listed, leftOut, devices, scale } = safety;
  const name = devices.find(({ id }) => id === device)?.name;
  return (
    <section className="sheet safetyuses">
      <h2>
        {name === undefined ? said.title : said.titleOf(name)}
        <label className="period noprint">
          <span className="unseen">{past.safety.which}</span>
          <select value={device ?? ''} onChange={(event) => choose(event.target.value || undefined)}>
            <option value="">{past.safety.allDevices}</option>
            {devices.map((one) => (
              <option key={one.id} value={one.id}>
                {one.name}
              </option>
            ))}
          </select>
        </label>
      </h2>
      <ul className="pastkey">
        {(['held', 'released', 'reset', 'restarted', 'between'] as const).map((part) => (
          <li key={part}>
            <i className={`step ${part}`} /> {key[part]}
          </li>
        ))}
      </ul>
      {list.length === 0 ? (
        <p>{said.none}</p>
      ) : (
        <table className="carded">
          <thead>
            <tr>
              <th>{columns.at}</th>
              <th>{columns.device}</th>
              <th>
                <Figure of="beforeUse">{columns.before}</Figure>
              </th>
              <th className="steps1">
                <Figure of="held">{columns.steps}</Figure>
                <span className="ticks" aria-hidden="true">
                  {safety.ticks.map((tick) => (
                    <span key={tick} style={{ left: `${(100 * tick) / scale}%` }}>
                      {said.tick(tick)}
                    </span>
                  ))}
                </span>
              </th>
              <th className="n">
                <Figure of="held">{columns.released}</Figure>
              </th>
              <th className="n">
                <Figure of="untilFirstGood">{columns.firstGood}</Figure>
              </th>
            </tr>
          </thead>
          <tbody>
            {list.map((use) => (
              <Row key={use.id} use={use} zone={zone} scale={scale} again={again} />
            ))}
          </tbody>
        </table>
      )}
      <p className="foot">
        {said.shown(list.length, listed)}
        <Rich text={said.leftOut(leftOut)} of={[['usedDuring', past.count(leftOut)]]} /> {said.foot}
        {list.length < listed && (
          <button type="button" className="btn plain noprint" onClick={more}>
            {said.more}
          </button>
        )}
      </p>
    </section>
  );
}

function Row({
  use,
  zone,
  scale,
  again,
}: {
  readonly use: PastUse;
  readonly zone: string;
  readonly scale: number;
  readonly again: () => void;
}) {
  const { columns } = said;
  const [date, time] = said.when(use, zone);
  return (
    <tr>
      <td className="began">
        <small>{date}</small>
        <SeeIt at={use.at}>
          <b>{time}</b>
        </SeeIt>
      </td>
      <td className="who1">
        <div>
          <DeviceMark door={use.kind === 'opened'} used={use.role} size={24} />
          <span>
            <b>{use.name}</b>
            <small>{said.role(use)}</small>
            {use.candidate !== undefined && <small>{said.candidate(use.candidate)}</small>}
            <Which use={use} again={again} />
          </span>
        </div>
      </td>
      <td data-label={columns.before}>{before.said(use.before)}</td>
      <td className="steps1">
        <Steps use={use} scale={scale} />
        {use.role !== 'noStop' && (
          <small>
            <Rich text={said.between(use)} of={betweenNumbers(use)} quiet />
          </small>
        )}
      </td>
      <td className="n" data-label={columns.released}>
        {said.step(use.released)}
      </td>
      <td className="n" data-label={columns.firstGood}>
        <b>{said.step(use.firstGood)}</b>
      </td>
    </tr>
  );
}

function betweenNumbers({ reset, restarted }: PastUse): readonly Numbered[] {
  return [
    ...(typeof reset === 'number' ? [['untilReset', past.lasted(reset)] as const] : []),
    ...(typeof restarted === 'number' ? [['untilRestart', past.lasted(restarted)] as const] : []),
  ];
}

/** A circuit is one bit: which of its buttons it was is asked, and never guessed. One tap says it. */
function Which({ use, again }: { readonly use: PastUse; readonly again: () => void }) {
  const enter = useEnter();
  const sent = useHeld((held) =>
    held.sent.some(
      ({ entry, state }) => state !== 'refused' && entry.kind === 'device' && entry.press === use.id,
    ),
  );
  if (use.candidates.length === 0 || use.candidate !== undefined || sent) return null;
  const say = (candidate: string) => {
    enter({ kind: 'device', press: use.id, candidate });
    setTimeout(again, AGAIN_MS);
  };
  return (
    <span className="which noprint">
      <span>{said.which}</span>
      {use.candidates.map((candidate) => (
        <button type="button" key={candidate} className="answer" onClick={() => say(candidate)}>
          {candidate}
        </button>
      ))}
    </span>
  );
}
