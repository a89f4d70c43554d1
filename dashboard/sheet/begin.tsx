import { useState } from 'react';
import type { ChangeoverKind } from '../../model/fold/state.ts';
import type { SheetOffered } from '../../model/view/sheetOffered.ts';
import type { SheetsView } from '../../model/view/sheetView.ts';
import { words } from '../app/words.ts';
import { useEnter, useHeld, usePart } from '../store/use.tsx';

const said = words.screen.sheet.begin;

export const BEGUN_KINDS: readonly ChangeoverKind[] = ['size', 'artwork', 'startUp'];

/** The next order's size first, which is most often meant. */
export function sizesInTurn({ sizes, next }: SheetsView): SheetsView['sizes'] {
  return [...sizes.filter(({ id }) => id === next), ...sizes.filter(({ id }) => id !== next)];
}

/** The name of the size whose sheet was begun here, while the gateway has not told it. */
export function useBegun({ sizes }: SheetsView): string | undefined {
  const size = useHeld(({ sent, number }) => {
    const begun = sent.findLast(({ entry }) => entry.kind === 'sheetBegun');
    if (begun?.entry.kind !== 'sheetBegun') return undefined;
    const isUntold = begun.state === 'onItsWay' || (begun.state === 'kept' && begun.tookAt === number);
    return isUntold ? begun.entry.size : undefined;
  });
  return size === undefined ? undefined : (sizes.find(({ id }) => id === size)?.name ?? size);
}

/** Which size comes, then which kind: two taps. */
export function Begin({ sheets }: { readonly sheets: SheetsView }) {
  const [size, choose] = useState<SheetsView['sizes'][number]>();
  const enter = useEnter();
  const begun = useBegun(sheets);
  if (begun !== undefined) return <p className="sheetnote">{said.waits(begun)}</p>;
  return (
    <section className="beginsheet">
      <h2>{said.title}</h2>
      <p className="second">{said.lead}</p>
      {size === undefined && sheets.offered && <Offered offered={sheets.offered} />}
      <h3>{size === undefined ? said.size : said.kind(size.name)}</h3>
      <div className="choices tall">
        {size === undefined
          ? sizesInTurn(sheets).map((one) => (
              <button key={one.id} type="button" className="sheetkey" onClick={() => choose(one)}>
                {one.name}
                {one.id === sheets.next && <small>{said.next}</small>}
              </button>
            ))
          : BEGUN_KINDS.map((kind) => (
              <button
                key={kind}
                type="button"
                className="sheetkey"
                onClick={() => enter({ kind: 'sheetBegun', size: size.id, in: kind })}
              >
                {said.kinds[kind]}
                <small>{said.kindSays[kind]}</small>
              </button>
            ))}
        {size !== undefined && (
          <button type="button" className="sheetkey" onClick={() => choose(undefined)}>
            {words.screen.panel.back}
          </button>
        )}
      </div>
    </section>
  );
}

/** [SH9] The one that fits, by one tap. */
function Offered({ offered }: { readonly offered: SheetOffered }) {
  const { zone } = usePart('line');
  const enter = useEnter();
  const [what, why] = said.offered(offered, zone);
  return (
    <>
      <h3>{said.fits}</h3>
      <div className="choices tall">
        <button
          type="button"
          className="sheetkey main"
          onClick={() => enter({ kind: 'sheetBegun', size: offered.size.id, in: offered.kind })}
        >
          {what}
          <small>{why}</small>
        </button>
      </div>
    </>
  );
}
