import { words } from '../app/words.ts';
import { Choice } from '../past/choose.tsx';
import { type Cursor, SPEEDS, type Speed } from './useCursor.ts';
import { type Target, TARGETS } from './targets.ts';

const said = words.screen.past.replay;

/** Play and step, how fast, and where to go. */
export function Transport({
  cursor,
  step,
  jump,
  reachable,
}: {
  readonly cursor: Cursor;
  readonly step: (by: 'change' | 'carton', way: 1 | -1) => void;
  readonly jump: (to: Target, way: 1 | -1) => void;
  readonly reachable: (to: Target, way: 1 | -1) => boolean;
}) {
  return (
    <div className="transport">
      <div className="panels">
        <button type="button" onClick={() => step('carton', -1)} aria-label={said.carton.back}>
          <Arrow way={-1} bar /> {said.carton.one}
        </button>
        <button
          type="button"
          className="playkey"
          aria-pressed={cursor.plays}
          onClick={() => cursor.play(!cursor.plays)}
        >
          {cursor.plays ? <Bars /> : <Arrow way={1} />} {cursor.plays ? said.stop : said.play}
        </button>
        <button type="button" onClick={() => step('carton', 1)} aria-label={said.carton.on}>
          {said.carton.one} <Arrow way={1} bar />
        </button>
      </div>
      <Choice
        label={said.speeds}
        options={SPEEDS.map((speed) => ({ id: String(speed), said: said.speed(speed) }))}
        chosen={String(cursor.speed)}
        choose={(speed) => cursor.setSpeed(Number(speed ?? 1) as Speed)}
      />
      <fieldset className="panels jumps">
        <legend className="unseen">{said.jump.label}</legend>
        {TARGETS.map((target) => (
          <span key={target} className="jump">
            <button
              type="button"
              aria-label={said.jump.back(said.jump[target])}
              title={said.jump.back(said.jump[target])}
              disabled={!reachable(target, -1)}
              onClick={() => jump(target, -1)}
            >
              <Arrow way={-1} />
            </button>
            <span aria-hidden="true">{said.jump[target]}</span>
            <button
              type="button"
              aria-label={said.jump.on(said.jump[target])}
              title={said.jump.on(said.jump[target])}
              disabled={!reachable(target, 1)}
              onClick={() => jump(target, 1)}
            >
              <Arrow way={1} />
            </button>
          </span>
        ))}
      </fieldset>
    </div>
  );
}

function Arrow({ way, bar = false }: { readonly way: 1 | -1; readonly bar?: boolean }) {
  return (
    <svg width={14} height={14} viewBox="-7 -7 14 14" aria-hidden="true">
      <g transform={`scale(${way} 1)`}>
        <path d="M-5 -6L5 0L-5 6Z" fill="currentColor" />
        {bar && <path d="M6 -6V6" stroke="currentColor" strokeWidth={2} />}
      </g>
    </svg>
  );
}

function Bars() {
  return (
    <svg width={14} height={14} viewBox="-7 -7 14 14" aria-hidden="true">
      <path d="M-3.5 -6V6M3.5 -6V6" stroke="currentColor" strokeWidth={4} />
    </svg>
  );
}
