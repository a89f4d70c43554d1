import type { Learned, SetPointRow, Sure } from '../past/setPointsPast.ts';
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

export const SURE: Readonly<Record<Sure, string>> = {
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
export function sureWhy({ sure, runs }: Learned): string {
  switch (sure) {
    case 'sure':
      return 'tried on both sides';
    case 'fairlySure':
      return 'tried on one side only';
    case 'thin':
      return 'too few runs';
    case 'cannotSay':
      return runs === 1 ? 'one run is too few' : 'the runs do not tell';
    case 'neverVaried':
      return 'ran here, says nothing about elsewhere';
  }
}
