import fc from 'fast-check';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { ContentHash } from '../../../gateway/tape/contentHash.ts';
import { openDatabase, statement } from '../../../gateway/tape/database.ts';
import { openSqliteTape } from '../../../gateway/tape/sqliteTape.ts';
import { StoredTape } from '../../../gateway/tape/storedTape.ts';
import type { Change } from '../../../model/signals/signals.ts';
import { anyChange } from '../../model/tape/anyChanges.ts';
import { gathered, signals, stretch } from './stretch.ts';

const line = 'line-3';

function folder(): string {
  const made = mkdtempSync(join(tmpdir(), 'stored-tape-'));
  onTestFinished(() => rmSync(made, { recursive: true }));
  return made;
}

describe('a tape as it lies in its file', () => {
  it('is read beside the process that writes it, and tells all that it holds then', async () => {
    const data = folder();
    const tape = await openSqliteTape(data, new Map([[line, signals('cycles', 'starved', 'lot')]]));
    await tape.append(line, stretch(0, 1300));
    const stored = new StoredTape(join(data, 'tape.sqlite'));
    const [own] = stored.lines();
    expect(own).toMatchObject({ id: line, begin: 0, end: 1300, signals: ['cycles', 'starved', 'lot'] });
    const reading = stored.read(own!);
    await reading.next();
    // what was a batch is in a segment now
    await tape.append(line, stretch(1300, 2500));
    const rest = await gathered(reading);
    expect(rest).toEqual(stretch(1300 - rest.length, 1300));
    expect(await gathered(stored.read(own!, 1250, 1260))).toEqual(stretch(1250, 1260));
    await tape.importBefore(line, [stretch(0, 99)]);
    const [grown] = stored.lines();
    expect(grown).toMatchObject({ begin: -99, end: 2500 });
    expect(await gathered(stored.read(grown!))).toEqual([...stretch(0, 99), ...stretch(0, 2500)]);
    stored.close();
    await tape.close();
  });

  it('says what is damaged, or reads on behind it for whoever wants that', async () => {
    const data = folder();
    const tape = await openSqliteTape(data, new Map([[line, signals('cycles', 'starved', 'lot')]]));
    await tape.append(line, stretch(0, 2000));
    await tape.close();
    const database = openDatabase(join(data, 'tape.sqlite'));
    const body = statement(database, 'SELECT body FROM segment WHERE start = 600').pluck().get() as Buffer;
    body[body.length >> 1]! ^= 1;
    statement(database, 'UPDATE segment SET body = ? WHERE start = 600').run(body);
    database.close();
    const stored = new StoredTape(join(data, 'tape.sqlite'));
    const [own] = stored.lines();
    await expect(gathered(stored.read(own!))).rejects.toThrow(/damaged between changes 600 and 1,200/);
    const unread: unknown[] = [];
    const read = await gathered(stored.read(own!, 0, 2000, (from, to) => void unread.push([from, to])));
    expect(unread).toEqual([[600, 1200]]);
    expect(read).toEqual([...stretch(0, 600), ...stretch(1200, 2000)]);
    stored.close();
  });

  it('says in words that a file is no tape', async () => {
    expect(() => new StoredTape(join(import.meta.dirname, 'stretch.ts'))).toThrow(/damaged|not a tape/);
  });
});

describe('the hash of what a tape holds', () => {
  const hashed = (changes: readonly Change[], ids: readonly string[]) => {
    const hash = new ContentHash(ids);
    hash.add(changes);
    return hash.end();
  };

  it('does not depend on how signals are numbered, nor on how changes are cut', () => {
    const changes = stretch(0, 5000);
    const turned = changes.map((change) => ({ ...change, signal: 2 - change.signal }));
    const whole = hashed(changes, ['a', 'b', 'c']);
    expect(hashed(turned, ['c', 'b', 'a'])).toBe(whole);
    const pieces = new ContentHash(['a', 'b', 'c']);
    for (let at = 0; at < 5000; at += 313) pieces.add(changes.slice(at, at + 313));
    expect(pieces.end()).toBe(whole);
  });

  it('is another one as soon as any one thing of any change is another', () => {
    const ids = Array.from({ length: 70_001 }, (_, place) => `signal ${place}`);
    fc.assert(
      fc.property(fc.tuple(anyChange, anyChange), ([one, other]) => {
        const same =
          one.signal === other.signal &&
          one.at === other.at &&
          one.received === other.received &&
          one.status === other.status &&
          Object.is(one.value, other.value);
        expect(hashed([one], ids) === hashed([other], ids)).toBe(same);
        for (const key of ['signal', 'at', 'received', 'status', 'value'] as const) {
          const mixed = { ...one, [key]: other[key] } as Change;
          expect(hashed([one], ids) === hashed([mixed], ids)).toBe(Object.is(one[key], other[key]));
        }
      }),
    );
    // worked out with another program: printf 'a\t1\t2\t0\t"x"\n' | sha256sum
    const change = { signal: 0, at: 1, received: 2, status: 0, value: 'x' } as Change;
    expect(hashed([change], ['a'])).toBe('7083d6073bcd5987164bdefd17a2e96ea80638f654776b9208a80f1edc6365b2');
  });
});
