import type { Learned, SetPointRow } from '../past/setPointsPast.ts';
import type { Sureness } from '../setpoints/estimate.ts';
import { count, locale, many } from './english-say.ts';
import * as numbers from './format.ts';

type Scaled = Pick<SetPointRow, 'decimals'>;

/** A number as it stands on the machine's own scale, with its decimals. */
export function number(value: number, { decimals }: Scaled): string {
  return Number.isNaN(value) ? '' : numbers.decimal(value, decimals, locale);
}

export function unitOf({ unit }: Pick<SetPointRow, 'unit'>): string {
  return unit === 'deg' ? '°' : ` ${unit}`;
}

/** A difference always carries its sign. */
export function signed(value: number, row: Scaled): string {
  if (value === 0) return number(0, row);
  return `${value > 0 ? '+' : '−'}${number(Math.abs(value), row)}`;
}

export const SURE: Readonly<Record<Sureness, string>> = {
  sure: 'sure',
  fairlySure: 'fairly sure',
  thin: 'thin',
  cannotSay: 'cannot say',
  neverVaried: 'never varied',
};

/** By what a number is known: runs, settings, lots. */
export function counted({ runs, settings, lots }: Learned): string {
  return [
    `${count(runs)} ${many(runs, 'run', 'runs')}`,
    `${count(settings)} ${many(settings, 'setting', 'settings')}`,
    ...(lots > 0 ? [`${count(lots)} ${many(lots, 'lot', 'lots')}`] : []),
  ].join(', ');
}

/** Why it is no surer than that. */
export function sureWhy(learned: Learned): string {
  switch (learned.sure) {
    case 'sure':
    case 'fairlySure':
      return sides(learned);
    case 'thin':
      return learned.together.length > 0
        ? `always moved with ${learned.together.join(', ')}`
        : sides(learned) === ONE_SIDE
          ? ONE_SIDE
          : 'the runs leave much open';
    case 'cannotSay':
      return 'too few runs';
    case 'neverVaried':
      return 'ran here, says nothing about elsewhere';
  }
}

const ONE_SIDE = 'tried on one side only';

/** On which sides of the recommended number it ran. */
function sides({ recommended, marks }: Learned): string {
  const at = recommended ?? Number.NaN;
  const both = marks.some((mark) => mark.at < at) && marks.some((mark) => mark.at > at);
  return both ? 'tried on both sides' : ONE_SIDE;
}
