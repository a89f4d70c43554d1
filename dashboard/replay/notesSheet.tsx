import { useState } from 'react';
import type { CourseNote } from '../../model/past/course.ts';
import { words } from '../app/words.ts';
import { CorrectForm } from '../entries/correctForm.tsx';
import { usePositionName } from '../entries/names.ts';

const { past } = words.screen;
const said = past.replay.notes;

/** [RP21] What is noted of a shift, whenever it was written, each with the way to its moment; corrected as all entries are. */
export function NotesSheet({
  notes,
  zone,
  go,
  again,
}: {
  readonly notes: readonly CourseNote[];
  readonly zone: string;
  readonly go: (at: number) => void;
  readonly again: () => void;
}) {
  const standing = notes.filter(({ withdrawn }) => !withdrawn);
  return (
    <section className="sheet noteslist">
      <h2>{standing.length === 0 ? said.none : said.title(standing.length)}</h2>
      {notes.length > 0 && (
        <ul>
          {notes.map((note) => (
            <Row key={note.id} note={note} zone={zone} go={go} again={again} />
          ))}
        </ul>
      )}
      <p className="foot">
        {said.foot} {past.said.foot}
      </p>
    </section>
  );
}

function Row({
  note,
  zone,
  go,
  again,
}: {
  readonly note: CourseNote;
  readonly zone: string;
  readonly go: (at: number) => void;
  readonly again: () => void;
}) {
  const [open, setOpen] = useState(false);
  const positionName = usePositionName();
  const { at, withdrawn, said: row } = note;
  const { first, corrections } = row;
  const before = first.kind === 'note' && corrections.length > 0 && !withdrawn ? first.words : undefined;
  return (
    <li>
      <button type="button" className="tonote" onClick={() => go(at)}>
        {said.see(at, zone)}
      </button>
      <div>
        <p className={withdrawn ? 'gone' : ''}>{said.flag(note)}</p>
        {before !== undefined && (
          <p className="second">
            {past.said.first}: {said.flag({ words: before })}
          </p>
        )}
        <p className="second">
          {said.written(note, past.said.by(row.by, positionName), zone)}
          {withdrawn && `; ${said.withdrawn}`}
          {corrections.map(({ why }) => (why === null ? '' : `; ${past.said.why(why)}`)).join('')}
        </p>
      </div>
      {row.correctable && !open && (
        <button type="button" className="btn plain noprint" onClick={() => setOpen(true)}>
          {past.said.correct}
        </button>
      )}
      {open && <CorrectForm row={row} again={again} close={() => setOpen(false)} />}
    </li>
  );
}
