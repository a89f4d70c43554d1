import { words } from '../app/words.ts';
import { useSheetsHere } from './here.ts';

/** The way to the setter's sheet, with what is open in it; nothing on a line without sizes. */
export function ToSheet() {
  const { sheets } = useSheetsHere();
  if (sheets.sizes.length === 0) return null;
  const [name, open] = words.screen.sheet.key(sheets.open?.left);
  return (
    <a className="tosheet" href="/sheet">
      <b>{name}</b>
      <span>{open}</span>
    </a>
  );
}
