import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { LineError } from '../../../model/trouble/trouble.ts';
import type { World } from './world.ts';

const number = z.number().finite();
const share = number.min(0).max(1);
const above = number.positive();
const between = z
  .strictObject({ from: above, to: above })
  .refine(({ from, to }) => from <= to, 'from is above to');
const numbers = z.record(z.string(), number);
const curve = z
  .array(z.tuple([number, number.min(0)]))
  .min(2)
  .refine(
    (rows) => rows.every(([at], place) => place === 0 || at > rows[place - 1]![0]),
    'deviations do not ascend',
  );

const shape = z.strictObject({
  name: z.string(),
  seed: z.number().int(),
  cartonsPerRun: between.refine(({ from, to }) => from < to, 'runs must be of uneven length: from below to'),
  lostPerReject: number.min(0),
  lostPerStop: number.min(0),
  combine: z.enum(['add', 'times']),
  stations: z
    .array(
      z.strictObject({
        id: z.string(),
        rejectsPerThousand: above,
        stopsPerThousand: number.min(0),
        runSpread: number.min(0),
        badDay: z.strictObject({ chance: share, times: above }),
        stopsFollow: number.min(0),
        charged: share,
      }),
    )
    .min(1),
  adjustments: z
    .array(
      z.strictObject({
        ...{
          number: z.string(),
          station: z.string(),
          min: number,
          max: number,
          step: above,
          tolerance: above,
        },
        ...{ sensor: z.boolean(), curve },
      }),
    )
    .min(1),
  crossEffects: z.array(
    z.strictObject({ adjustment: z.string(), station: z.string(), offset: number, curve }),
  ),
  interactions: z.array(
    z.strictObject({ station: z.string(), first: z.string(), second: z.string(), per: number, curve }),
  ),
  movedTogether: z.array(z.tuple([z.string(), z.string()])),
  sizes: z.array(z.strictObject({ id: z.string(), weight: above, book: numbers, best: numbers })).min(1),
  lots: z.array(z.strictObject({ id: z.string(), level: above, shifts: numbers })).min(1),
  runsPerLot: between,
  setters: z
    .array(
      z.strictObject({
        ...{ name: z.string(), weight: above, eye: number.min(0), misreads: number.min(0) },
        ...{ errors: z.enum(['normal', 'uniform', 'doubleExponential']), habit: number, keepsOwn: share },
        ...{ slips: share, correctsFrom: number.min(0), corrects: share, correctionError: number.min(0) },
        ...{ notices: z.enum(['at once', 'more and more']), correctionGoes: share },
        ...{
          correctsWrong: share,
          tapsAsBook: share,
          tapsUntrue: share,
          saysNothing: share,
          readsOff: share,
          readsBack: share,
          movesInRun: share,
        },
      }),
    )
    .min(1),
  wear: z.strictObject({ perRun: number, replacedEvery: above }),
});

/** A world from a file: see the README beside this for what it holds. */
export function readWorld(file: string): World {
  const told = shape.safeParse(parsed(file));
  if (!told.success) {
    const { path, message } = told.error.issues[0]!;
    throw bad(file, `${path.join('.') || 'the whole of it'}: ${message}`);
  }
  const wrong = wrongNames(told.data);
  if (wrong !== undefined) throw bad(file, wrong);
  return told.data;
}

function parsed(file: string): unknown {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    throw new LineError(`The world ${file} cannot be read`, {
      why: `${(error as Error).message}.`,
      mend: 'Name a file that is there: --world FILE.',
    });
  }
  try {
    return JSON.parse(text);
  } catch (error) {
    throw bad(file, `it is no JSON: ${(error as Error).message}`);
  }
}

/** Everything that is named must be there, and every size must have a number for every adjustment. */
function wrongNames(world: World): string | undefined {
  const stations = new Set(world.stations.map(({ id }) => id));
  const adjustments = new Set(world.adjustments.map(({ number }) => number));
  if (adjustments.size < world.adjustments.length) return 'adjustments: two have one number';
  if (stations.size < world.stations.length) return 'stations: two have one id';
  for (const { number, station, min, max } of world.adjustments) {
    if (!stations.has(station)) return `adjustments ${number}: there is no station ${station}`;
    if (min >= max) return `adjustments ${number}: min is not below max`;
    const missing = world.sizes.find(({ book, best }) => !(number in book && number in best));
    if (missing) return `sizes ${missing.id}: no book or best number for ${number}`;
    const outside = world.sizes.find(({ best }) => best[number]! < min || best[number]! > max);
    if (outside) return `sizes ${outside.id}: the best number of ${number} is outside its range`;
  }
  const named = [
    ...world.crossEffects.map(({ adjustment }) => adjustment),
    ...world.interactions.flatMap(({ first, second }) => [first, second]),
    ...world.movedTogether.flat(),
    ...world.lots.flatMap(({ shifts }) => Object.keys(shifts)),
  ];
  const unknown = named.find((one) => !adjustments.has(one));
  if (unknown !== undefined) return `there is no adjustment ${unknown}`;
  const where = [...world.crossEffects, ...world.interactions].find(({ station }) => !stations.has(station));
  return where && `there is no station ${where.station}`;
}

function bad(file: string, why: string): LineError {
  return new LineError(`The world ${file} cannot be judged`, {
    why: `${why}.`,
    mend: 'Correct it by tests/proof/setpoints/README.md, or begin with one of the worlds beside that.',
  });
}
