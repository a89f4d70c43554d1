import { type FigureId, figureOf, isFigure } from '../figures/figures.ts';
import type { FiguresAnswer } from '../figures/figuresAnswer.ts';
import type { FigureValue, NoValue } from '../figures/figureValues.ts';
import { count, lasted, locale, many, past } from './english-say.ts';
import { FIGURE_WORDS } from './english-figures-words.ts';
import * as numbers from './format.ts';

const decimal = (n: number, decimals: number) => numbers.decimal(n, decimals, locale);
const MINUTE_MS = 60_000;

/** A share under 1 is never said to be all of it, as rounding up would. */
function share(value: number): string {
  const said = value < 1 && value >= 0.9995 ? 0.999 : value;
  return `${decimal(said * 100, value < 0.1 ? 2 : 1)} %`;
}

/**
 * A value in its unit; times are minutes, shares 0 to 1. A page that was signed may bear a figure that there is no more:
 * that is a number without a unit.
 */
function inUnit(id: FigureId, value: number): string {
  if (!isFigure(id)) return decimal(value, 2);
  switch (figureOf(id).unit) {
    case 'cartons':
    case 'times':
      return count(value);
    case 'minutes':
    case 'duration':
      return value >= 10 || value < 1 ? past(value * MINUTE_MS) : lasted(value * MINUTE_MS);
    case 'share':
      return share(value);
    case 'perMinute':
      return decimal(value, 1);
    case 'perThousand':
      return decimal(value, 1);
    case 'moment':
    case 'reading':
      return decimal(value, 1);
  }
}

const NONE: Readonly<Record<NoValue, string>> = {
  noTime: 'no time to make it of',
  noCartons: 'no cartons',
  noFailure: 'no failure',
  noIdealRate: 'a size has no ideal rate',
  byShift: 'kept by whole shifts',
  noCounter: 'no counter for it',
  notSeen: 'nobody was looking',
  notKnown: 'not known',
};

/** What a figure comes to, and its range or why there is none; each may be empty. */
function told(value: FigureValue | undefined): readonly [string, string] {
  if (!value) return ['–', ''];
  const { id, lower, upper, none } = value;
  if (value.value === undefined)
    return [
      '–',
      none === 'noFailure' && id === 'mtbf' && lower !== undefined
        ? `no failure; longer than ${inUnit(id, lower)} with 95 %`
        : none === undefined
          ? ''
          : NONE[none],
    ];
  const said = inUnit(id, value.value);
  if (lower === undefined) return [said, ''];
  return [
    said,
    upper === undefined ? `more than ${inUnit(id, lower)}` : `${inUnit(id, lower)} to ${inUnit(id, upper)}`,
  ];
}

/** Sentences of the Figures screen. */
export const figuresScreen = {
  title: (span: string, of: string | undefined) => `Figures${of === undefined ? '' : `, ${of}`}, ${span}`,
  /** The answer first, in bold; then what it is made of. */
  lead: (answer: FiguresAnswer): readonly [string, string] => {
    const find = (id: FigureId) => answer.values.find((one) => one.id === id);
    const value = (id: FigureId) => told(find(id))[0];
    if (answer.parts === 0) return ['Nothing of it in this time.', ''];
    if (find('oee')?.value === undefined) {
      const why = find('oee')?.none;
      return [`${value('good')} good cartons.`, why === undefined ? '' : `No OEE: ${NONE[why]}.`];
    }
    return [
      `OEE ${value('oee')}, NEE ${value('nee')}.`,
      `Availability ${value('availability')} × effectiveness ${value('effectiveness')} × quality ${value('qualityRatio')}; ${value('good')} good cartons.`,
    ];
  },
  told,
  inUnit,
  unitOf: (id: FigureId) => {
    const unit = isFigure(id) ? figureOf(id).unit : undefined;
    return unit === 'perMinute' ? 'a minute' : unit === 'perThousand' ? 'in 1,000' : '';
  },
  nothing: 'Nothing of this kind ran in this time, so there is no figure of it.',
  parts: (n: number) =>
    n === 1
      ? ''
      : `Added up over ${count(n)} ${many(n, 'stretch', 'stretches')}: times and cartons are summed, ratios are made of the sums.`,
  time: {
    title: 'What is left of the time',
    about: 'Each strip is what is left of the one above it; what is cut off lies beside it.',
    strips: {
      plannedOperationTime: 'in shifts',
      plannedBusyTime: 'could be used',
      busyTime: 'orders on the line',
      processingTime: 'producing or set up',
      actualProductionTime: 'producing',
      idealTime: 'needed at the ideal rate',
      goodTime: 'of that, the share that was good',
    },
    cut: {
      plannedDownTime: 'planned pauses',
      notSeen: 'not seen',
      downTime: 'starved, blocked, pauses over',
      delayTime: 'own stops, safety stops',
      setupTime: 'set-up',
      slower: 'slower than ideal',
      faster: 'faster than ideal',
      spoiled: 'rejects, crushed',
    },
    oee: (share: string) => `time at the ideal rate × quality ratio ÷ time that could be used = OEE ${share}`,
    none: 'No time in shifts that was seen: nothing to divide.',
  },
  groups: {
    effectiveness: 'Effectiveness',
    time: 'Use of time',
    failures: 'Stops and failures',
    cartons: 'Cartons',
  },
  columns: { figure: 'figure', value: 'value', range: '95 % range, or why none', made: 'made of' },
  table: 'Key figures',
  settings: 'What they stand on',
  ideal: (name: string, ideal: number) => `${name}: ideal rate ${decimal(ideal, 0)} a minute`,
  minor: (minutes: number) => `A stop shorter than ${count(minutes)} minutes is a minor one.`,
  settingsFoot:
    'Ideal rates, pauses, shifts and the limit of a minor stop are set in the line’s file. Change them there, and every figure follows.',
  export: 'Figures as a file',
  file: (line: string, from: string, to: string) => `${line}-figures-${from}-to-${to}.csv`,
  fileColumns: [
    'figure',
    'name',
    'value',
    'unit',
    'lower',
    'upper',
    'why none',
    'kind',
    'how it is made',
    'source',
  ],
  fileUnits: {
    cartons: 'cartons',
    minutes: 'minutes',
    duration: 'minutes',
    share: 'share, 0 to 1',
    perMinute: 'a minute',
    perThousand: 'in 1,000',
    times: 'times',
    moment: 'moment',
    reading: 'reading',
  },
  none: NONE,
  /** One that there is no more is called by its id. */
  nameOf: (id: FigureId) => (isFigure(id) ? FIGURE_WORDS[id].name : String(id)),
} as const;
