import { clock, clockSeconds, day, weekdayClock } from './clock.ts';
import * as numbers from './format.ts';

/** How English says numbers, moments and counts, for the sections of its catalogue. */
export const locale = 'en-GB';
export const count = (n: number) => numbers.count(n, locale);
export const lasted = (ms: number) => numbers.duration(ms, locale);
/** Whole minutes that have passed; seconds below one; what was there at all is never nothing. */
export const past = (ms: number) => {
  if (ms >= 60_000) return lasted(Math.floor(ms / 60_000) * 60_000).replace(/ 00 s$/, '');
  return ms > 0 && ms < 1000 ? 'under 1 s' : lasted(ms);
};
export const at = (moment: number, zone: string) => clock(moment, zone, locale);
/** Where the day is not known by where it stands: `10:42 on Tue 17 Mar`. */
export const onDay = (moment: number, zone: string) => `${at(moment, zone)} on ${day(moment, zone, locale)}`;
export const exactly = (moment: number, zone: string) => clockSeconds(moment, zone, locale);

const DAY_MS = 86_400_000;
/** A moment with its day where that is not today; without `now`, for what is read later, always with its day. */
export function dated(moment: number, now: number | undefined, zone: string): string {
  if (
    now !== undefined &&
    day(moment, zone, locale) === day(now, zone, locale) &&
    Math.abs(now - moment) < DAY_MS
  )
    return at(moment, zone);
  const isNear = now !== undefined && Math.abs(now - moment) < 6 * DAY_MS;
  return isNear ? weekdayClock(moment, zone, locale) : `${day(moment, zone, locale)} ${at(moment, zone)}`;
}
export const capital = (words: string) => words.charAt(0).toLocaleUpperCase(locale) + words.slice(1);
const plural = new Intl.PluralRules(locale);
const ordinals = new Intl.PluralRules(locale, { type: 'ordinal' });
export const many = (n: number, one: string, other: string) => (plural.select(n) === 'one' ? one : other);

const SMALL = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
];
const NTH = [
  '',
  'first',
  'second',
  'third',
  'fourth',
  'fifth',
  'sixth',
  'seventh',
  'eighth',
  'ninth',
  'tenth',
];
export const small = (n: number) => SMALL[n] ?? count(n);
export const nth = (n: number) =>
  NTH[n] ??
  `${count(n)}${{ one: 'st', two: 'nd', few: 'rd', other: 'th', zero: 'th', many: 'th' }[ordinals.select(n)]}`;

/** How much of a list is shown. */
export function listed(shown: number, of: number): string {
  if (of <= 1) return '';
  return shown < of ? `The newest ${count(shown)} of ${count(of)}.` : `All ${count(of)}.`;
}

/** `tuck jam at bottom major flap`; a reason that names its place itself is not told it twice. */
export function placed(name: string, station: string | undefined): string {
  return station === undefined || name.includes(station) ? name : `${name} at ${station}`;
}
