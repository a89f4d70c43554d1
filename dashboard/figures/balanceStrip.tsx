import type { FigureId } from '../../model/figures/figures.ts';
import type { BalanceParts } from '../../model/past/balancePast.ts';
import { words } from '../app/words.ts';
import { Measured } from '../past/measured.tsx';
import { Line } from '../type/line.tsx';
import { measure } from '../type/measure.ts';
import { Figure } from './figure.tsx';

const said = words.screen.balance.screen;

const [BAR, FOLD, REST, FLAP] = [34, 40, 30, 26];
/** Where a column is narrower, the strip's words would lie on its lines. */
const NAMED_FROM = 640;
/** Of a part that is not none so much is drawn at least. */
const LEAST = 16;

type Part = 'rejected' | 'crushed' | 'inPockets' | 'takenOut' | 'notSeen' | 'unaccounted';
const RESTS: readonly Part[] = ['rejected', 'crushed', 'inPockets', 'takenOut', 'notSeen', 'unaccounted'];

/** What was picked as a strip of board: the good ones, and the rest folded out below it; what is unaccounted for sticks out. */
export function BalanceStrip({ parts, zone }: { readonly parts: BalanceParts; readonly zone: string }) {
  return (
    <>
      <Measured className="drawn">{(width) => <Drawing parts={parts} width={width} />}</Measured>
      <Sum parts={parts} zone={zone} />
    </>
  );
}

function Drawing({ parts, width }: { readonly parts: BalanceParts; readonly width: number }) {
  const rest = RESTS.filter((part) => parts[part] > 0);
  const sum = rest.reduce((total, part) => total + parts[part], 0);
  const all = Math.max(1, parts.good + sum);
  const cut = Math.min(width - 6, Math.max(6, (parts.good / all) * width));
  const good = `${words.count(parts.good)} ${said.parts.good}`;
  const flap = parts.unaccounted;
  const height = BAR + FOLD + REST + (flap > 0 ? FLAP : 0) + 4;
  return (
    <svg
      viewBox={`0 0 ${width} ${height}`}
      height={height}
      role="img"
      aria-label={said.drawn(parts)}
      className="balancestrip"
    >
      <rect className="board" x={1} y={1} width={cut - 1} height={BAR} />
      <rect className="tail" x={cut} y={1} width={Math.max(0, width - 1 - cut)} height={BAR} />
      {measure(good, 15, true) < cut - 24 && (
        <Line x={12} y={BAR / 2 + 6} size={15} bold>
          {good}
        </Line>
      )}
      {sum > 0 && (
        <>
          <path
            className="scoreline"
            d={`M${cut} ${BAR + 1}L1 ${BAR + FOLD}M${width - 1} ${BAR + 1}V${BAR + FOLD}`}
          />
          {width >= NAMED_FROM && (
            <Line x={width - (flap < 0 ? 52 : 12)} y={BAR + FOLD - 10} size={13} tone="ink2" anchor="end">
              {said.enlarged}
            </Line>
          )}
          <Rest parts={parts} rest={rest} width={width} />
        </>
      )}
      {flap < 0 && <path className="flapout" d={flapUp(width)} />}
    </svg>
  );
}

/** What is unaccounted for hangs out below the strip. */
function flapDown(x: number, top: number, long: number): string {
  const slant = Math.min(5, long / 4);
  return `M${x} ${top}l${slant} ${FLAP}h${long - 2 * slant}l${slant} ${-FLAP}Z`;
}

/** Where more came than was picked, a flap stands up at the end of the strip. */
function flapUp(width: number): string {
  const top = BAR + FOLD;
  return `M${width - 40} ${top}l5 -22h29l5 22Z`;
}

function Rest({
  parts,
  rest,
  width,
}: {
  readonly parts: BalanceParts;
  readonly rest: readonly Part[];
  readonly width: number;
}) {
  const top = BAR + FOLD;
  const places = placed(
    rest.map((part) => parts[part]),
    width - 2,
  );
  return rest.map((part, place) => {
    const { from, long } = places[place]!;
    const x = from + 1;
    return (
      <g key={part}>
        <rect className={`rest ${part}`} x={x} y={top} width={long} height={REST} />
        {part === 'unaccounted' && (
          <>
            <path className="flapout" d={flapDown(x, top + REST, long)} />
            <path className="scoreline strong" d={`M${x} ${top + REST}h${long}`} />
          </>
        )}
      </g>
    );
  });
}

/** Lengths in proportion that fill `long`, none below the least; those above it give what those need. */
export function placed(
  counts: readonly number[],
  long: number,
): readonly { readonly from: number; readonly long: number }[] {
  const sum = counts.reduce((total, one) => total + one, 0);
  const wished = counts.map((one) => (one / sum) * long);
  const least = Math.min(LEAST, long / Math.max(1, counts.length));
  const needed = wished.reduce((total, one) => total + Math.max(0, least - one), 0);
  const spare = wished.reduce((total, one) => total + Math.max(0, one - least), 0);
  let from = 0;
  return wished.map((one) => {
    const own = one <= least ? least : one - ((one - least) / spare) * needed;
    const place = { from, long: own };
    from += own;
    return place;
  });
}

interface Term {
  readonly sign: string;
  readonly count: number;
  readonly name: string;
  readonly part: Part | 'good' | undefined;
  readonly figure: FigureId | undefined;
}

/** The numbers as a sum that can be added up by whoever reads it. */
function Sum({ parts, zone }: { readonly parts: BalanceParts; readonly zone: string }) {
  const names = said.parts;
  const made = (part: Part | 'good', figure?: FigureId): Term => {
    const name = names[part];
    return {
      sign: parts[part] < 0 ? '−' : '+',
      count: Math.abs(parts[part]),
      name: typeof name === 'string' ? name : name(parts.to, zone),
      part,
      figure,
    };
  };
  const before: Term = {
    sign: '',
    count: parts.before,
    name: names.before(parts.from, zone),
    part: undefined,
    figure: 'inPockets',
  };
  const picked: Term = {
    sign: '+',
    count: parts.picked,
    name: names.picked,
    part: undefined,
    figure: 'picked',
  };
  const terms: readonly Term[] = [
    ...(parts.before < 0 ? [{ ...before, sign: '−', count: -parts.before }] : [before]),
    picked,
    { ...made('good'), sign: '=' },
    made('rejected'),
    made('crushed'),
    made('inPockets', 'inPockets'),
    ...(parts.takenOut === 0 ? [] : [made('takenOut', 'takenOut')]),
    ...(parts.notSeen === 0 ? [] : [made('notSeen')]),
    made('unaccounted', 'unaccounted'),
  ];
  return (
    <ol className="balancesum" aria-label={said.sum}>
      {terms.map(({ sign, count, name, part, figure }) => (
        <li key={name + (part ?? '')} className={part === 'good' ? 'equals' : undefined}>
          <span className="sign">{sign}</span>
          <b>
            {figure === undefined ? words.count(count) : <Figure of={figure}>{words.count(count)}</Figure>}
          </b>
          <small>
            {part !== undefined && (
              <svg width="16" height="12" aria-hidden="true">
                <rect className={`rest ${part}`} x="1" y="1" width="14" height="10" />
              </svg>
            )}
            {name}
          </small>
        </li>
      ))}
    </ol>
  );
}
