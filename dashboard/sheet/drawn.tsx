import type { NumberStep } from '../../model/view/sheetView.ts';
import { words } from '../app/words.ts';

const said = words.screen.sheet;

const WIDTH = 340;
const INSET = 14;
const RULER = 46;
/** Half of what is said above the scale takes at most so much of its width. */
const SAID = 40;

/** The scale on the machine: an arrow from where it stands to the book's number, which is dashed. */
export function SheetScale({ step, bare = false }: { readonly step: NumberStep; readonly bare?: boolean }) {
  const { scale, book, way, unit } = step;
  const x = (at: number) => {
    const within = Math.min(scale.to, Math.max(scale.from, at));
    return INSET + ((WIDTH - 2 * INSET) * (within - scale.from)) / Math.max(1e-9, scale.to - scale.from);
  };
  const saidAt = way && way.by !== 0 ? middleOf(x(way.from), x(way.to)) : undefined;
  const under = book !== undefined && saidAt !== undefined && Math.abs(x(book) - saidAt) < SAID;
  return (
    <svg viewBox={`0 0 ${WIDTH} 84`} className="sheetscale" role="img" aria-label={said.scale(step)}>
      <path className="ruler" d={`M${INSET} ${RULER}H${WIDTH - INSET}`} />
      {scale.ticks.map(({ at, labelled }) => (
        <path key={at} className="ruler" d={`M${x(at)} ${RULER}v${labelled ? 15 : 7}`} />
      ))}
      {scale.ticks
        .filter(({ labelled }) => labelled)
        .map(({ at }) => (
          <text key={at} x={x(at)} y={79} fontSize={16} fontWeight={700} textAnchor="middle">
            {said.tick(at, unit)}
          </text>
        ))}
      {!bare && book !== undefined && (
        <path className="bookat" d={`M${x(book)} ${under ? 27 : 4}V${RULER + 12}`} />
      )}
      {!bare && way && <Arrow step={step} from={x(way.from)} to={x(way.to)} />}
    </svg>
  );
}

function middleOf(from: number, to: number): number {
  return Math.min(WIDTH - SAID, Math.max(SAID, (from + to) / 2));
}

/** Solid where a sensor reads it, else open; and how far from there. */
function Arrow({
  step,
  from,
  to,
}: {
  readonly step: NumberStep;
  readonly from: number;
  readonly to: number;
}) {
  const { way, now } = step;
  if (!way) return null;
  const right = to > from;
  const tip = right ? to - 6 : to + 6;
  const tail = right ? from + 12 : from - 12;
  const isLong = Math.abs(to - from) > 34;
  return (
    <>
      <path className="standsat" data-how={now?.how ?? 'was'} d={`M${from} ${RULER - 2}l-9 -15h18z`} />
      {isLong && (
        <>
          <path className="goesto" d={`M${tail} 32H${right ? tip - 12 : tip + 12}`} />
          <path className="goeshead" d={`M${tip} 32l${right ? -13 : 13} -8v16z`} />
        </>
      )}
      {way.by !== 0 && (
        <text x={middleOf(from, to)} y={21} fontSize={16} fontWeight={700} textAnchor="middle">
          {said.by(way, step)}
        </text>
      )}
    </>
  );
}

/** Its hand wheel, and which way to turn it: only where the line's file says so. */
export function Wheel({ clockwise }: { readonly clockwise: boolean }) {
  return (
    <svg viewBox="0 0 84 78" className="wheel" aria-hidden="true">
      <g transform={clockwise ? undefined : 'translate(84 0) scale(-1 1)'}>
        <circle className="rim" cx="42" cy="46" r="24" />
        <circle className="hub" cx="42" cy="46" r="6" />
        <path className="spokes" d="M42 22v18M42 52v18M18 46h18M48 46h18" />
        <path className="turns" d="M14 28A33 33 0 0 1 70 28" />
        <path className="goeshead" d="M76 37l-14 -6l11 -9z" />
      </g>
    </svg>
  );
}
