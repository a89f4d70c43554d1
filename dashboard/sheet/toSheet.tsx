import { words } from '../app/words.ts';
import { useSheetsHere } from './here.ts';

/** The way to the setter's sheet, with what is open in it: where one is open, or where one can be begun. */
export function ToSheet({ when }: { readonly when: 'open' | 'none' }) {
  const { sheets } = useSheetsHere();
  if (sheets.sizes.length === 0 || (sheets.open === undefined) !== (when === 'none')) return null;
  const [name, open] = words.screen.sheet.key(sheets);
  return (
    <div className="inset">
      <a className="tosheet" href="/sheet">
        <b>{name}</b>
        <span>{open}</span>
      </a>
    </div>
  );
}
