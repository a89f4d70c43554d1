import { expect, it } from 'vitest';
import type { LiveLine } from '../../../gateway/live/liveLine.ts';
import type { Letter } from '../../../gateway/notices/outboxStore.ts';
import { recordLetter, unwantedNow } from '../../../gateway/notices/recordLetter.ts';
import { letterRowOf } from '../../../gateway/notices/noticesSchemas.ts';
import type { Entry } from '../../../model/entries/entries.ts';
import { NOBODY_SHUT_OFF } from '../../../model/notices/shutOff.ts';
import { type EpochMs, epochMs } from '../../../model/units/units.ts';
import { Noticed, stops } from '../../model/notices/noticeRows.ts';
import { at } from '../../model/smallLine.ts';
import { AT, parcel } from './parcels.ts';

const letter = (more: Partial<Letter>): Letter => ({
  ...parcel('n1'),
  ...{ number: 1, state: 'waiting', tries: 1, triesMost: 20, since: AT, waitMs: 0, perhaps: false },
  ...more,
});

async function recorded(one: Letter): Promise<Entry> {
  const entries: Entry[] = [];
  const enter = async (entry: Entry) => entries.push(entry);
  await recordLetter({ enter } as unknown as LiveLine, one, AT);
  return entries[0]!;
}

it.each([
  [{ state: 'told' }, { failed: false }],
  [{ state: 'dead' }, { failed: true }],
  [{ state: 'withdrawn' }, { failed: true, why: 'withdrawn' }],
  // what may have arrived is not counted as not sent
  [
    { state: 'withdrawn', perhaps: true },
    { failed: false, why: 'perhaps' },
  ],
] as const)('[NR3] of a letter as %o the tape says %o', async (more, said) => {
  const { id: _, at: _made, author: _by, ...body } = await recorded(letter(more));
  expect(body).toEqual({
    kind: 'noticeTold',
    notice: 'n1',
    person: '12',
    way: 'mail',
    round: 0,
    step: 0,
    ...said,
  });
});

it('[NR3] a letter is wanted by where its notice stands on its own line; of one that is held no more nobody knows', () => {
  const line = new Noticed();
  line.look(10, [stops('fold')]);
  const { id: notice } = line.notices[0]!;
  line.enter(20, { kind: 'noticeTaken', notice });
  const live = { line: line.line, fold: () => line.fold } as LiveLine;
  const asked = { line: line.line.id, notice, person: '13', round: 0 };
  const now = (more: Partial<typeof asked>) => unwantedNow(live, { ...asked, ...more }, NOBODY_SHUT_OFF);
  expect(now({})).toMatchObject({ why: 'taken', at: epochMs(at(20)) });
  expect(now({ line: 'other' })).toBeUndefined();
  expect(now({ notice: 'long ago' })).toBeUndefined();
});

it('[NR3] a letter that was withdrawn is shown with by whom, when and why', () => {
  const by = { kind: 'person', number: '7' } as const;
  const withdrawn = { why: 'taken', by, at: Date.UTC(2026, 2, 3, 2, 12) as EpochMs } as const;
  const said = (more: Partial<Letter>) =>
    letterRowOf(letter({ state: 'withdrawn', withdrawn, ...more })).withdrawn;
  expect(said({})?.words).toBe('Taken by number 7 at 03:12 before it went out.');
  expect(said({ perhaps: true })?.words).toBe(
    'Taken by number 7 at 03:12 before it went out. A try before may have arrived.',
  );
  expect(letterRowOf(letter({})).withdrawn).toBeNull();
});
