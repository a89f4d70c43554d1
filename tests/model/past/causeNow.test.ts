import { describe, expect, it } from 'vitest';
import type { CausePart } from '../../../model/entries/saidEntries.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import { piecesOfStop, placedNow, stoodAt } from '../../../model/past/causeNow.ts';
import { type StopFilter, type StopsPast, stopsPast } from '../../../model/past/stopsPast.ts';
import type { Instant, Millis } from '../../../model/units/units.ts';
import { at, changes, goods, type Rows, running, smallLine } from '../smallLine.ts';

const line = smallLine();
const jam = at(101).toString(36);
const parts: readonly CausePart[] = [
  { after: 0 as Millis, station: 'fold', class: 'stopped' },
  { after: 30_000 as Millis, station: 'pick', class: 'starved' },
];

/** A tuck jam at fold that lasts 90 s, and what people say of it. */
function told(said?: readonly CausePart[]) {
  const author = { kind: 'screen', screen: 'desk' };
  const cause = { id: 'c', at: 0, author, kind: 'cause', stop: jam, parts: said, words: 'no board' };
  const rows: Rows = [
    ...running(),
    ...goods(1, 100, 1),
    [101, 'state', 11],
    [101, 'reason', 51],
    [191, 'state', 6],
    [191, 'reason', 0],
    ...goods(192, 300, 101),
    ...(said ? [[301, 'entry', JSON.stringify(cause)] as const] : []),
  ];
  const fold = new LineFold(line);
  fold.take(changes(line, rows));
  return { index: fold.index, stops: fold.state.stops };
}

function past(said?: readonly CausePart[], filter: StopFilter = {}): StopsPast {
  const stretch = { from: at(0), to: at(400), begun: 0 as Instant };
  return stopsPast({
    ...told(said),
    ...stretch,
    presses: [],
    guards: [],
    gaps: [],
    filter,
    before: [],
    most: 10,
  });
}

const rowsOf = ({ rows }: StopsPast['own']) =>
  rows.map(({ station, name, moved, minor }) => [station?.id, name, moved, minor.stops, minor.stood]);

describe('a stop’s cause, as known now', () => {
  it('[EN2] that nobody corrected is the PLC’s first fault', () => {
    const [stop] = told().stops;
    expect(placedNow(stop!)).toMatchObject({ station: 'fold', kind: 'machine', moved: false });
    expect(past()).toMatchObject({ moved: 0, saidBy: { plc: 1, people: 0 } });
  });

  it('[EN2] at another station stands there, marked, beside what the PLC said', () => {
    const found = past([{ after: 0 as Millis, station: 'pick', class: 'starved' }]);
    expect(rowsOf(found.own)).toEqual([]);
    expect(rowsOf(found.outside)).toEqual([['pick', 'no board', true, 1, 90_000]]);
    expect(found).toMatchObject({
      stops: 1,
      stood: 90_000,
      moved: 1,
      saidBy: { plc: 0, people: 1, nobody: 0 },
    });
    expect(found.list[0]).toMatchObject({
      name: 'tuck jam',
      station: { id: 'fold' },
      cause: { words: 'no board' },
    });
  });

  it('[EN2] that was split counts once, at its first part, and its time goes by part', () => {
    const found = past(parts);
    expect(rowsOf(found.own)).toEqual([['fold', 'tuck jam', false, 1, 30_000]]);
    expect(rowsOf(found.outside)).toEqual([['pick', 'no board', true, 0, 60_000]]);
    expect(found).toMatchObject({ stops: 1, stood: 90_000, moved: 1, saidBy: { plc: 1 } });
    const [stop] = told(parts).stops;
    const stretch = { from: at(0), to: at(400) };
    expect([stoodAt(stop!, 'fold', stretch), stoodAt(stop!, 'pick', stretch)]).toEqual([30e7, 60e7]);
  });

  it('[EN2] of one station alone has only what was there', () => {
    expect(past(parts, { station: 'pick' })).toMatchObject({
      stops: 0,
      stood: 60_000,
      list: [{ name: 'tuck jam' }],
    });
  });

  it('[EN2] the parts of a stop lie in it, one after another, and none after its end', () => {
    const [stop] = told([...parts, { after: 1_000_000 as Millis, station: null, class: 'blocked' }]).stops;
    const pieces = piecesOfStop(stop!, at(400));
    expect(pieces.map(({ from, to }) => [from, to])).toEqual([
      [at(101), at(131)],
      [at(131), at(191)],
      [at(191), at(191)],
    ]);
  });
});
