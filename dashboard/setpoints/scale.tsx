import type { Range, SetPointRow } from '../../model/past/setPointsPast.ts';
import { words } from '../app/words.ts';
import { placeOn, Ruler } from './ruler.tsx';

const said = words.screen.past.setPoints;

/** The ruler's height in the drawing, and what stands over it. */
const RULER = 26;
const STANDS_OVER = 15;
const SHADE = { top: 8, height: 18 } as const;
const LIKELY = 4;

/**
 * A part of the scale on the machine: the book dashed, the settings that ran well shaded, a thin line over them that holds
 * the best number in nine of ten cases, and where it stands now, drawn as it is known.
 */
export function SetPointScale({ row, outside }: { readonly row: SetPointRow; readonly outside: boolean }) {
  const { scale, book, learned, stands } = row;
  const place = placeOn(scale);
  const x = (at: number) => `${place(at)}%`;
  return (
    <svg width="100%" height={46} role="img" aria-label={said.scaleSaid(row)}>
      {learned?.ranWell && <Shade range={learned.ranWell} place={place} />}
      {learned?.sure === 'neverVaried' && learned.marks[0] && <Collar x={x(learned.marks[0].at)} />}
      <Ruler scale={scale} y={RULER} label={{ y: 44, size: 12 }} said={(at) => said.tick(at, row.unit)} />
      {learned?.likely && <Likely range={learned.likely} x={x} />}
      {book !== undefined && <line className="book1" x1={x(book)} x2={x(book)} y1={2} y2={RULER} />}
      {stands.value !== undefined && <Stands x={x(stands.value)} known={stands.known} outside={outside} />}
    </svg>
  );
}

/** As wide as a mark where one setting alone ran well. */
function Shade({ range, place }: { readonly range: Range; readonly place: (at: number) => number }) {
  const [from, to] = [place(range.from), place(range.to)];
  return (
    <>
      <rect className="ranwell1" x={`${from}%`} width={`${to - from}%`} y={SHADE.top} height={SHADE.height} />
      <svg x={`${from}%`} y={SHADE.top} overflow="visible" aria-hidden="true">
        <rect className="ranwell1" x={-5} width={5} height={SHADE.height} />
      </svg>
      <svg x={`${to}%`} y={SHADE.top} overflow="visible" aria-hidden="true">
        <rect className="ranwell1" width={5} height={SHADE.height} />
      </svg>
    </>
  );
}

function Likely({ range, x }: { readonly range: Range; readonly x: (at: number) => string }) {
  return (
    <>
      <line className="likely1" x1={x(range.from)} x2={x(range.to)} y1={LIKELY} y2={LIKELY} />
      {[range.from, range.to].map((at, end) => (
        <line
          // biome-ignore lint/suspicious/noArrayIndexKey: both ends may be one number
          key={end}
          className="likely1"
          x1={x(at)}
          x2={x(at)}
          y1={LIKELY - 3}
          y2={LIKELY + 3}
        />
      ))}
    </>
  );
}

/** It ran here and nowhere else: a dotted collar round the one setting. */
function Collar({ x }: { readonly x: string }) {
  return (
    <svg x={x} y={SHADE.top} overflow="visible" aria-hidden="true">
      <path className="collar1" d={`M-9 0V${SHADE.height}M9 0V${SHADE.height}`} />
    </svg>
  );
}

/** Its top is at `y`. Solid: read by a sensor. Open: entered or read back. A V: confirmed with one tap. Dashed: last known. */
export function Stands({
  x,
  y = RULER - STANDS_OVER,
  known,
  outside,
}: {
  readonly x: string | number;
  readonly y?: number;
  readonly known: SetPointRow['stands']['known'];
  readonly outside: boolean;
}) {
  return (
    <svg x={x} y={y} overflow="visible" aria-hidden="true">
      {known === 'confirmed' ? (
        <path className="confirmed1" d="M-7 0L0 13L7 0" />
      ) : (
        <path className={outside ? 'reads1 outside' : 'reads1'} data-known={known} d="M-7 0h14l-7 13z" />
      )}
    </svg>
  );
}
