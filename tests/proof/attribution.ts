import { createHash } from 'node:crypto';
import type { MeasuredFor } from '../../model/attribution/accuracy.ts';
import { brierScoreOfShares } from '../../model/statistics/brier.ts';
import { accuracy, type ConfusionMatrix, confusionMatrix } from '../../model/statistics/confusionMatrix.ts';
import { standard, type Variant } from '../../simulator/lines/variant.ts';
import { NOBODY, type Told, toldOf } from './attributionRun.ts';
import type { Trouble } from './attributionTrouble.ts';
import { type AttributionSummary, byTable, digits, summaryOf } from './attributionSummary.ts';

/** How a run is equipped and what happens to it. */
export interface Setting extends Trouble {
  readonly variant: Variant;
  /** Jams are also cleared by a jog backwards, and hands knock cartons. */
  readonly handling?: boolean;
  /** Whether the shares are promised to be as good as such lines were measured; else it is told that nobody measured it. */
  readonly promised?: false;
  /** For minutes now and then nothing is heard: counters come back with steps of several. */
  readonly losses?: boolean;
}

const bare = { ...standard, loading: 'automatic', firstOut: false, encoders: false } as const;
const fourReverse = { ...standard, loading: 'four', tuck: 'reverse' } as const;

export const settings = {
  standard: { variant: standard },
  handled: { variant: standard, handling: true, losses: true },
  fourReverse: { variant: fourReverse },
  automaticBare: { variant: bare },
  unnamed: { variant: standard, unnamed: true },
  pocketsOff: { variant: standard, pocketsOff: 2, promised: false },
  sampled: { variant: standard, sampledMs: 1000, promised: false },
  chattering: { variant: standard, chatters: 'top-minor' },
  uncounted: { variant: standard, uncounted: true },
  noSensors: { variant: { ...standard, nearMisses: false } },
  unnamedNoSensors: { variant: { ...standard, nearMisses: false }, unnamed: true },
  fourReverseNoSensors: { variant: { ...fourReverse, nearMisses: false }, handling: true, losses: true },
  automaticNoSensors: { variant: { ...bare, nearMisses: false } },
} as const satisfies Record<string, Setting>;

export type SettingName = keyof typeof settings;

/** Shifts of one run. */
export const RUN_SHIFTS = 4;
const SEEDS = [31, 32, 33, 34, 35, 36, 37, 38];

/** One run: how good the shares of its rejects are, and how good the fixed table is. */
export interface AttributionRow {
  readonly proof: 'attribution';
  readonly kind: 'run';
  readonly setting: SettingName;
  readonly seed: number;
  readonly shifts: number;
  readonly rejects: number;
  /** Brier scores, to six digits. */
  readonly brier: number;
  readonly table: number;
  /** Of the shares that the line file alone gives, in whole thousandths: nothing seen, nothing learned. */
  readonly byFile: number;
  /** What the screen says in the end that the shares may be held to. */
  readonly heldTo: MeasuredFor | 'nothing';
  /** Mean share that is nobody's. */
  readonly unattributed: number;
  /** Share of rejects whose likeliest station did it; by the table. */
  readonly right: number;
  readonly rightByTable: number;
  readonly matrix: ConfusionMatrix;
  /** First letters of the hash of all shares. */
  readonly shares: string;
  /**
   * Shares add up to the rejects, and score better than those of the line's file, or are the same where nothing is seen; where
   * nothing is promised, that is told.
   */
  readonly equal: boolean;
}

/** Shares of who spoiled each rejected carton against the truth and against a fixed table; last what they say in all. */
export function* attribution(): Generator<AttributionRow | AttributionSummary> {
  const rows: AttributionRow[] = [];
  const all: { readonly setting: SettingName; readonly told: readonly Told[] }[] = [];
  for (const setting of Object.keys(settings) as SettingName[]) {
    for (const seed of SEEDS) {
      const { row, told } = runOf(setting, seed, RUN_SHIFTS);
      rows.push(row);
      all.push({ setting, told });
      yield row;
    }
  }
  for (const setting of Object.keys(settings) as SettingName[])
    yield summaryOf(
      setting,
      rows.filter((row) => row.setting === setting),
      all.filter((run) => run.setting === setting).flatMap(({ told }) => told),
    );
}

export function runOf(setting: SettingName, seed: number, shifts: number) {
  const { told, addUp, heldTo = 'nothing' } = toldOf(settings[setting], seed, shifts);
  const [brier, table] = [brierScoreOfShares(told)!, brierScoreOfShares(told.map(byTable))!];
  const byFile = brierScoreOfShares(told.map((one) => ({ truth: one.truth, shares: one.byFile })))!;
  const matrix = confusionMatrix(told.map(called));
  const row: AttributionRow = {
    proof: 'attribution',
    kind: 'run',
    setting,
    seed,
    shifts,
    rejects: told.length,
    brier: digits(brier),
    table: digits(table),
    byFile: digits(byFile),
    heldTo,
    unattributed: digits(told.reduce((sum, { shares }) => sum + shares.get(NOBODY)!, 0) / told.length),
    right: digits(accuracy(matrix)!),
    rightByTable: digits(told.filter((one) => one.truth === one.table).length / told.length),
    matrix,
    shares: hashOf(told),
    equal: addUp && isAsPromised(settings[setting], heldTo, { brier, byFile }),
  };
  return { row, told };
}

function isAsPromised(
  { promised }: Setting,
  heldTo: AttributionRow['heldTo'],
  { brier, byFile }: Pick<AttributionRow, 'brier' | 'byFile'>,
): boolean {
  if (promised === false) return heldTo === 'nothing';
  if (heldTo === 'file' || heldTo === 'fileUnnamed') return brier === byFile;
  return heldTo !== 'nothing' && brier < byFile;
}

function called({ truth, shares }: Told) {
  const [most] = [...shares].sort((a, b) => b[1] - a[1])[0]!;
  return { truth, called: most === NOBODY ? undefined : most };
}

function hashOf(told: readonly Told[]): string {
  const text = told.map(({ truth, shares }) => `${truth} ${JSON.stringify([...shares])}`).join('\n');
  return createHash('sha256').update(text).digest('hex').slice(0, 12);
}
