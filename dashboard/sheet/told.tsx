import type { EndedSheet, SheetView } from '../../model/view/sheetView.ts';
import { words } from '../app/words.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { usePositionName } from './names.ts';

const said = words.screen.sheet;

/** How the newest sheet ended, while none is open. */
export function Ended({ sheet }: { readonly sheet: EndedSheet }) {
  const { zone } = usePart('line');
  const position = usePositionName();
  const [bold, rest] = said.ended(sheet, zone, position);
  return (
    <p className="sheetnote">
      <b>{bold}.</b> {rest}
    </p>
  );
}

/** What concerns the sheet as a whole: another size at the PLC, by whom it was handed over, that the line is at its rate. */
export function OfSheet({ sheet }: { readonly sheet: SheetView }) {
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const position = usePositionName();
  const handed = sheet.handed.at(-1);
  const other = sheet.otherSize && said.otherSize(sheet.otherSize, sheet.size.name);
  return (
    <>
      {other && (
        <p className="sheetnote other" role="alert">
          <b>{other[0]}</b> {other[1]}
        </p>
      )}
      {handed && <p className="sheetnote">{said.hand.says(handed, clock, zone, position)}</p>}
      {sheet.atRate !== undefined && <p className="sheetnote">{said.atRate(sheet.atRate, zone)}</p>}
    </>
  );
}
