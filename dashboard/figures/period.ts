/** Of what figures are: a stretch of time, and of it perhaps one size, kind of shift or order. */
export interface FiguresOf {
  readonly from: number | undefined;
  readonly to: number | undefined;
  readonly size: string | undefined;
  readonly shift: string | undefined;
  readonly order: string | undefined;
}

/** Attributes that mark an element with what the figures in it are of, for whoever asks how one of them is made. */
export function figuresMarked({ from, to, size, shift, order }: FiguresOf): FiguresMark {
  if (from === undefined) return {};
  return {
    'data-from': from,
    'data-to': to,
    'data-size': size,
    'data-shift': shift,
    'data-order': order,
  };
}

export type FiguresMark = Readonly<Record<`data-${string}`, string | number | undefined>>;

/** The same of a screen: what it looked at, and what of that was chosen on it. */
export function figuresSeen(
  seen: { readonly from: number; readonly to: number } | undefined,
  { size, shift, order }: Readonly<Record<string, string | undefined>> = {},
): FiguresMark {
  return figuresMarked({ from: seen?.from, to: seen?.to, size, shift, order });
}

/** What the figures at an element are of; without a mark, all of the shift that runs. */
export function figuresAt(element: Element): FiguresOf {
  const { from, to, size, shift, order } = element.closest<HTMLElement>('[data-from]')?.dataset ?? {};
  const moment = (text: string | undefined) => (text === undefined ? undefined : Number(text));
  return { from: moment(from), to: moment(to), size, shift, order };
}
