import { useState } from 'react';
import type { PersonEntryBody } from '../../model/entries/entries.ts';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import type { Changed, Measure } from '../../model/entries/saidEntries.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import { words } from '../app/words.ts';
import { Choosing, Typing } from '../entries/fields.tsx';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useEnter, usePart } from '../store/use.tsx';

const { past } = words.screen;
const said = past.maintenance.enter;

const KINDS = ['adjustment', 'part', 'lot', 'other'] as const satisfies readonly Changed['of'][];
/** Once it is kept, the list is asked for again after so long. */
const AGAIN_MS = 1_200;

/** What is typed of a change; texts until it is entered. */
interface Draft {
  readonly station: string;
  readonly of: Changed['of'];
  readonly name: string;
  readonly from: string;
  readonly to: string;
  readonly words: string;
  readonly expects: Measure | 'none';
  /** The notice that it was made because of; none of them. */
  readonly notice: string;
}
const EMPTY = {
  of: 'adjustment',
  name: '',
  from: '',
  to: '',
  words: '',
  expects: 'stops',
  notice: '',
} as const;

/** A change that somebody made, with what is expected of it, so that it can be judged later. */
export function EnterChange({
  overview,
  again,
}: {
  readonly overview: PastOverview;
  readonly again: () => void;
}) {
  const enter = useEnter();
  const [draft, set] = useState<Draft>({ ...EMPTY, station: overview.stations[0]?.id ?? '' });
  const change = (some: Partial<Draft>) => set({ ...draft, ...some });
  const body = bodyOf(draft);
  return (
    <section className="sheet enterchange noprint">
      <h2>{said.title}</h2>
      <NeedsLogIn act="change" />
      <form
        className="fields"
        onSubmit={(event) => {
          event.preventDefault();
          if (body === undefined) return;
          enter(body);
          set({ ...EMPTY, station: draft.station });
          setTimeout(again, AGAIN_MS);
        }}
      >
        <Choosing
          label={said.station}
          value={draft.station}
          options={overview.stations.map(({ id, number, name }) => [id, past.station(number, name)])}
          choose={(station) => change({ station, notice: '' })}
        />
        <Choosing
          label={said.what}
          value={draft.of}
          options={KINDS.map((of) => [of, said.kinds[of]])}
          choose={(of) => change({ of, name: '', from: '', to: '' })}
        />
        <ChangedFields draft={draft} change={change} />
        <Typing
          label={said.words}
          value={draft.words}
          most={ENTRY_MOST.words}
          type={(typed) => change({ words: typed })}
        />
        <Choosing
          label={said.expects}
          value={draft.expects}
          options={(['stops', 'rejects', 'none'] as const).map((one) => [one, said.measures[one]])}
          choose={(expects) => change({ expects })}
        />
        <Because draft={draft} change={change} />
        <button type="submit" className="btn plain" disabled={body === undefined}>
          {said.keep}
        </button>
      </form>
    </section>
  );
}

/** Which open notice it was made because of, where one is open at the station. */
function Because({
  draft,
  change,
}: {
  readonly draft: Draft;
  readonly change: (some: Partial<Draft>) => void;
}) {
  const open = usePart('notices').open.filter(({ station }) => station?.id === draft.station);
  if (open.length === 0) return null;
  return (
    <Choosing
      label={said.because}
      value={draft.notice}
      options={[['', said.noNotice], ...open.map((one) => [one.id, words.noticeSaid.title(one)] as const)]}
      choose={(notice) => change({ notice })}
    />
  );
}

function ChangedFields({
  draft,
  change,
}: {
  readonly draft: Draft;
  readonly change: (some: Partial<Draft>) => void;
}) {
  const { of, name, from, to } = draft;
  if (of === 'other') return null;
  return (
    <>
      <Typing
        label={said[of]}
        value={name}
        most={ENTRY_MOST.setting}
        type={(typed) => change({ name: typed })}
      />
      {of === 'adjustment' && (
        <>
          <Typing
            label={said.from}
            value={from}
            most={ENTRY_MOST.setting}
            type={(typed) => change({ from: typed })}
          />
          <Typing
            label={said.to}
            value={to}
            most={ENTRY_MOST.setting}
            type={(typed) => change({ to: typed })}
          />
        </>
      )}
    </>
  );
}

/** Undefined while something is missing. */
function bodyOf(draft: Draft): PersonEntryBody | undefined {
  const { station, expects, notice } = draft;
  const changed = changedOf(draft);
  const typed = draft.words.trim();
  if (changed === undefined || typed === '') return undefined;
  return {
    ...{ kind: 'changed', station, changed, words: typed },
    ...(notice === '' ? {} : { notice }),
    ...(expects === 'none' ? {} : { expects: { measure: expects, direction: 'fewer' } }),
  };
}

function changedOf({ of, name, from, to }: Draft): Changed | undefined {
  const named = name.trim();
  if (of === 'other') return { of };
  if (named === '') return undefined;
  if (of !== 'adjustment') return { of, name: named };
  return {
    ...{ of, adjustment: named },
    ...(from.trim() === '' ? {} : { from: from.trim() }),
    ...(to.trim() === '' ? {} : { to: to.trim() }),
  };
}
