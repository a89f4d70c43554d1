/** The greatest whole number that divides all of these; 1 where they are all zero. */
export function greatestUnit(numbers: Float64Array): number {
  let unit = 0;
  for (let place = 0; place < numbers.length && unit !== 1; place += 1) {
    let rest = Math.abs(numbers[place]!);
    while (rest !== 0) {
      const less = unit % rest;
      unit = rest;
      rest = less;
    }
  }
  return unit === 0 ? 1 : unit;
}
