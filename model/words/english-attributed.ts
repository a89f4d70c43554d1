import type { MeasuredFor } from '../attribution/accuracy.ts';
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
  lead: ({ rejects, unattributed, heldTo }: AttributedAnswer): readonly [string, string] => {
    if (rejects === undefined || unattributed === undefined)
      return ['It cannot be told.', 'Nobody saw any of this time.'];
    if (rejects === 0) return ['No rejects.', ''];
    const laid = `${count(rejects)} ${many(rejects, 'reject', 'rejects')}, ${share(unattributed, rejects)} laid to nobody.`;
    return [
      laid,
      `The check tells a reason, not a station: this is an estimate, in shares, ${byWhat(heldTo)}.`,
    ];
  },
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
  measured,
  doubted: ({ doubted }: AttributedAnswer): string => {
    if (doubted.length === 0) return '';
    const named = doubted.map(({ station, nearer }) => `${station.number} ${station.name} (${lies(nearer)})`);
    return `Near misses do not lie where the line’s file says that the rejected cartons were: ${named.join(', ')}. Either the pockets in the file are wrong, or values are looked at too seldom to tell one cycle from the next. Until that is mended, do not go by these shares.`;
  },
} as const;

function byWhat(heldTo: MeasuredFor | undefined): string {
  return heldTo === 'file' || heldTo === 'fileUnnamed'
    ? 'as the line’s file gives them: nobody sees what happens to a carton at a station'
    : 'from what was seen at each station while the carton passed it';
}

function lies(nearer: number | undefined): string {
  if (nearer === undefined) return 'in its cycle no oftener than beside it';
  const pockets = `${count(Math.abs(nearer))} ${many(Math.abs(nearer), 'pocket', 'pockets')}`;
  return `${pockets} ${nearer > 0 ? 'nearer to the check' : 'further from the check'}`;
}

function measured(heldTo: MeasuredFor | undefined): string {
  if (heldTo === undefined)
    return 'How far such shares may be trusted was not measured for a line like this.';
  const { shifts, rejects, brier, byFile, table } = SHARES_MEASURED[heldTo];
  const truth = `Held against the truth of ${count(rejects)} rejects in ${count(shifts)} simulated shifts`;
  const charged = `its one station for each reason by ${decimal(table, 2)}`;
  const score = '(Brier score, 0 is perfect, 2 the worst)';
  const unnamed = ' of a line whose file does not name the stations that a reason may come from';
  switch (heldTo) {
    case 'file':
      return `${truth}, the shares of the line’s file missed by ${decimal(brier, 2)} ${score}, ${charged}. Stops, jogs, adjustments and the past were tried as well, and told no more.`;
    case 'fileUnnamed':
      return `${truth}${unnamed}, the shares missed by ${decimal(brier, 2)} ${score}, ${charged}.`;
    case 'sensed':
      return `${truth}, the shares missed by ${decimal(brier, 2)} ${score}; the shares of the line’s file alone by ${decimal(byFile, 2)}, ${charged}.`;
    case 'unnamed':
      return `${truth}${unnamed}, the shares missed by ${decimal(brier, 2)} ${score}; those of the file alone by ${decimal(byFile, 2)}, ${charged}.`;
  }
}
