import { SURENESS, type Sureness } from '../../../model/setpoints/estimate.ts';
import type {
  ErrorMeasured,
  SetpointsMeasured,
  SurenessMeasured,
} from '../../../model/setpoints/measured.ts';
import { AFTER, type JudgedAdjustment, type SetpointsRow } from './judge.ts';

const RULES = ['estimated', 'mean', 'bestRun', 'book'] as const;

/** All figures that are told of set points, from the rows of a proof. */
export function measuredOf(rows: readonly SetpointsRow[]): SetpointsMeasured {
  return {
    worlds: new Set(rows.map(({ world }) => world)).size,
    after: AFTER.map((runs) => {
      const some = rows.filter(({ after }) => after === runs);
      const adjustments = some.flatMap((row) => row.adjustments);
      const ranges = adjustments.flatMap(({ holds }) => (holds === null ? [] : [holds]));
      return {
        runs,
        least: Math.round(meanOf(some.map(({ least }) => least))),
        ...(Object.fromEntries(RULES.map((rule) => [rule, errorOf(some, rule)])) as Record<
          (typeof RULES)[number],
          ErrorMeasured
        >),
        better: share(some.map(({ estimated, mean }) => estimated < mean)),
        holds: share(ranges),
        ranges: ranges.length,
        adjustments: adjustments.length,
      };
    }),
    sureness: Object.fromEntries(
      SURENESS.map((sure) => [sure, surenessOf(rows, sure)]),
    ) as SetpointsMeasured['sureness'],
    together: togetherOf(rows.flatMap(({ adjustments }) => adjustments)),
  };
}

function errorOf(rows: readonly SetpointsRow[], rule: (typeof RULES)[number]): ErrorMeasured {
  const errors = rows.map((row) => row[rule]);
  return { mean: Math.round(meanOf(errors)), median: Math.round(medianOf(errors)) };
}

/** A number that is followed is right if its stations lose no more than a tenth beyond the least by it. */
const RIGHT = 0.1;

function surenessOf(rows: readonly SetpointsRow[], sure: Sureness): SurenessMeasured {
  const own = rows.flatMap(({ adjustments }) => adjustments).filter((one) => one.sure === sure);
  const ranges = own.flatMap(({ holds }) => (holds === null ? [] : [holds]));
  return {
    count: own.length,
    right: own.length > 0 ? share(own.map((one) => one.share <= RIGHT)) : undefined,
    holds: ranges.length > 0 ? share(ranges) : undefined,
    beyond: own.length > 0 ? Number((100 * meanOf(own.map((one) => one.share))).toFixed(1)) : undefined,
  };
}

function togetherOf(adjustments: readonly JudgedAdjustment[]): SetpointsMeasured['together'] {
  const count = (kind: number) => adjustments.filter(({ together }) => together === kind).length;
  return { named: count(1), missed: count(-2), wrongly: count(-1), of: adjustments.length };
}

/** The table of `model/setpoints/README.md`: cartons lost in a run beyond the least, and what ranges held. */
export function tableOf({ after }: SetpointsMeasured): readonly string[] {
  return after.map(({ runs, least, estimated, mean, bestRun, book, better, holds }) => {
    const cells = [estimated, mean, bestRun, book].map((error) => `${error.mean} (${error.median})`);
    return `| ${[runs, least, ...cells, `${better} %`, `${holds} %`].join(' | ')} |`;
  });
}

/** Where it is better and where worse: by what worlds are like, after ten runs. */
export function partsOf(rows: readonly SetpointsRow[]): readonly string[] {
  const ten = rows.filter(({ after }) => after === 10);
  const families = [...new Set(ten.map(({ world }) => familyOf(world)))].toSorted();
  return families.map((family) => {
    const own = ten.filter(({ world }) => familyOf(world) === family);
    const ranges = own.flatMap(({ adjustments }) =>
      adjustments.flatMap(({ holds }) => (holds === null ? [] : [holds])),
    );
    const [estimated, mean, bestRun] = (['estimated', 'mean', 'bestRun'] as const).map((rule) =>
      errorOf(own, rule),
    );
    const cells = [estimated!, mean!, bestRun!].map((error) => `${error.mean} (${error.median})`);
    return `| ${[familyNames[family] ?? family, own.length, ...cells, `${share(ranges)} %`].join(' | ')} |`;
  });
}

/** The table of how sure numbers were said to be. */
export function surenessTableOf({ sureness }: SetpointsMeasured): readonly string[] {
  return SURENESS.map((sure) => {
    const { count, right, holds, beyond } = sureness[sure];
    const said = (value: number | undefined) => (value === undefined ? '–' : `${value} %`);
    return `| ${[surenessNames[sure], count, said(right), said(beyond), said(holds)].join(' | ')} |`;
  });
}

const surenessNames: Readonly<Record<Sureness, string>> = {
  sure: 'sure',
  fairlySure: 'fairly sure',
  thin: 'thin',
  cannotSay: 'cannot say',
  neverVaried: 'never varied',
};

const familyNames: Readonly<Record<string, string>> = {
  absolute: 'straight to both sides',
  flatWell: 'flat, then steep walls',
  oneSided: 'steep to one side, almost level to the other',
  asymmetric: 'steeper to one side',
  steps: 'uneven steps',
  mixed: 'another family each adjustment',
};

function familyOf(world: string): string {
  return world.split(' ').at(-1)!;
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function medianOf(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

/** In hundred, to a tenth. */
function share(are: readonly boolean[]): number {
  return Number(((100 * are.filter(Boolean).length) / are.length).toFixed(1));
}
