import { createContext, type ReactNode, useContext } from 'react';
import type { FigureId } from '../../model/figures/figures.ts';

/** On a wall nothing is offered to press: a figure there still answers who touches it, and is no button. */
export const Shows = createContext(false);

/** In a drawing that is said in sentences beside it only the figures speak: they can be asked, the rest would be said twice. */
export const Drawn = createContext(false);

/**
 * What makes an element answer, at one tap, how its figure is made. `quiet`: one of many of the same figure, of which
 * another can be reached by keyboard, such as the heading of a column.
 */
export function useFigure(): (id: FigureId, quiet?: boolean) => Record<string, string | number> {
  const shows = useContext(Shows);
  return (id, quiet = false) =>
    shows || quiet
      ? { 'data-figure': id }
      : { 'data-figure': id, role: 'button', tabIndex: 0, 'aria-haspopup': 'dialog' };
}

/** A figure in running text, in a heading of a column, or as a number of its own. */
export function Figure({
  of,
  quiet = false,
  children,
}: {
  readonly of: FigureId;
  readonly quiet?: boolean;
  readonly children: ReactNode;
}) {
  const figure = useFigure();
  return (
    <data className="figure" value={of} {...figure(of, quiet)}>
      {children}
    </data>
  );
}
