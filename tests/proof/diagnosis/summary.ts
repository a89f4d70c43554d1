import type { DiagnosisMeasured, SaidBin } from '../../../model/diagnosis/measured.ts';
import { type DiagnosisRow, type Look, saidAt } from '../diagnosis.ts';
import { SHARES, TROUBLE_KINDS, type TroubleKind } from './trouble.ts';

/** At first sight, and after the scales were read that were asked for. */
export const FIRST_SIGHT = 0;
export const AFTER_READING = 2;
export const AFTER_ASKING = 3;

export const KIND_NAMES: Readonly<Record<TroubleKind, string>> = {
  misSet: 'set wrongly at the changeover',
  moved: 'moved by hand since',
  loose: 'worked loose',
  knocked: 'knocked in a jam',
  lot: 'bad lot of board',
  worn: 'worn or broken part',
  unwritten: 'something the file does not name',
  nothing: 'nothing, a bad day',
};

export function measuredOf(rows: readonly DiagnosisRow[]): DiagnosisMeasured {
  return {
    troubles: rows.length,
    first: percent(rows, (row) => saidAt(row, FIRST_SIGHT).truth === 1),
    within3: percent(rows, (row) => saidAt(row, FIRST_SIGHT).truth <= 3),
    firstRead: percent(rows, (row) => saidAt(row, AFTER_READING).truth === 1),
    within3Read: percent(rows, (row) => saidAt(row, AFTER_READING).truth <= 3),
    read: Math.round((100 * rows.reduce((sum, { read }) => sum + read.length, 0)) / rows.length) / 100,
    dontKnow: dontKnowOf(rows, FIRST_SIGHT),
    dontKnowRead: dontKnowOf(rows, AFTER_READING),
  };
}

function dontKnowOf(rows: readonly DiagnosisRow[], look: number): DiagnosisMeasured['dontKnow'] {
  const said = rows.filter((row) => saidAt(row, look).dontKnow === 1);
  const right = said.filter((row) => saidAt(row, look).truth === 1);
  const due = rows.filter((row) => saidAt(row, look).truth === saidAt(row, look).dontKnow);
  return { said: said.length, right: right.length, due: due.length };
}

export function percent(rows: readonly DiagnosisRow[], is: (row: DiagnosisRow) => boolean): number {
  return Math.round((100 * rows.filter(is).length) / rows.length);
}

/** What was said first, by its chance in tens of hundredths: how often it was said, how likely on average, how often true. */
export function firstSaid(rows: readonly DiagnosisRow[], look: number): readonly SaidBin[] {
  return binsOf(rows, look, ({ chances }) => [0].filter((place) => place < chances.length));
}

/** The same of everything that was said: every cause, and "don't know". */
export function everythingSaid(rows: readonly DiagnosisRow[], look: number): readonly SaidBin[] {
  return binsOf(rows, look, ({ chances }) => chances.map((_, place) => place));
}

function binsOf(
  rows: readonly DiagnosisRow[],
  look: number,
  placesOf: (look: Look) => readonly number[],
): readonly SaidBin[] {
  const bins = Array.from({ length: 10 }, () => ({ times: 0, chance: 0, true: 0 }));
  for (const row of rows) {
    const one = saidAt(row, look);
    for (const place of placesOf(one)) {
      const chance = one.chances[place]! / 1000;
      const bin = bins[Math.min(9, Math.floor(10 * chance))]!;
      bin.times += 1;
      bin.chance += chance;
      if (one.truth === place + 1) bin.true += 1;
    }
  }
  return bins.map(({ times, chance, true: came }) => ({
    times,
    said: times === 0 ? undefined : Math.round((100 * chance) / times),
    true: times === 0 ? undefined : Math.round((100 * came) / times),
  }));
}

/** Shares of kinds of trouble other than the judged ones: what is asked of one is asked of its like so many times. */
export const OTHER_SHARES: Readonly<Record<string, Partial<Readonly<Record<TroubleKind, number>>>>> = {
  'as judged': {},
  'twice as many bad lots': { lot: 2 },
  'twice as many worn parts': { worn: 2 },
  'half as many set wrongly': { misSet: 0.5 },
  'four times as much that is nothing': { nothing: 4 },
  'twice as much that nobody wrote down': { unwritten: 2 },
};

/** The share of rows with this, where kinds of trouble come so many times as often. */
export function weightedPercent(
  rows: readonly DiagnosisRow[],
  times: Partial<Readonly<Record<TroubleKind, number>>>,
  is: (row: DiagnosisRow) => boolean,
): number {
  let [sum, all] = [0, 0];
  for (const row of rows) {
    const weight = times[row.kind] ?? 1;
    all += weight;
    if (is(row)) sum += weight;
  }
  return Math.round((100 * sum) / all);
}

const pair = (first: number, within3: number) => `${first} / ${within3}`;
const truthWithin = (look: number, places: number) => (row: DiagnosisRow) =>
  saidAt(row, look).truth <= places;

/** One row for each kind of trouble: what of it was found, on either machine, at first sight and after reading. */
export function kindTable(rows: readonly DiagnosisRow[]): readonly string[] {
  const cells = (own: readonly DiagnosisRow[]) =>
    [FIRST_SIGHT, AFTER_READING].map((look) =>
      own.length === 0 ? '–' : pair(percent(own, truthWithin(look, 1)), percent(own, truthWithin(look, 3))),
    );
  const line = (name: string, share: string, own: readonly DiagnosisRow[]) =>
    `| ${[name, share, ...(['line3', 'large'] as const).flatMap((machine) => cells(own.filter((row) => row.machine === machine)))].join(' | ')} |`;
  const asked = (own: readonly DiagnosisRow[]) => {
    const after = (['line3', 'large'] as const).flatMap((machine) => {
      const those = own.filter((row) => row.machine === machine);
      return [
        '',
        pair(percent(those, truthWithin(AFTER_ASKING, 1)), percent(those, truthWithin(AFTER_ASKING, 3))),
      ];
    });
    return `| all, and somebody was asked then how they look |  | ${after.join(' | ')} |`;
  };
  const usual = rows.filter(({ manner }) => manner === 'usual');
  return [
    ...TROUBLE_KINDS.map((kind) =>
      line(
        KIND_NAMES[kind],
        `${Math.round(100 * SHARES[kind])} %`,
        usual.filter((row) => row.kind === kind),
      ),
    ),
    line('all', '', usual),
    asked(usual),
    line(
      'all, at the station with most adjustments (three, seven)',
      '',
      usual.filter(({ station }) => station === 'bottom-major' || station === 's5'),
    ),
    line(
      'all, sensor on it',
      '',
      usual.filter(({ hasSensor }) => hasSensor),
    ),
    line(
      'all, somebody said how they look',
      '',
      usual.filter(({ said }) => said),
    ),
    line(
      'all, worlds stranger than the weights know',
      '',
      rows.filter(({ manner }) => manner === 'strange'),
    ),
  ];
}

export function sharesTable(rows: readonly DiagnosisRow[]): readonly string[] {
  const usual = rows.filter(({ manner }) => manner === 'usual');
  return Object.entries(OTHER_SHARES).map(([name, times]) => {
    const cells = (['line3', 'large'] as const).flatMap((machine) => {
      const own = usual.filter((row) => row.machine === machine);
      return [FIRST_SIGHT, AFTER_READING].map((look) =>
        pair(
          weightedPercent(own, times, truthWithin(look, 1)),
          weightedPercent(own, times, truthWithin(look, 3)),
        ),
      );
    });
    return `| ${[name, ...cells].join(' | ')} |`;
  });
}

export function binTable(rows: readonly DiagnosisRow[]): readonly string[] {
  const usual = rows.filter(({ manner }) => manner === 'usual');
  const strange = rows.filter(({ manner }) => manner === 'strange');
  const columns = [
    firstSaid(usual, FIRST_SIGHT),
    firstSaid(usual, AFTER_READING),
    everythingSaid(usual, FIRST_SIGHT),
    firstSaid(strange, FIRST_SIGHT),
  ];
  return Array.from({ length: 10 }, (_, nth) => {
    const cells = columns.map((bins) => {
      const { times, said, true: came } = bins[nth]!;
      return times === 0 ? '–' : `${said} → ${came} (${times.toLocaleString('en-GB')})`;
    });
    return `| ${10 * nth} to ${10 * nth + 10} | ${cells.join(' | ')} |`;
  });
}

export function dontKnowTable(rows: readonly DiagnosisRow[]): readonly string[] {
  return (['line3', 'large'] as const).flatMap((machine) =>
    (['usual', 'strange'] as const).map((manner) => {
      const own = rows.filter((row) => row.machine === machine && row.manner === manner);
      const cells = [FIRST_SIGHT, AFTER_READING].map((look) => {
        const { said, right, due } = dontKnowOf(own, look);
        return `${said} said, ${right} of them right; due ${due}`;
      });
      const names = { line3: 'Line 3', large: 'the larger machine' };
      return `| ${names[machine]}${manner === 'strange' ? ', stranger worlds' : ''} (${own.length.toLocaleString('en-GB')}) | ${cells.join(' | ')} |`;
    }),
  );
}
