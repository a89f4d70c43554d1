import type { ReportKind } from '../report/reportPeriod.ts';
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
  /** A text that finds so much room, with what is left of it told. */
  cut: (text: string, most: number): string => {
    const { kept, left, of } = cutText(text, most);
    if (left === 0) return text;
    const counted = of === 'words' ? many(left, 'word', 'words') : many(left, 'character', 'characters');
    return `${kept} … and ${count(left)} more ${counted}`;
  },
} as const;
