import { createContext, type ReactNode, useContext } from 'react';
import type { FigureId } from '../../model/figures/figures.ts';

/** On a wall nothing is offered to press: a figure there still answers who touches it, and is no button. */
export const Shows = createContext(false);

/** What makes an element answer, at one tap, how its figure is made. */
export function useFigure(): (id: FigureId) => Record<string, string | number> {
  const shows = useContext(Shows);
  return (id) =>
    shows
      ? { 'data-figure': id }
      : { 'data-figure': id, role: 'button', tabIndex: 0, 'aria-haspopup': 'dialog' };
}

/** A figure in running text, in a heading of a column, or as a number of its own. */
export function Figure({ of, children }: { readonly of: FigureId; readonly children: ReactNode }) {
  const figure = useFigure();
  return (
    <span className="figure" {...figure(of)}>
      {children}
    </span>
  );
}
