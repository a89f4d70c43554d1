import { describe, expect, it } from 'vitest';
import type { Entry } from '../../../model/entries/entries.ts';
import type { CourseNote } from '../../../model/past/course.ts';
import type { Happened } from '../../../model/replay/happened.ts';
import { withNotes } from '../../../model/replay/withNotes.ts';
import type { EpochMs } from '../../../model/units/units.ts';

const by = { kind: 'screen', screen: 'desk' } as const;
const moment = (at: number) => at as EpochMs;

function noted(id: string, at: number, written: number, more: Partial<CourseNote> = {}): CourseNote {
  const first = { kind: 'note', words: id } as const;
  const said = { id, at: moment(written), by, first, corrections: [], correctable: true };
  return { id, at: moment(at), words: id, later: written > at, withdrawn: false, said, ...more };
}

function entered(
  at: number,
  body: Pick<Extract<Entry, { kind: 'note' }>, 'kind' | 'words' | 'about'>,
): Happened {
  const entry = { id: body.words, at: moment(at), author: by, ...body };
  return { at, kind: 'entry', name: '', station: undefined, entry };
}

describe('what happened, with what is noted of it', () => {
  it('[RP21] has each note at its moment, and one about another moment where it was written too', () => {
    const stop: Happened = { at: 50, kind: 'stopBegan', name: '', station: undefined };
    const happened = [
      stop,
      entered(60, { kind: 'note', words: 'now' }),
      entered(70, { kind: 'note', words: 'then', about: moment(10) }),
    ];
    const notes = [
      noted('of another day', 20, 9000),
      noted('now', 60, 60),
      noted('gone', 55, 80, { withdrawn: true }),
      noted('beside', 101, 200),
    ];
    expect(
      withNotes(happened, notes, { from: 15, to: 100 }).map(({ at, kind, name, note }) => [
        at,
        kind,
        name,
        note?.later,
      ]),
    ).toEqual([
      [20, 'note', 'of another day', true],
      [50, 'stopBegan', '', undefined],
      [60, 'note', 'now', false],
      [70, 'entry', '', undefined],
    ]);
  });
});
