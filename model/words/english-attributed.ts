import { SHARES_MEASURED } from '../attribution/measured.ts';
import type { AttributedAnswer } from '../past/attributedAnswer.ts';
import { count, locale, many } from './english-say.ts';
import * as numbers from './format.ts';

const decimal = (n: number, decimals: number) => numbers.decimal(n, decimals, locale);
/** Parts of a carton are shown where there are few. */
const cartons = (n: number) => (n >= 20 ? count(n) : decimal(n, 1));
const share = (part: number, whole: number) => `${decimal((100 * part) / whole, 0)} %`;

/** Sentences about who may have spoiled the rejects. */
export const attributedWords = {
  title: 'Who may have spoiled the rejects',
  lead: ({ rejects, unattributed }: AttributedAnswer): readonly [string, string] =>
    rejects === 0
      ? ['No rejects.', '']
      : [
          `${count(rejects)} ${many(rejects, 'reject', 'rejects')}, ${share(unattributed, rejects)} laid to nobody.`,
          'The check tells a reason, not a station: this is an estimate, in shares, from what was seen at each station while the carton passed it.',
        ],
  cartons,
  reason: (name: string, n: number) => `${name}, ${count(n)}`,
  nobody: 'nobody',
  nobodySaid: (n: number) => `${cartons(n)} laid to nobody`,
  piece: (name: string, n: number, of: number) => `${name}: ${cartons(n)}, ${share(n, of)}`,
  columns: { station: 'station', laid: 'likely spoiled', charged: 'charged by the file', apart: 'apart' },
  table: 'Rejects as they are likely, beside those that the line’s file charges',
  apart: (n: number) => (Math.abs(n) < 0.05 ? '' : `${n > 0 ? '+' : '−'}${cartons(Math.abs(n))}`),
  charged:
    'The account goes on charging each reject to the one station that the line’s file names for its reason, so that cartons lost add up.',
  /** How far it may be trusted, in one sentence. */
  measured: (nearMisses: boolean) => {
    const { shifts, rejects, brier, table } = nearMisses
      ? SHARES_MEASURED.withNearMisses
      : SHARES_MEASURED.without;
    return `Held against the truth of ${count(rejects)} rejects in ${count(shifts)} simulated shifts${nearMisses ? '' : ' without such sensors'}, the shares missed by ${decimal(brier, 2)} (Brier score, 0 is perfect); the file’s one station for each reason missed by ${decimal(table, 2)}.`;
  },
  noNearMisses:
    'No station of this line tells of near misses, so stops, jogs, adjustments and the past are all there is to tell by.',
} as const;
