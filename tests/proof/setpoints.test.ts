import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { SETPOINTS_MEASURED } from '../../model/setpoints/measured.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import { drawWorld } from './setpoints/drawWorld.ts';
import { AFTER, rowsOf, type SetpointsRow } from './setpoints/judge.ts';
import { play, poisson } from './setpoints/play.ts';
import { readWorld } from './setpoints/readWorld.ts';
import { measuredOf, partsOf, surenessTableOf, tableOf } from './setpoints/summary.ts';
import { truthOf } from './setpoints/truth.ts';
import { onStep, timesAt, type World } from './setpoints/world.ts';
import { JUDGED_FROM, JUDGED_WORLDS, setpointsProof } from './setpoints.ts';

const rows = readFileSync(join(import.meta.dirname, 'setpoints.ndjson'), 'utf8')
  .trim()
  .split('\n')
  .map((line) => JSON.parse(line) as SetpointsRow & { readonly commit: string });

describe('the proof of set points', () => {
  it('has every world after 5, 10 and 20 runs', () => {
    expect(rows).toHaveLength(JUDGED_WORLDS * AFTER.length);
    for (const { least, estimated, mean, bestRun, book } of rows)
      for (const beyond of [estimated, mean, bestRun, book]) expect(beyond).toBeGreaterThan(-0.02 * least);
  });

  it('[SB8] the figures that are told are those of the rows, and the tables of the README too', () => {
    const measured = measuredOf(rows);
    expect(SETPOINTS_MEASURED).toEqual(measured);
    const readme = readFileSync(join(import.meta.dirname, '../../model/setpoints/README.md'), 'utf8');
    for (const line of [...tableOf(measured), ...partsOf(rows), ...surenessTableOf(measured)])
      expect(readme.replace(/ +\|/g, ' |').replace(/\| +/g, '| ')).toContain(line);
  });

  it('[SB8] ranges of nine in ten hold the hidden best number in 85 to 95 of 100 after any number of runs', () => {
    for (const { holds, ranges } of SETPOINTS_MEASURED.after) {
      expect(ranges).toBeGreaterThan(500);
      expect(holds).toBeGreaterThanOrEqual(85);
      expect(holds).toBeLessThanOrEqual(95);
    }
  });

  it('[SB8] followed, the numbers lose less than the mean of past settings and than those of the best run', () => {
    for (const { estimated, mean, bestRun } of SETPOINTS_MEASURED.after)
      for (const figure of ['mean', 'median'] as const)
        expect(estimated[figure]).toBeLessThan(Math.min(mean[figure], bestRun[figure]));
  });

  it('one world, taken at random, comes out again, exactly', () => {
    const number = JUDGED_FROM + Math.floor(Math.random() * JUDGED_WORLDS);
    const world = drawWorld('judged', number);
    const kept = rows.filter((row) => row.world === world.name);
    expect(kept).toHaveLength(AFTER.length);
    expect([...rowsOf(world)]).toEqual(kept.map(({ commit: _commit, ...row }) => row));
  });
});

const folder = join(import.meta.dirname, 'setpoints/worlds');
const example = join(folder, readdirSync(folder)[0]!);

/** What is wrong with a world that differs from the example so. */
function troubleWith(change: (world: World) => unknown): LineError {
  const file = join(tmpdir(), `world-${process.pid}.json`);
  writeFileSync(file, JSON.stringify(change(JSON.parse(readFileSync(example, 'utf8')) as World)));
  return troubleOf(file);
}

function troubleOf(file: string): LineError {
  try {
    readWorld(file);
  } catch (error) {
    if (error instanceof LineError) return error;
    throw error;
  }
  throw new Error('nothing was wrong');
}

describe('a world from a file', () => {
  it('is judged as one that is drawn', () => {
    const [first] = setpointsProof(example);
    expect(first).toMatchObject({ after: 5, world: readWorld(example).name });
  });

  it('all that stand beside the README can be read', () => {
    for (const file of readdirSync(folder))
      expect(readWorld(join(folder, file)).sizes.length).toBeGreaterThan(0);
  });

  it('is refused with its place where something lacks or cannot be', () => {
    expect(troubleOf(join(folder, 'none.json')).message).toMatch(/cannot be read/);
    expect(troubleWith(() => 3).why).toMatch(/the whole of it/);
    expect(troubleWith((world) => ({ ...world, combine: 'minus' })).why).toMatch(/^combine: /);
    expect(troubleWith((world) => ({ ...world, lots: [{ id: 'A', level: 0, shifts: {} }] })).why).toMatch(
      /^lots.0.level: /,
    );
    const wrong = (part: Partial<World['adjustments'][number]>) =>
      troubleWith((world) => ({ ...world, adjustments: [{ ...world.adjustments[0]!, ...part }] })).why;
    expect(wrong({ station: 'nowhere' })).toMatch(/there is no station nowhere/);
    expect(
      wrong({
        curve: [
          [0, 1],
          [0, 2],
        ],
      }),
    ).toMatch(/deviations do not ascend/);
    expect(wrong({ number: '99.9' })).toMatch(/no book or best number for 99.9/);
    expect(troubleWith((world) => ({ ...world, movedTogether: [['1.1', '77.7']] })).mend).toMatch(/README/);
  });
});

describe('a world’s truth', () => {
  it('a curve is straight between its rows, and on beyond its ends', () => {
    const curve = [
      [-1, 3],
      [0, 1],
      [2, 2],
    ] as const;
    expect([-2, -0.5, 0, 1, 4].map((at) => timesAt(curve, at))).toEqual([5, 2, 1, 1.5, 3]);
  });

  it('nothing near what is called best loses less', () => {
    const world = readWorld(example);
    const { best, lostAt } = truthOf(world);
    const least = lostAt(best);
    for (const facts of world.adjustments)
      for (const side of [-1, 1]) {
        const beside = new Map(best).set(
          facts.number,
          onStep(facts, best.get(facts.number)! + side * facts.step),
        );
        expect(lostAt(beside)).toBeGreaterThanOrEqual(least - 1e-9);
      }
  });

  it('runs are the same each time, and counts have their mean', () => {
    const world = readWorld(example);
    expect(play(world, 3)).toEqual(play(world, 3));
    let seed = 1;
    const draw = () => {
      seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
      return seed / 4_294_967_296;
    };
    const counts = Array.from({ length: 4000 }, () => poisson(draw, 47.5));
    const mean = counts.reduce((sum, count) => sum + count, 0) / counts.length;
    expect(mean).toBeGreaterThan(47);
    expect(mean).toBeLessThan(48);
  });
});
