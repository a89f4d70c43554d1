import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { openToRead, statement } from '../../../gateway/tape/database.ts';
import { openRecords, type Records } from '../../../gateway/records/records.ts';
import { RECORD_KINDS, type RecordStep } from '../../../model/records/records.ts';
import type { Instant } from '../../../model/units/units.ts';
import { at } from '../../model/smallLine.ts';

const folders: string[] = [];
const opened: Records[] = [];

afterAll(() => {
  for (const records of opened) records.close();
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

function folder(): string {
  const made = mkdtempSync(join(tmpdir(), 'scoreline-records-'));
  folders.push(made);
  return made;
}

function open(place = folder()): Records {
  const records = openRecords(place);
  opened.push(records);
  return records;
}

const gap = (from: number, to: number): RecordStep => ({
  kind: 'put',
  record: {
    kind: 'gap',
    at: at(from),
    until: at(to),
    id: '',
    body: { from: at(from), to: at(to), kind: 'unknown' },
  },
});
const asked = (records: Records, from: number, to: number, line = 'small') =>
  records.ask({ line, kind: 'gap', from: at(from), to: at(to) }).map(({ from: begin }) => begin);

/** All rows of the file: in which table, of what moment, and from which position on until before which they stood. */
function rowsIn(place: string): readonly unknown[] {
  const database = openToRead(join(place, 'records.sqlite'));
  const rows = statement(
    database,
    `SELECT 'record', at, since, NULL AS gone FROM record UNION ALL SELECT 'replaced', at, since, gone FROM replaced
     ORDER BY 1, at, since`,
  )
    .raw()
    .all();
  database.close();
  return rows;
}

function serving(records: Records, steps: readonly RecordStep[], line = 'small') {
  const edition = records.begin(line, 'one');
  records.write(edition, steps, 7);
  records.serve(line, edition);
  return edition;
}

describe('records of the past', () => {
  it('gives what has a part in the time that is asked for, the oldest first', () => {
    const records = open();
    serving(records, [gap(30, 40), gap(0, 5), gap(10, 25), gap(50, 60)]);
    expect(asked(records, 20, 50)).toEqual([at(10), at(30)]);
    expect(asked(records, 25, 30)).toEqual([]);
    expect(asked(records, 20, 20)).toEqual([]);
    expect(asked(records, 25, 31)).toEqual([at(30)]);
    expect(records.last('small', 'gap', at(30))).toMatchObject({ from: at(10) });
    expect(records.last('small', 'gap', at(0))).toBeUndefined();
  });

  it('one takes the place of another of its moment and name; what is cut or dropped is gone', () => {
    const records = open();
    const edition = serving(records, [gap(0, 5), gap(10, 25), gap(30, 40)]);
    records.write(edition, [gap(10, 12)], 8);
    expect(asked(records, 12, 20)).toEqual([]);
    records.write(edition, [{ kind: 'drop', of: 'gap', at: at(0), id: '' }], 9);
    records.write(edition, [{ kind: 'cut', of: ['stop'], from: at(0) }], 9);
    expect(asked(records, 0, 100)).toEqual([at(10), at(30)]);
    records.write(edition, [{ kind: 'cut', of: RECORD_KINDS, from: at(20) }], 9);
    expect(asked(records, 0, 100)).toEqual([at(10)]);
    expect(records.edition('small')).toEqual({ ...edition, position: 9 });
  });

  it('another making is not asked before it serves, and then alone; one that came to no end is dropped', () => {
    const records = open();
    serving(records, [gap(0, 5)]);
    serving(records, [gap(7, 8)], 'other');
    records.write(records.begin('small', 'two'), [gap(20, 30)], 3);
    const third = records.begin('small', 'three');
    records.write(third, [gap(40, 50)], 4);
    expect(asked(records, 0, 100)).toEqual([at(0)]);
    records.serve('small', third);
    expect(asked(records, 0, 100)).toEqual([at(40)]);
    expect(asked(records, 0, 100, 'other')).toEqual([at(7)]);
    expect(records.edition('small')).toMatchObject({ version: 'three' });
    expect(asked(records, 0, 100, 'third')).toEqual([]);
  });

  it('is there again when it is opened again, and begins anew where its file is none', () => {
    const place = folder();
    const first = open(place);
    serving(first, [gap(0, 5)]);
    first.close();
    const second = openRecords(place);
    expect(asked(second, 0, 100)).toEqual([at(0)]);
    second.close();
    writeFileSync(
      join(place, 'records.sqlite'),
      'no database at all, but long enough to be taken for one'.repeat(50),
    );
    const third = open(place);
    expect(third.edition('small')).toBeUndefined();
    serving(third, [gap(1, 2)]);
    expect(asked(third, 0, 100)).toEqual([at(1)]);
  });

  it('what was worked out of records is kept until one of them changes, or another making serves', () => {
    const records = open();
    const edition = serving(records, [gap(0, 5), gap(10, 100), gap(120, 130)]);
    let made = 0;
    const remembered = (to = 50) =>
      records.remember('small', `up to ${to}`, at(to), () => {
        made += 1;
        return made;
      });
    expect([remembered(), remembered(), remembered(8)]).toEqual([1, 1, 2]);
    // what begins after it, or is cut after it, has no part in it
    records.write(edition, [gap(50, 60), { kind: 'cut', of: ['gap'], from: at(110) }], 8);
    expect(remembered()).toBe(1);
    // but a gap that lasted until then is cut whole, from its beginning on
    records.write(edition, [{ kind: 'cut', of: ['gap'], from: at(100) }], 9);
    expect([remembered(), remembered(8)]).toEqual([3, 2]);
    records.write(edition, [{ kind: 'drop', of: 'gap', at: at(0), id: '' }], 10);
    expect([remembered(), remembered(8)]).toEqual([4, 5]);
    records.write(edition, [gap(49, 50)], 11);
    expect([remembered(), remembered(8)]).toEqual([6, 5]);
    // a making that does not serve yet says nothing of the one that does
    const next = records.begin('small', 'two');
    records.write(next, [gap(1, 2)], 3);
    expect(remembered()).toBe(6);
    records.serve('small', next);
    expect(remembered()).toBe(7);
  });

  it('of what began before the time that is asked for, the newest few are looked at', () => {
    const records = open();
    serving(
      records,
      Array.from({ length: 20 }, (_, n) => gap(n, 100 + n)),
    );
    expect(asked(records, 50, 60)).toEqual(Array.from({ length: 8 }, (_, n) => at(12 + n)));
    expect(asked(records, 0, 3)).toHaveLength(3);
    expect(records.last('small', 'gap', 0 as Instant)).toBeUndefined();
  });

  it('[AS1] say what stood at any position of the tape, whatever took its place or was taken back later', () => {
    const records = open();
    const edition = serving(records, [gap(0, 5), gap(30, 40)]);
    records.write(edition, [gap(30, 50)], 9);
    records.write(edition, [{ kind: 'drop', of: 'gap', at: at(0), id: '' }], 12);
    records.write(edition, [{ kind: 'cut', of: ['gap'], from: at(45) }, gap(60, 70)], 900);
    const told = (position: number) => {
      const then = records.asOf(position);
      return {
        all: then
          .ask({ line: 'small', kind: 'gap', from: at(0), to: at(100) })
          .map(({ from, to }) => [from, to]),
        last: then.last('small', 'gap', at(55))?.from,
        newest: then.newest('small', 'gap', 1).map(({ from }) => from),
      };
    };
    const [early, late] = [
      [at(0), at(5)],
      [at(30), at(40)],
    ];
    expect(told(6)).toEqual({ all: [], last: undefined, newest: [] });
    expect(told(7)).toEqual({ all: [early, late], last: at(30), newest: [at(30)] });
    expect(told(8)).toEqual(told(7));
    expect(told(11)).toEqual({ all: [early, [at(30), at(50)]], last: at(30), newest: [at(30)] });
    expect(told(12)).toEqual({ all: [[at(30), at(50)]], last: at(30), newest: [at(30)] });
    expect(told(899)).toEqual(told(12));
    expect(told(900)).toEqual({ all: [[at(60), at(70)]], last: undefined, newest: [at(60)] });
    expect(asked(records, 0, 100)).toEqual([at(60)]);
  });

  it('[AS5] what is cut and told again alike at one position has stood all the time, and takes no room', () => {
    const place = folder();
    const records = open(place);
    const edition = serving(records, [gap(0, 5), gap(30, 40)]);
    const again = [{ kind: 'cut', of: RECORD_KINDS, from: at(0) } as const, gap(0, 5), gap(30, 45)];
    records.write(edition, again, 20);
    records.write(edition, again, 30);
    expect(rowsIn(place)).toEqual([
      ['record', at(0), 7, null],
      ['record', at(30), 20, null],
      ['replaced', at(30), 7, 20],
    ]);
  });

  it('[AS1] what was worked out as of a position is kept by it, and apart from what is known now', () => {
    const records = open();
    const edition = serving(records, [gap(0, 5)]);
    let made = 0;
    const ask = (position: number) =>
      records.asOf(position).remember('small', 'some', at(50), () => {
        made += 1;
        return made;
      });
    expect([ask(7), ask(7), ask(8)]).toEqual([1, 1, 2]);
    for (let position = 100; position < 700; position += 1) ask(position);
    expect(records.remember('small', 'some', at(50), () => 'now')).toBe('now');
    for (let position = 700; position < 1800; position += 1) ask(position);
    expect(records.remember('small', 'some', at(50), () => 'anew')).toBe('now');
    expect(ask(1799)).toBe(made);
    records.write(edition, [gap(60, 70)], 1801);
    expect(ask(1799)).toBe(made);
    records.write(edition, [gap(10, 20)], 1802);
    const before = made;
    expect(ask(1799)).toBe(before + 1);
  });
});
