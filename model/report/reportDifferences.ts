import type { FigureId } from '../figures/figures.ts';
import { REPORT_PARTS, type Report, type ReportDifference, type ReportDifferences } from './report.ts';

/** Smaller than this, as a part of the figure, is how numbers are kept and no difference. */
const SAME = 1e-9;

/**
 * [RE4] In what a report that is made now differs from the one that was signed: by figures, and by the other parts of the page.
 * Where version and line file are the same, only what came on the tape since can have done that: late values, answers, a stop
 * that went on. The page that was signed stays as it is.
 */
export function reportDifferences(signed: Report, now: Report): ReportDifferences {
  const figures = figuresApart(signed, now);
  const parts = REPORT_PARTS.filter((part) => textOf(signed[part]) !== textOf(now[part]));
  return { figures, parts, why: figures.length + parts.length > 0 ? whyOf(signed, now) : undefined };
}

function figuresApart(signed: Report, now: Report): readonly ReportDifference[] {
  const valueIn = (report: Report, id: FigureId) => report.figures.find((one) => one.id === id)?.value;
  const ids = new Set([...signed.figures, ...now.figures].map(({ id }) => id));
  return [...ids].flatMap((figure) => {
    const [was, is] = [valueIn(signed, figure), valueIn(now, figure)];
    return isSame(was, is) ? [] : [{ figure, was, is }];
  });
}

/** As a text in which the order of names is no matter. */
export function textOf(value: unknown): string {
  const ordered = (_name: string, one: unknown) =>
    typeof one === 'object' && one !== null && !Array.isArray(one)
      ? Object.fromEntries(Object.entries(one).sort(([a], [b]) => (a < b ? -1 : 1)))
      : one;
  return JSON.stringify(value, ordered) ?? '';
}

/** A version is that of the model, a dot, and that of the line's definition. */
function whyOf(signed: Report, now: Report): ReportDifferences['why'] {
  const [wasModel, wasLine] = signed.model.split('.');
  const [model, line] = now.model.split('.');
  if (wasModel !== model) return 'newModel';
  return wasLine === line ? 'laterData' : 'otherLine';
}

function isSame(a: number | undefined, b: number | undefined): boolean {
  if (a === undefined || b === undefined) return a === b;
  return Math.abs(a - b) <= SAME * Math.max(1, Math.abs(a), Math.abs(b));
}
