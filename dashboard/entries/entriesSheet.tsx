import { useState } from 'react';
import type { EntriesPast, EntryRow } from '../../model/past/entriesPast.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import type { EntryNames } from '../../model/words/english-said.ts';
import { words } from '../app/words.ts';
import { useAsked } from '../past/asked.ts';
import { type Period, queryOf } from '../past/chosen.ts';
import { usePart } from '../store/use.tsx';
import { CorrectForm } from './correctForm.tsx';
import { useEntryNames, usePositionName } from './names.ts';
import { TargetForm } from './targetForm.tsx';

const { past } = words.screen;
const { said } = past;
const NO_ANSWERS: EntriesPast['answers'] = [];
const AGAIN_MS = 10_000;
const SHOWN = 60;

/** What people entered in a stretch: as it was said first and as it is said now, with a way to correct it. */
export function EntriesSheet({
  overview,
  period,
}: {
  readonly overview: PastOverview;
  readonly period: Period;
}) {
  const { id } = usePart('line');
  const { from, to } = period;
  const asked = useAsked<EntriesPast>(
    `/api/lines/${encodeURIComponent(id)}/past/entries${queryOf({ from, to, most: SHOWN })}`,
    AGAIN_MS,
  );
  const entries = asked.data;
  const names = useEntryNames(overview, entries?.answers ?? NO_ANSWERS);
  if (!entries) return null;
  return (
    <section className="sheet saidlist">
      <h2>{said.title}</h2>
      {entries.list.length === 0 ? (
        <p>{said.none}</p>
      ) : (
        <ul>
          {entries.list.map((row) => (
            <Row key={row.id} row={row} zone={overview.zone} names={names} again={asked.again} />
          ))}
        </ul>
      )}
      <TargetForm sizes={overview.sizes} again={asked.again} />
      <p className="foot">
        {said.shown(entries.list.length, entries.entries)} {said.foot}
      </p>
    </section>
  );
}

function Row({
  row,
  zone,
  names,
  again,
}: {
  readonly row: EntryRow;
  readonly zone: string;
  readonly names: EntryNames;
  readonly again: () => void;
}) {
  const [open, setOpen] = useState(false);
  const positionName = usePositionName();
  const { corrections } = row;
  return (
    <li>
      <p className="of">
        <b>{said.of(row, zone)}</b>
        <span>
          {past.when(row.at, zone)}, {said.by(row.by, positionName)}
        </span>
      </p>
      <div className="says">
        <p className={corrections.length > 0 ? 'before' : ''}>
          {corrections.length > 0 && <small>{said.first} </small>}
          {said.said(row.first, names)}
        </p>
        {corrections.map((one, place) => (
          <p key={one.id} className={place < corrections.length - 1 ? 'before' : 'now'}>
            <small>{said.now} </small>
            {one.body === null ? said.withdrawn : said.said(one.body, names)}
            <small>
              {' '}
              {past.when(one.at, zone)}, {said.by(one.by, positionName)}
              {one.why !== null && `, ${said.why(one.why)}`}
            </small>
          </p>
        ))}
        {open && <CorrectForm row={row} again={again} close={() => setOpen(false)} />}
      </div>
      {row.correctable && !open && (
        <button type="button" className="btn plain noprint" onClick={() => setOpen(true)}>
          {said.correct}
        </button>
      )}
    </li>
  );
}
