import type { ReportKind } from '../report/reportPeriod.ts';
import { REPORTS_MEASURED } from '../report/measured.ts';
import type { Report } from '../report/report.ts';
import { cutText } from '../report/cutText.ts';
import { day } from './clock.ts';
import { at, count, locale, many } from './english-say.ts';

const when = (moment: number, zone: string) => `${day(moment, zone, locale)} ${at(moment, zone)}`;
const month = (moment: number, zone: string) =>
  new Intl.DateTimeFormat(locale, { month: 'long', year: 'numeric', timeZone: zone }).format(moment);

/** What a report says where its page has no room, and where there is none. */
export const reportPaperWords = {
  /** A period that a link names and that is not among those listed. */
  another: {
    shift: (moment: number, zone: string) => `shift of ${when(moment, zone)}`,
    week: (moment: number, zone: string) => `week of ${day(moment, zone, locale)}`,
    month,
    size: month,
  } satisfies Readonly<Record<Exclude<ReportKind, 'order'>, (moment: number, zone: string) => string>>,
  /** A text that finds so much room, with what is left of it told; whole where telling it would take as much. */
  cut: (text: string, most: number): string => {
    const { kept, left, of } = cutText(text, most);
    if (left === 0) return text;
    const counted = of === 'words' ? many(left, 'word', 'words') : many(left, 'character', 'characters');
    const shown = `${kept} … and ${count(left)} more ${counted}`;
    return shown.length < text.length ? shown : text;
  },
  moreHandedOver: (n: number) =>
    n > 0 ? `And ${count(n)} more ${many(n, 'order', 'orders')} handed over.` : '',
  moreSignatures: (n: number) => (n > 0 ? `And ${count(n)} more ${many(n, 'signature', 'signatures')}.` : ''),
  moreStations: (n: number) =>
    n > 0 ? `And ${count(n)} more ${many(n, 'station', 'stations')}, framed above.` : '',
  /** Of the stations that are not named: whether they could be judged at all. */
  asUsual: ({ stations }: Pick<Report, 'stations'>): string => {
    const counted = stations.filter(({ kind }) => kind !== undefined);
    const named = counted.filter(({ more }) => more).length;
    const judged = counted.filter(({ usual }) => usual !== undefined).length;
    if (judged === 0) return 'No station could be judged: the past is too thin.';
    const [others, tooThin] = [judged - named, counted.length - judged];
    if (named > 0) return othersAsUsual(others, tooThin);
    if (tooThin === 0) return 'No station is further from its own past than its runs differ by.';
    return `${count(judged)} of ${count(counted.length)} stations could be judged: ${many(judged, 'it is not', 'none is')} further from its own past than its runs differ by.`;
  },
  /** Measured on shifts, so of other periods there is none; nor where nothing was judged. */
  odds: ({ kind, stations }: Pick<Report, 'kind' | 'stations'>): string =>
    kind !== 'shift' || stations.every(({ usual }) => usual === undefined)
      ? ''
      : `In ${count(REPORTS_MEASURED.reports)} simulated shifts in order one report in ${count(REPORTS_MEASURED.onceIn)} named a station, at worst one in ${count(REPORTS_MEASURED.worst)}.`,
} as const;

/** Beside stations that are named: of the others, so many were judged, and so many could not be. */
function othersAsUsual(others: number, tooThin: number): string {
  if (tooThin === 0) return others === 0 ? '' : 'The others are as usual.';
  if (others === 0) return 'Of the others the past is too thin.';
  return `Of the others ${count(others)} could be judged and ${many(others, 'is', 'are')} as usual; of ${count(tooThin)} the past is too thin.`;
}
