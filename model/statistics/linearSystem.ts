import { assert } from '../trouble/trouble.ts';

/** What solves rows · x = right, by Gauss's elimination with row pivots. Rows and right side are not changed. */
export function solve(rows: readonly (readonly number[])[], right: readonly number[]): number[] {
  const system = rows.map((row, place) => [...row, right[place]!]);
  const size = system.length;
  for (let column = 0; column < size; column += 1) {
    bringUp(system, column);
    const pivot = system[column]!;
    for (const row of system.slice(column + 1)) {
      const times = row[column]! / pivot[column]!;
      for (let place = column; place <= size; place += 1) row[place]! -= times * pivot[place]!;
    }
  }
  const solution = new Array<number>(size).fill(0);
  for (let place = size - 1; place >= 0; place -= 1) {
    const row = system[place]!;
    let rest = row[size]!;
    for (let later = place + 1; later < size; later += 1) rest -= row[later]! * solution[later]!;
    solution[place] = rest / row[place]!;
  }
  return solution;
}

/** The row with the largest value in a column becomes its pivot. */
function bringUp(system: number[][], column: number): void {
  let best = column;
  for (let place = column + 1; place < system.length; place += 1)
    if (Math.abs(system[place]![column]!) > Math.abs(system[best]![column]!)) best = place;
  const pivot = system[best]!;
  assert(pivot[column] !== 0, 'a system of equations without one solution');
  system[best] = system[column]!;
  system[column] = pivot;
}
