import type { Adjustment } from '../line/line.ts';
import { onScale, stepsApart } from './standing.ts';

/** [SH7] Why a number that was entered is asked about, and which was more likely meant; the scale holds it, or not. */
export type NumberDoubt =
  /** The scale ends before it. */
  | { readonly kind: 'offScale'; readonly likely: number | undefined }
  /** It is a likely slip: digits in another order, a point forgotten, the number of another line of the sheet. */
  | { readonly kind: 'slip'; readonly likely: number; readonly of: string | undefined }
  /** Far from the book, and nobody ran it there. */
  | { readonly kind: 'far'; readonly likely: number | undefined }
  /** Finer than the scale is read. */
  | { readonly kind: 'fine'; readonly likely: number };

export interface DoubtAsked {
  readonly adjustment: Pick<Adjustment, 'number' | 'min' | 'max' | 'decimals'>;
  readonly book: number | undefined;
  /** Where it stood before, and where it ran at last. */
  readonly was: number | undefined;
  readonly ranAt: number | undefined;
  /** Numbers that ran well; undefined where nobody can say. */
  readonly ranWell?: { readonly from: number; readonly to: number } | undefined;
  /** The book's numbers of the other adjustments. */
  readonly others: readonly { readonly number: string; readonly book: number | undefined }[];
}

/** From the book by more than this many steps of its scale, and outside what ran well, is far. */
const FAR_STEPS = 20;
/** A number is taken for a slip only where what was meant lies so many times nearer to the book. */
const SLIP_TIMES = 4;

/** Undefined where there is nothing to ask. It only asks: what a person says stands is entered as it was typed. */
export function numberDoubt(value: number, asked: DoubtAsked): NumberDoubt | undefined {
  const { adjustment, book } = asked;
  const { min, max, decimals } = adjustment;
  const rounded = onScale(value, decimals);
  if (Math.abs(rounded - value) > 1e-9) return { kind: 'fine', likely: rounded };
  const near = known(asked);
  if (near.some((one) => stepsApart(one, value, decimals) === 0)) return undefined;
  const slip = slipOf(value, asked);
  if (value < min || value > max) return { kind: 'offScale', likely: slip?.likely };
  if (book === undefined || near.length === 0) return undefined;
  if (isNear(value, asked)) return undefined;
  if (slip) return { kind: 'slip', ...slip };
  return { kind: 'far', likely: undefined };
}

function known({ book, was, ranAt }: DoubtAsked): readonly number[] {
  return [book, was, ranAt].filter((one) => one !== undefined);
}

function isNear(value: number, { adjustment, book, ranWell }: DoubtAsked): boolean {
  const step = 10 ** -adjustment.decimals;
  if (ranWell && value >= ranWell.from - step && value <= ranWell.to + step) return true;
  return book === undefined || Math.abs(value - book) <= FAR_STEPS * step + 1e-9;
}

/** What was more likely meant: the nearest to the book of what one slip of a finger or an eye makes it. */
function slipOf(
  value: number,
  asked: DoubtAsked,
): { readonly likely: number; readonly of: string | undefined } | undefined {
  const { adjustment, book, others } = asked;
  if (book === undefined) return undefined;
  const { min, max, decimals } = adjustment;
  const fits = slips(value, decimals).filter((one) => one >= min && one <= max);
  const likely = fits.sort((a, b) => Math.abs(a - book) - Math.abs(b - book))[0];
  const times =
    likely === undefined ? 0 : Math.abs(value - book) / Math.max(10 ** -decimals, Math.abs(likely - book));
  if (likely !== undefined && times >= SLIP_TIMES) return { likely, of: undefined };
  const other = others.find(
    (one) => one.number !== adjustment.number && one.book !== undefined && Math.abs(one.book - value) < 1e-9,
  );
  return other && { likely: book, of: other.number };
}

function slips(value: number, decimals: number): readonly number[] {
  const scale = 10 ** decimals;
  const digits = String(Math.round(Math.abs(value) * scale));
  const swapped = [...digits].flatMap((_, place) => {
    const [a, b] = [digits[place], digits[place + 1]];
    if (b === undefined || a === b) return [];
    return [Number(digits.slice(0, place) + b + a + digits.slice(place + 2)) / scale];
  });
  const sign = value < 0 ? -1 : 1;
  const moved = [value / 10, value / 100, value * 10].map((one) => onScale(one, decimals));
  return [...swapped.map((one) => sign * one), ...moved, -value];
}
