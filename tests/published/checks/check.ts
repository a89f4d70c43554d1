/** What a function gives: a number, a word, nothing, or several of them in the order in which they are printed. */
export type Got = Value | readonly Value[];
type Value = number | string | undefined;

/** One figure that was printed somewhere, and what ours gives for it. */
export interface Check {
  /** The figure, with what it is worked out from. */
  readonly check: string;
  /** A mark (see MARKS) and where it is from. */
  readonly source: string;
  /** As printed; several parted by a comma and a space, `-` for none. */
  readonly expected: string;
  readonly got: () => Got;
  /** How many units of the last printed digit it may be off, where that is not half of one. */
  readonly within?: number;
  /** Why. */
  readonly because?: string;
}

export interface Topic {
  readonly title: string;
  readonly about: string;
  readonly checks: readonly Check[];
}

export const MARKS: Readonly<Record<string, string>> = {
  F: 'read in a public copy of the named page or file',
  C: 'computed with the named open package, which is not ours; anyone can repeat it',
  'F+C': 'both, and they agree',
  M: 'from memory of the named standard or book, not looked up; the figure was recomputed',
  K: 'a case of our own; the figure follows by arithmetic',
};

type Row = readonly [check: string, expected: string, got: () => Got];

/** Rows that have one source. */
export function from(source: string, rows: readonly Row[]): Check[] {
  return rows.map(([check, expected, got]) => ({ check, source, expected, got }));
}

/** Rows whose last printed digit was cut or comes from rounded steps: off by so many units of it. */
export function loose(within: number, because: string, source: string, rows: readonly Row[]): Check[] {
  return from(source, rows).map((check) => ({ ...check, within, because }));
}

/** Undefined where all values are as printed, else what is wrong. */
export function difference({ expected, got, within }: Check): string | undefined {
  const printed = expected.split(', ');
  const values = listOf(got());
  if (printed.length !== values.length) return `${values.length} values, not ${printed.length}`;
  const wrong = printed.flatMap((text, place) =>
    agrees(text, values[place], within) ? [] : [`${values[place]}, not ${text}`],
  );
  return wrong.length > 0 ? wrong.join('; ') : undefined;
}

/** What ours gives, with two digits more than are printed. */
export function shown({ expected, got }: Check): string {
  const printed = expected.split(', ');
  return listOf(got())
    .map((value, place) => withMoreDigits(value, printed[place] ?? ''))
    .join(', ');
}

function listOf(got: Got): readonly Value[] {
  return Array.isArray(got) ? got : [got as Value];
}

const NUMBER = /^-?\d+(?:\.(\d+))?(?:e(-?\d+))?$/;

/** One unit of the last printed digit; of whole numbers none, for they are counts. */
function lastDigit(text: string): number | undefined {
  const number = NUMBER.exec(text);
  if (!number) return undefined;
  const [, decimals = '', exponent = '0'] = number;
  return decimals === '' && exponent === '0' ? 0 : 10 ** (Number(exponent) - decimals.length);
}

function agrees(text: string, value: Value, within: number | undefined): boolean {
  const unit = lastDigit(text);
  if (text === '-') return value === undefined;
  if (unit === undefined) return String(value) === text;
  if (typeof value !== 'number') return false;
  const slack = 1e-9 * Math.max(1, Math.abs(value)) * (unit === 0 ? 1 : unit);
  const most = within === undefined ? 0.5 * unit : within * (unit === 0 ? 1 : unit);
  return Math.abs(value - Number(text)) <= most + slack;
}

function withMoreDigits(value: Value, text: string): string {
  if (value === undefined) return '-';
  const number = NUMBER.exec(text);
  if (typeof value === 'string' || !number) return String(value);
  const [, decimals = '', exponent] = number;
  if (exponent !== undefined) return value.toExponential(decimals.length + 2);
  if (decimals === '')
    return Math.abs(value - Math.round(value)) < 1e-9 ? value.toFixed(0) : value.toFixed(2);
  return value.toFixed(decimals.length + 2);
}
