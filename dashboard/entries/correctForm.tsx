import { useEffect, useRef, useState } from 'react';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import { handedDoubtful } from '../../model/entries/handedDoubt.ts';
import type { CorrectableBody } from '../../model/entries/saidEntries.ts';
import { takenDoubtful } from '../../model/entries/takenDoubt.ts';
import type { EntryRow } from '../../model/past/entriesPast.ts';
import { words } from '../app/words.ts';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useEnter, useHeld, usePart } from '../store/use.tsx';
import { correctedBody, textOf } from './correctedBody.ts';
import { Typing } from './fields.tsx';

const { said } = words.screen.past;
const AGAIN_MS = 1_200;

/**
 * What an entry should have said, or that it should not have been made; and why. It stays until the gateway has it: refused, since
 * somebody else was first, what is typed stands below what is said now.
 */
export function CorrectForm({
  row,
  again,
  close,
}: {
  readonly row: EntryRow;
  readonly again: () => void;
  readonly close: () => void;
}) {
  const enter = useEnter();
  const last = row.corrections.at(-1);
  const now: CorrectableBody | null = last ? last.body : row.first;
  const base = now ?? row.first;
  const [typed, type] = useState(textOf(base));
  const [why, because] = useState('');
  const [doubted, doubt] = useState<CorrectableBody>();
  const [sent, sends] = useState<string>();
  const isDoubtful = useDoubt();
  const body = correctedBody(base, typed.trim());
  const seen = last?.id ?? row.id;
  const came = useHeld((held) =>
    held.sent.findLast(({ entry }) => entry.kind === 'correction' && entry.of === sent),
  )?.state;
  const send = (instead: CorrectableBody | undefined) => {
    const reason = why.trim();
    enter({
      ...{ kind: 'correction', of: seen, was: row.first.kind, why: reason },
      ...(instead === undefined ? {} : { body: instead }),
    });
    sends(seen);
  };
  const then = useRef({ again, close });
  then.current = { again, close };
  useEffect(() => {
    if (came === undefined || came === 'onItsWay') return;
    setTimeout(then.current.again, AGAIN_MS);
    if (came === 'kept') then.current.close();
  }, [came]);
  const isOff = why.trim() === '' || came === 'onItsWay';
  return (
    <form
      className="fields noprint"
      onSubmit={(event) => {
        event.preventDefault();
        if (body === undefined || isOff) return;
        if (isDoubtful(body) && doubted === undefined) doubt(body);
        else send(body);
      }}
    >
      <NeedsLogIn act="correct" />
      <Typing
        label={said.instead}
        value={typed}
        most={ENTRY_MOST.words}
        type={(next) => {
          type(next);
          doubt(undefined);
        }}
      />
      <Typing label={said.whyLabel} value={why} most={ENTRY_MOST.words} type={because} />
      {doubted !== undefined && 'cartons' in doubted && <p role="status">{said.doubt(doubted.cartons)}</p>}
      <button type="submit" className="btn plain" disabled={body === undefined || isOff}>
        {doubted === undefined ? said.keep : said.asTyped}
      </button>
      {now !== null && (
        <button type="button" className="btn plain" disabled={isOff} onClick={() => send(undefined)}>
          {said.withdraw}
        </button>
      )}
      <button type="button" className="btn plain" onClick={close}>
        {said.close}
      </button>
    </form>
  );
}

/** A count that looks like a slip is asked about here too, as where it is first entered. */
function useDoubt(): (body: CorrectableBody) => boolean {
  const orders = usePart('orders');
  return (body) => {
    if (body.kind === 'takenOut') return takenDoubtful(body.cartons);
    if (body.kind !== 'handedOver') return false;
    return handedDoubtful(body.cartons, orders.find(({ number }) => number === body.order)?.good ?? 0);
  };
}
