import type { FiguresAnswer } from '../../model/figures/figuresAnswer.ts';
import { type CutKind, type TimeStrip, timeStrips } from '../../model/figures/timeStrips.ts';
import { words } from '../app/words.ts';
import { Measured } from '../past/measured.tsx';
import { Figure } from './figure.tsx';

const said = words.screen.past.figures.screen;

const STRIP = 26;
/** Room for their names, as in figures.css. */
const NAMES = 276;
/** How a part that is cut off is drawn: what nobody saw is hatch, a planned pause dashed, the rest an opened slot. */
const DRAWN: Readonly<Record<CutKind, string>> = {
  plannedDownTime: 'pause',
  notSeen: 'unseen',
  downTime: 'outside',
  delayTime: 'own',
  setupTime: 'setup',
  slower: 'slow',
  faster: 'slow',
  spoiled: 'spoiled',
};

/** From the time in shifts down to what the good cartons needed, each strip what is left of the one above. */
export function TimeStrips({ answer }: { readonly answer: FiguresAnswer }) {
  const strips = timeStrips(answer.values);
  const oee = answer.values.find(({ id }) => id === 'oee');
  return (
    <section className="sheet timestrips">
      <h2>{said.time.title}</h2>
      <p className="second">{said.time.about}</p>
      {strips.length === 0 ? (
        <p>{said.time.none}</p>
      ) : (
        <Measured className="strips">{(width) => <Rows strips={strips} width={width} />}</Measured>
      )}
      {oee?.value !== undefined && (
        <p className="foot">
          <Figure of="oee">{said.time.oee(said.told(oee)[0])}</Figure>
        </p>
      )}
    </section>
  );
}

function Rows({ strips, width }: { readonly strips: readonly TimeStrip[]; readonly width: number }) {
  const most = Math.max(...strips.map(({ minutes }) => minutes));
  // names stand beside the strips where there is room, else above them
  const beside = width >= 760 ? NAMES : 0;
  const x = (minutes: number) => (minutes / most) * (width - beside);
  return (
    <ol>
      {strips.map((strip) => (
        <li key={strip.id} className={beside > 0 ? 'wide' : ''}>
          <p className="named">
            <Figure of={strip.figure}>
              <b>{said.inUnit('busyTime', strip.minutes)}</b> {said.time.strips[strip.id]}
            </Figure>
          </p>
          <svg width={width - beside} height={STRIP + 2} aria-hidden="true">
            <Strip strip={strip} x={x} />
          </svg>
          {strip.cuts.length > 0 && (
            <p className="cuts">
              {strip.cuts.map(({ kind, figure, minutes }) => (
                <span key={kind}>
                  <svg width="16" height="14" aria-hidden="true">
                    <rect className={`cut ${DRAWN[kind]}`} x="1" y="1" width="14" height="12" />
                  </svg>
                  <Figure of={figure}>
                    {said.time.cut[kind]} <b>{said.inUnit('busyTime', minutes)}</b>
                  </Figure>
                </span>
              ))}
            </p>
          )}
        </li>
      ))}
    </ol>
  );
}

/** What goes on to the next strip is board; what is cut off stands at its end. */
function Strip({ strip, x }: { readonly strip: TimeStrip; readonly x: (minutes: number) => number }) {
  const cuts = strip.cuts.filter(({ kind }) => kind !== 'faster');
  const left = strip.minutes - cuts.reduce((sum, { minutes }) => sum + minutes, 0);
  let at = x(left);
  return (
    <>
      <rect className="left" x="1" y="1" width={Math.max(0, x(left) - 1)} height={STRIP} />
      {cuts.map(({ kind, minutes }) => {
        const from = at;
        at += x(minutes);
        return (
          <rect
            key={kind}
            className={`cut ${DRAWN[kind]}`}
            x={from}
            y="1"
            width={Math.max(0, at - from)}
            height={STRIP}
          />
        );
      })}
    </>
  );
}
