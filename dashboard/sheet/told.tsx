import type { SheetsHere } from '../../model/view/sheetKept.ts';
import type { EndedSheet, SheetView } from '../../model/view/sheetView.ts';
import { words } from '../app/words.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { usePositionName } from '../entries/names.ts';

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
export function OfSheet({ sheet, told }: { readonly sheet: SheetView; readonly told: SheetsHere }) {
  return (
    <>
      <AsOf told={told} />
      <OtherSize sheet={sheet} />
      <Handed sheet={sheet} />
      <AtRate sheet={sheet} />
    </>
  );
}

/** [SH8] How old the numbers are of a sheet that was begun without a network; once the gateway answers, which are others now. */
export function AsOf({ told: { asOf, changed } }: { readonly told: SheetsHere }) {
  const { zone } = usePart('line');
  if (asOf === undefined && changed.size === 0) return null;
  const [bold, rest] =
    asOf === undefined ? said.ahead.changedOnes([...changed.keys()]) : said.ahead.asOf(asOf, zone);
  return (
    <p className="sheetnote asof" role="status">
      <b>{bold}</b> {rest}
    </p>
  );
}

/** The PLC tells of another size than the sheet is for, and what can be done. */
export function OtherSize({ sheet }: { readonly sheet: SheetView }) {
  if (sheet.otherSize === undefined) return null;
  const [what, mend] = said.otherSize(sheet.otherSize, sheet.size.name);
  return (
    <p className="sheetnote other" role="alert">
      <b>{what}</b> <span>{mend}</span>
    </p>
  );
}

/** The newest hand-over: by whom, when, and what was said. */
export function Handed({ sheet }: { readonly sheet: SheetView }) {
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const position = usePositionName();
  const handed = sheet.handed.at(-1);
  if (handed === undefined) return null;
  return <p className="sheetnote">{said.hand.says(handed, clock, zone, position)}</p>;
}

export function AtRate({ sheet }: { readonly sheet: SheetView }) {
  const { zone } = usePart('line');
  if (sheet.atRate === undefined) return null;
  return <p className="sheetnote">{said.atRate(sheet.atRate, zone)}</p>;
}
