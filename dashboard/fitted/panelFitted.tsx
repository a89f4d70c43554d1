import { useState } from 'react';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import type { FittedView } from '../../model/view/fittedView.ts';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { usePositionName } from '../entries/names.ts';
import { Ask, BackKey } from '../panel/key.tsx';
import { FlowHead } from '../panel/panel-head.tsx';
import { PagedKeys } from '../panel/pagedKeys.tsx';
import { PanelWords } from '../panel/words.tsx';
import { useMoment, usePart } from '../store/use.tsx';
import { useNaming } from './things.ts';

const said = words.screen.fitted;

/** At a panel: which of them, then its name, one that was used before with one tap. */
export function PanelFitted({ here, close }: { readonly here: PositionView; readonly close: () => void }) {
  const things = usePart('fitted');
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const position = usePositionName();
  const [chosen, choose] = useState<FittedView | undefined>(things.length === 1 ? things[0] : undefined);
  const nameIt = useNaming();
  if (chosen)
    return (
      <PanelNames
        here={here}
        thing={chosen}
        take={(name) => {
          nameIt(chosen, name);
          close();
        }}
        back={things.length === 1 ? close : () => choose(undefined)}
      />
    );
  return (
    <>
      <FlowHead here={here} title={said.title} right={words.screen.panel.tap(1)} />
      <Ask top={178}>{said.which}</Ask>
      <PagedKeys
        keys={things.map((thing) => ({
          id: thing.step ?? thing.what,
          says: [
            thing.now === undefined ? said.name(thing) : `${said.name(thing)}: ${thing.now.name}`,
            said.now(thing, clock, zone, position),
          ],
          onTap: () => choose(thing),
        }))}
        kind="thing1"
      />
      <BackKey onTap={close} />
    </>
  );
}

/** Its name: one of those that were used last, or typed. */
export function PanelNames({
  here,
  thing,
  take,
  back,
}: {
  readonly here: PositionView;
  readonly thing: FittedView;
  readonly take: (name: string) => void;
  readonly back: () => void;
}) {
  return (
    <PanelWords
      here={here}
      title={said.name(thing)}
      asks={said.asks(thing)}
      choices={thing.last}
      most={ENTRY_MOST.setting}
      take={(name) => name !== undefined && take(name)}
      back={back}
    />
  );
}
