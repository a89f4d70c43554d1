/** A glove is wider than a number: on a panel what lies so near is meant as well. Px of its 1280 × 800. */
const GLOVE = 75;

/**
 * The figure that a press means: what was pressed or, in a table, what the heading of its column bears; on a panel the
 * nearest one within a glove's width. What is pressed within a link, a key or a field does what that does.
 */
export function figureAt({ target, clientX, clientY }: MouseEvent): Element | undefined {
  if (!(target instanceof Element)) return undefined;
  const element = target.closest('[data-figure]') ?? headingOf(target) ?? nearest(target, clientX, clientY);
  const acts = target.closest('a, button, input, select, textarea, summary, label');
  return element && (!acts || acts === element) ? element : undefined;
}

/** Longer than this it is a sentence, and no number. */
const NUMBER_MOST = 24;

/** The number that stood where somebody pressed; a heading is none, nor is what leads on to another figure. */
export function shownAt(pressed: EventTarget | null, element: Element): string | undefined {
  const at = pressed instanceof Element && element.closest('th') ? pressed.closest('td') : element;
  if (!at || at.closest('th, h2, dialog')) return undefined;
  const text = (
    at.getAttribute('aria-label') ??
    at.getAttribute('data-shown') ??
    at.textContent ??
    ''
  ).trim();
  return /\d/.test(text) && text.length <= NUMBER_MOST ? text : undefined;
}

/** The figure in the heading of the column, or of the row, that a cell stands in. */
function headingOf(target: Element): Element | undefined {
  const cell = target.closest('td');
  if (!cell || cell.colSpan > 1) return undefined;
  const column = cell.closest('table')?.tHead?.rows[0]?.cells[columnOf(cell)];
  const row = cell.closest('tr')?.querySelector('th');
  return column?.querySelector('[data-figure]') ?? row?.querySelector('[data-figure]') ?? undefined;
}

/** Which column a cell is in: one before it may be wider than one column. */
function columnOf(cell: HTMLTableCellElement): number {
  const before = [...(cell.closest('tr')?.cells ?? [])].slice(0, cell.cellIndex);
  return before.reduce((sum, { colSpan }) => sum + colSpan, 0);
}

function nearest(target: Element, x: number, y: number): Element | undefined {
  const panel = target.closest('main.panel');
  if (!panel) return undefined;
  const reach = (GLOVE / 2) * (panel.getBoundingClientRect().width / 1280);
  const near = [...panel.querySelectorAll('[data-figure]')].map((element) => {
    const box = element.getBoundingClientRect();
    const apart = (at: number, from: number, to: number) => Math.max(from - at, at - to, 0);
    // to the middle of a number at least so far, beyond its edge so much less
    const wide = Math.max(0, reach - box.width / 2);
    const high = Math.max(0, reach - box.height / 2);
    const [across, down] = [apart(x, box.left, box.right), apart(y, box.top, box.bottom)];
    return { element, far: Math.hypot(across, down), meant: across <= wide && down <= high };
  });
  return near.filter(({ meant }) => meant).sort((a, b) => a.far - b.far)[0]?.element;
}
