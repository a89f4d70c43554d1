import { describe, expect, it } from 'vitest';
import { loadedByHand } from '../../../model/past/loadedByHand.ts';
import { piecesOf } from '../../../model/past/pieces.ts';
import { inShort, runTold, stationNormal } from '../../../model/past/worsePast.ts';
import { indexOf } from '../../../model/fold/lineIndex.ts';
import type { Line } from '../../../model/line/line.ts';
import { standard } from '../../../simulator/lines/variant.ts';
import { boundLine } from '../../simulator/simulatedLine.ts';
import { at, type Rows, running, smallLine } from '../smallLine.ts';
import { recorded } from '../past/recorded.ts';

const line = smallLine();
const size = { id: 'sachet-20', name: 'Sachet 20' };
const RUN = 60 * 20;

/** Five runs of fifteen minutes, a hundred cartons in each, and so many rejects at fold a minute in the last of them. */
function rows(rejects: number): Rows {
  let [good, open] = [0, 0];
  const minutes = Array.from({ length: 75 }, (_, n) => {
    const second = RUN * Math.floor(n / 15) + 60 * (n % 15);
    good += 100;
    open += n >= 60 ? rejects : n % 3 === 0 ? 1 : 0;
    return [
      [second + 20, 'rejectOpen', open],
      [second + 30, 'good', good],
    ] as Rows;
  });
  // in the last run a jam at fold, and the same again with the third carton after it
  const stops: Rows = [
    [4 * RUN + 2, 'state', 11],
    [4 * RUN + 2, 'reason', 51],
    [4 * RUN + 8, 'state', 6],
    [4 * RUN + 8, 'reason', 0],
    [4 * RUN + 12, 'state', 11],
    [4 * RUN + 12, 'reason', 51],
    [4 * RUN + 18, 'state', 6],
    [4 * RUN + 18, 'reason', 0],
  ];
  return [...running(), ...[...minutes.flat(), ...stops].sort((a, b) => a[0] - b[0])];
}

interface Wish {
  readonly runs?: number;
  readonly gap?: readonly [number, number];
  readonly line?: Line;
  /** Of the last run. */
  readonly lookedFrom?: number;
}

function normal(rejects: number, wish: Wish = {}) {
  const { fold, of, tallyAt } = recorded(wish.line ?? line, [...rows(rejects), [5 * RUN, 'state', 11]]);
  const gaps = wish.gap ? [{ from: at(wish.gap[0]), to: at(wish.gap[1]) }] : [];
  const runs = Array.from({ length: 5 }, (_, n) => ({ from: at(n * RUN), to: at(n * RUN + 60 * 16) }));
  const told = runs.map((run, n) => {
    const looked = n === 4 && wish.lookedFrom ? { from: at(wish.lookedFrom), to: run.to } : run;
    return runTold({
      index: fold.index,
      run,
      looked,
      tallyAt,
      stops: of('stop'),
      gaps,
      minutes: of('minute').filter((minute) => minute.at >= looked.from && minute.at <= looked.to),
    });
  });
  return stationNormal(fold.index, 'fold', size, told.slice(-(wish.runs ?? 5)));
}

const ruleOf = (found: ReturnType<typeof normal>, rule: string) =>
  found!.rules.find((one) => one.rule === rule)!;

describe('a station’s own normal from what records tell', () => {
  it('[NW1] takes whole batches of the newest run, against the runs before it', () => {
    const found = normal(0);
    expect(found).toMatchObject({ size, earlierRuns: 4, from: Date.parse('2026-03-17T07:20:00+01:00') });
    // fifteen minutes are five batches of 300
    expect(ruleOf(found, 'run')).toMatchObject({ seen: 0, of: 1500, outside: false });
    // 20 of 6,020
    expect(ruleOf(found, 'run').expected).toBeGreaterThan(4);
    expect(ruleOf(found, 'run').expected).toBeLessThan(7);
  });

  it('[NW1] is outside where rejects are many, in short too', () => {
    const found = normal(9);
    expect(ruleOf(found, 'run')).toMatchObject({ seen: 135, outside: true });
    expect(inShort('fold', found)).toEqual({ station: 'fold', outside: ['run'], tooThin: ['drift'] });
  });

  it('[NW3] counts a jam and the same again as one, and none of other runs', () => {
    expect(ruleOf(normal(0), 'stops')).toMatchObject({ seen: 1, of: 1500, outside: false });
  });

  it('[NW4] says that there is too little: of a past, of a run, or of anything at all', () => {
    expect(normal(5, { runs: 2 })!.rules.map(({ tooThin }) => tooThin?.kind)).toEqual([
      'past',
      'past',
      'past',
    ]);
    expect(inShort('fold', undefined)).toEqual({ station: 'fold', outside: [], tooThin: [] });
  });

  it('[NW1] [NW2] holds no crew against another: where people load, what they leave empty is in none of the rules', () => {
    const byHand = boundLine();
    expect(
      byHand.line.stations.filter(({ id }) => loadedByHand(indexOf(byHand.line), id)).map(({ id }) => id),
    ).toEqual(['loading']);
    const automatic = boundLine({ ...standard, loading: 'automatic' });
    expect(automatic.line.stations.some(({ id }) => loadedByHand(indexOf(automatic.line), id))).toBe(false);
    const loaded = smallLine({
      rejects: [
        { id: 'open', name: 'open', station: 'discharge', means: 'reject' },
        { id: 'empty', name: 'empty', station: 'fold', means: 'notLoaded' },
      ],
    });
    const found = normal(9, { line: loaded });
    expect(found!.byHand).toBe(true);
    expect(found!.rules.map(({ rule }) => rule)).toEqual(['stops']);
    const { loading } = loaded;
    const alone = { ...loading, crews: loading.crews.slice(0, 1), positions: loading.positions.slice(0, 1) };
    const byItself = normal(9, { line: { ...loaded, loading: alone } });
    expect(byItself!.byHand).toBe(false);
    expect(byItself!.rules.map(({ rule }) => rule)).toEqual(['run', 'drift', 'stops']);
  });

  it('[NW4] a run that is longer than can be looked at stays one run, and is told from the piece that is looked at', () => {
    const long = { from: at(0), to: at(20 * 24 * 3600) };
    const pieces = piecesOf(long);
    expect(pieces.map(({ from, to }) => (to - from) / (24 * 3600 * 1e7))).toEqual([8, 8, 4]);
    expect([pieces[0]!.from, pieces.at(-1)!.to]).toEqual([long.from, long.to]);
    const found = normal(0, { lookedFrom: 4 * RUN + 60 * 6 });
    expect(found!.since).toBe(found!.from + 6 * 60_000);
    // the six minutes before are not of the run as it is looked at, and tell nothing of what is normal for it
    expect(ruleOf(found, 'run').of).toBe(900);
    expect(found!.earlierRuns).toBe(4);
  });

  it('[CV1] what came beside time that nobody saw is in no batch of the run', () => {
    const found = normal(0, { gap: [4 * RUN + 65, 4 * RUN + 70] });
    // the first two minutes are left out
    expect(ruleOf(found, 'run').of).toBe(1200);
  });
});
