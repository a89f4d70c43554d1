import { useState } from 'react';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import { CAUSE_CLASSES, type CauseClass, type CausePart } from '../../model/entries/saidEntries.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import type { PastStop } from '../../model/past/stopsPast.ts';
import type { Millis } from '../../model/units/units.ts';
import { words } from '../app/words.ts';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useEnter } from '../store/use.tsx';
import { Choosing, Typing } from './fields.tsx';

const { past } = words.screen;
const said = past.said.cause;
const AGAIN_MS = 1_200;
const NONE = '-';

interface Draft {
  readonly station: string;
  readonly class: CauseClass;
}

/** [EN2] What a stop was, as people know it: beside the PLC's first fault, and from some moment on something else. */
export function CauseForm({
  stop,
  stations,
  again,
}: {
  readonly stop: PastStop;
  readonly stations: PastOverview['stations'];
  readonly again: () => void;
}) {
  const enter = useEnter();
  const [first, setFirst] = useState<Draft>({ station: stop.station?.id ?? NONE, class: 'stopped' });
  const [later, setLater] = useState<Draft>();
  const [after, setAfter] = useState('');
  const [typed, type] = useState('');
  const seconds = /^\d{1,5}$/.test(after.trim()) ? Number(after.trim()) : 0;
  const splits = later === undefined || (seconds > 0 && seconds * 1000 < stop.lasted);
  const ready = typed.trim() !== '' && splits;
  return (
    <details className="noprint causeform">
      <summary>{said.open}</summary>
      <NeedsLogIn act="cause" />
      <form
        className="fields"
        onSubmit={(event) => {
          event.preventDefault();
          if (!ready) return;
          const parts = [partOf(first, 0), ...(later ? [partOf(later, seconds * 1000)] : [])];
          enter({ kind: 'cause', stop: stop.id, parts, words: typed.trim() });
          setTimeout(again, AGAIN_MS);
        }}
      >
        <PartFields draft={first} change={setFirst} stations={stations} />
        <Typing label={said.words} value={typed} most={ENTRY_MOST.words} type={type} />
        {later === undefined ? (
          <button type="button" className="btn plain" onClick={() => setLater(first)}>
            {said.split}
          </button>
        ) : (
          <>
            <Typing label={said.after} value={after} most={5} type={setAfter} numeric />
            <PartFields draft={later} change={setLater} stations={stations} />
          </>
        )}
        <button type="submit" className="btn plain" disabled={!ready}>
          {said.keep}
        </button>
      </form>
      <small>{said.beside}</small>
    </details>
  );
}

function PartFields({
  draft,
  change,
  stations,
}: {
  readonly draft: Draft;
  readonly change: (draft: Draft) => void;
  readonly stations: PastOverview['stations'];
}) {
  return (
    <>
      <Choosing
        label={said.station}
        value={draft.station}
        options={[
          [NONE, said.none],
          ...stations.map(({ id, number, name }) => [id, past.station(number, name)] as const),
        ]}
        choose={(station) => change({ ...draft, station })}
      />
      <Choosing
        label={said.class}
        value={draft.class}
        options={CAUSE_CLASSES.map((one) => [one, said.classes[one]])}
        choose={(what) => change({ ...draft, class: what })}
      />
    </>
  );
}

function partOf({ station, class: what }: Draft, after: number): CausePart {
  return { after: after as Millis, station: station === NONE ? null : station, class: what };
}
