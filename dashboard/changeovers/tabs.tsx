import type { ChangeoverNumbers } from '../../model/past/changeoverNumbers.ts';
import { words } from '../app/words.ts';
import { Line } from '../type/line.tsx';
import { measure } from '../type/measure.ts';

const said = words.screen.past.changeovers.changed;

const WIDTH = 8;
const HEIGHT = 15;

interface Move {
  readonly number: string;
  readonly at: number;
  readonly again: boolean;
}

/** Each time an adjustment was moved, or said: a tab let into the floor, solid after the first good carton and named there. */
export function MovedTabs({
  numbers,
  x,
  floor,
  width,
}: {
  readonly numbers: ChangeoverNumbers;
  readonly x: (at: number) => number;
  readonly floor: number;
  readonly width: number;
}) {
  const moves = movesOf(numbers);
  if (moves.length === 0) return null;
  const named = placedNames(
    moves.filter(({ again }) => again),
    x,
    width,
  );
  return (
    <g className="movedtabs">
      {moves.map(({ number, at, again }) => (
        <path
          key={`${number} ${at}`}
          className={again ? 'tab again' : 'tab'}
          d={`M${x(at) - WIDTH / 2} ${floor - HEIGHT}h${WIDTH}v${HEIGHT - 4}l-2 4h-${WIDTH - 4}l-2-4Z`}
        >
          <title>{said.tab(number, again)}</title>
        </path>
      ))}
      {named.map(({ number, at }) => (
        <Line key={`${number} ${at}`} x={x(at) + WIDTH} y={floor - 4} size={13}>
          {said.again(number)}
        </Line>
      ))}
    </g>
  );
}

function movesOf({ told, toBook }: ChangeoverNumbers): readonly Move[] {
  return [...told, ...toBook]
    .flatMap(({ number, moves }) => moves.map(({ at, again }) => ({ number, at, again })))
    .sort((a, b) => a.at - b.at);
}

/** Names that have room beside one another. */
function placedNames(moves: readonly Move[], x: (at: number) => number, width: number): readonly Move[] {
  let end = Number.NEGATIVE_INFINITY;
  return moves.filter(({ number, at }) => {
    const left = x(at) + WIDTH;
    const right = left + measure(said.again(number), 13);
    if (left < end + 6 || right > width) return false;
    end = right;
    return true;
  });
}
