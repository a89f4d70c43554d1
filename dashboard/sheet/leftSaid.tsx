import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { usePositionName } from '../entries/names.ts';
import { Ask, Key } from '../panel/key.tsx';
import { FlowHead } from '../panel/panel-head.tsx';
import { useSettled } from '../panel/settled.ts';
import { usePart } from '../store/use.tsx';
import { refusedSaid } from './kept.tsx';
import { type LeftSheet, useLeft, useReadLeft } from './left.ts';

const said = words.screen.sheet;
/** Entries that a panel has room for. */
const PANEL_MOST = 6;

/** [SH10] On a phone or a desk: what became of the sheet, and all that was entered in it here. */
export function LeftHere() {
  const left = useLeft();
  const read = useReadLeft();
  return left.map((one) => (
    <section key={one.sheet?.id ?? ''} className="refusedhere" role="alert">
      <LeftHeading left={one} />
      <LeftEntries left={one} most={one.entries.length} />
      <div className="sheetkeys">
        <button type="button" className="sheetkey" onClick={() => read(one, one.entries.length)}>
          {said.left.read[0]}
          <small>{said.left.read[1]}</small>
        </button>
      </div>
    </section>
  ));
}

/** [SH10] Where nothing can be read of it, that there is something. */
export function LeftLink() {
  const left = useLeft();
  if (left.length === 0) return null;
  return (
    <p className="refused">
      <a href="/sheet">{said.left.link}</a>
    </p>
  );
}

/** [SH10] At a panel, so many entries at a time as there is room for. */
export function PanelLeft({
  here,
  left,
  later,
}: {
  readonly here: PositionView;
  readonly left: LeftSheet;
  readonly later: () => void;
}) {
  const read = useReadLeft();
  const [what] = useEndSaid(left);
  const { length } = left.entries;
  const ready = useSettled(`left ${left.sheet?.id ?? ''} ${length}`);
  return (
    <>
      <FlowHead here={here} title={said.left.title} right="" />
      <Ask top={178}>{what}</Ask>
      <div className="told left1" style={{ top: 250 }} role="alert">
        <LeftEntries left={left} most={PANEL_MOST} />
      </div>
      <Key
        says={length > PANEL_MOST ? said.left.next : said.left.read}
        left={24}
        top={660}
        width={604}
        height={130}
        look="asks"
        kind="readleft1"
        ready={ready}
        onTap={() => read(left, PANEL_MOST)}
      />
      <Key says={said.kept.later} left={652} top={660} width={604} height={130} kind="later2" onTap={later} />
    </>
  );
}

function LeftHeading({ left }: { readonly left: LeftSheet }) {
  const [what] = useEndSaid(left);
  return <h2>{what}</h2>;
}

function LeftEntries({ left, most }: { readonly left: LeftSheet; readonly most: number }) {
  const [, how] = useEndSaid(left);
  const { entries } = left;
  return (
    <>
      <p>
        {how} {entries.length === 0 ? said.left.none : said.left.made(entries.length)}
      </p>
      <ul>
        {entries.slice(0, most).map((one) => (
          <li key={one.entry.id}>{refusedSaid(one)}</li>
        ))}
      </ul>
      {entries.length > most && <p>{said.left.more(most, entries.length)}</p>}
    </>
  );
}

/** What became of it, and by whom. */
function useEndSaid({ sheet }: LeftSheet): readonly [string, string] {
  const { zone } = usePart('line');
  const position = usePositionName();
  return sheet ? said.ended(sheet, zone, position) : said.left.unknown;
}
