import type { ServerPanel } from '../../model/past/serverPanels.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { Mark } from '../marks/symbols.tsx';
import { Rich } from '../type/line.tsx';

const { past } = words.screen;
const said = past.signals;

/** Values of a server that tells nothing for longer are stale. Milliseconds. */
const STALE_MS = 3_000;

/** Each server as a panel: what keeps it from being heard, how far it can be trusted, and how old its newest word is. */
export function Servers({
  panels,
  zone,
}: {
  readonly panels: readonly ServerPanel[];
  readonly zone: string;
}) {
  return (
    <div className="servers">
      {panels.map((panel) => (
        <Panel key={panel.id} panel={panel} zone={zone} />
      ))}
    </div>
  );
}

function Panel({ panel, zone }: { readonly panel: ServerPanel; readonly zone: string }) {
  const { id, endpoint, up, since, trouble, security, groups, clockSetMs, age, signals } = panel;
  const { fields } = said;
  return (
    <section className="sheet server">
      <h2>
        {id}
        <span>
          {!up && <Mark id="s-unseen" size={22} />} {up ? said.up : said.down}
          {since !== null && ` ${said.since(since, zone)}`}
        </span>
      </h2>
      <p className="second address">{endpoint}</p>
      {trouble && (
        <p className="servertrouble">
          <b>{trouble.what}</b> {trouble.why} <span>{said.mendIt(trouble.mend)}</span>
        </p>
      )}
      <dl>
        <dt>{fields.security}</dt>
        <dd>{said.security(security)}</dd>
        <dt>{fields.certificate}</dt>
        <dd>
          {groups.length === 0 ? (
            said.noCertificate
          ) : (
            <>
              <span className="fingerprint">
                {groups.map((group, place) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: a group is its place
                  <span key={place}>{group}</span>
                ))}
              </span>
              <small>{said.fingerprint}</small>
            </>
          )}
        </dd>
        <dt>{fields.clock}</dt>
        <dd>
          <Figure of="clockOffset">{said.clock(panel)}</Figure>
          <Clock panel={panel} />
          {clockSetMs !== 0 && (
            <small>
              <Rich text={said.clockSet(clockSetMs)} of={[['clockSet', past.lasted(Math.abs(clockSetMs))]]} />
            </small>
          )}
        </dd>
        <dt>{fields.age}</dt>
        <dd>
          <Figure of="readingAge">{said.age(age)}</Figure>
          {age !== undefined && age > STALE_MS && <small>{said.stale}</small>}
        </dd>
        <dt>{fields.signals}</dt>
        <dd>
          <Figure of="signals">{past.count(signals)}</Figure>
        </dd>
      </dl>
    </section>
  );
}

/** How far a clock is ahead of ours, on a scale of two seconds each way; beyond it the mark is open, at its end. */
function Clock({ panel: { clock } }: { readonly panel: ServerPanel }) {
  if (!clock) return null;
  const x = 110 + 100 * clock.place;
  return (
    <svg className="clockscale" viewBox="0 0 220 42" width={220} height={42} aria-hidden="true">
      <path className="cutline thin" d="M10 20H210M10 14V26M110 14V26M210 14V26" />
      <path className="cutline thin" d="M60 17V23M160 17V23" />
      <path className={clock.beyond ? 'open' : 'hand'} d={`M${x - 7} 4h14l-7 12Z`} />
      {said.clockEnds.map((text, place) => (
        <text
          key={text}
          x={10 + 100 * place}
          y={39}
          textAnchor={place === 0 ? 'start' : place === 1 ? 'middle' : 'end'}
          fontSize={13}
        >
          {text}
        </text>
      ))}
    </svg>
  );
}
