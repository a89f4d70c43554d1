import type { FigureId } from '../figures/figures.ts';
import type { Report, ReportDifference } from './report.ts';

/** Smaller than this, as a part of the figure, is how numbers are kept and no difference. */
const SAME = 1e-9;

/**
 * [RE4] By which figures a report that is made now differs from the one that was signed. Where the model has the same
 * version, only what came on the tape since can have done that: late values, entries, a stop that went on. The page that
 * was signed stays as it is.
 */
export function reportDifferences(signed: Report, now: Report): readonly ReportDifference[] {
  const why = signed.model === now.model ? 'laterData' : 'newModel';
  const valueIn = (report: Report, id: FigureId) => report.figures.find((one) => one.id === id)?.value;
  const ids = new Set([...signed.figures, ...now.figures].map(({ id }) => id));
  return [...ids].flatMap((figure) => {
    const [was, is] = [valueIn(signed, figure), valueIn(now, figure)];
    return isSame(was, is) ? [] : [{ figure, was, is, why } as const];
  });
}

function isSame(a: number | undefined, b: number | undefined): boolean {
  if (a === undefined || b === undefined) return a === b;
  return Math.abs(a - b) <= SAME * Math.max(1, Math.abs(a), Math.abs(b));
}
