import { describe, expect, it } from 'vitest';
import { LineFold } from '../../model/fold/fold.ts';
import { viewOf } from '../../model/view/lineView.ts';
import { entered, matters, ms } from './pressedLine.ts';
import { at, boundSignals, changes, foldOf, type Rows, smallLine, running } from './smallLine.ts';

const line = smallLine();

describe('what reads open or pressed while the line runs', () => {
  it('[PS5] a guard read open while it runs is kept, unless an enabling signal explains it', () => {
    const open = foldOf([...running(), [10, 'door', true], [14, 'door', false]]);
    expect(viewOf(open, at(20), { servers: [] }).matters).toMatchObject([
      { kind: 'guardOpenRunning', guard: 'guard door 1', lasted: 4000 },
    ]);
    const now = foldOf([...running(), [10, 'door', true]]);
    expect(viewOf(now, at(12.9), { servers: [] }).matters).toMatchObject([
      { kind: 'guardOpenRunning', lasted: undefined },
    ]);
    const enabled = foldOf([...running(), [9, 'enabling', true], [10, 'door', true], [14, 'door', false]]);
    expect(viewOf(enabled, at(20), { servers: [] }).matters).toEqual([]);
    const stopped = foldOf([...running(), [10, 'door', true], [10.01, 'state', 8], [14, 'door', false]]);
    expect(viewOf(stopped, at(15), { servers: [] }).matters).toEqual([]);
  });

  it('[PS5] an enabling signal explains the time in which it was on, and no other', () => {
    const late = foldOf([
      ...running(),
      [10, 'door', true],
      [609.9, 'enabling', true],
      [610, 'door', false],
      [610.1, 'enabling', false],
    ]);
    expect(matters(late, 611)).toMatchObject([{ kind: 'guardOpenRunning', at: ms(10), lasted: 599_900 }]);
    const apart = foldOf([
      ...running(),
      [10, 'door', true],
      [11.5, 'enabling', true],
      [20, 'enabling', false],
      [21.5, 'door', false],
    ]);
    expect(matters(apart, 22)).toMatchObject([{ kind: 'guardOpenRunning', at: ms(10), lasted: 3000 }]);
    const short = foldOf([...running(), [10, 'door', true], [11.9, 'enabling', true], [60, 'door', false]]);
    expect(matters(short, 61)).toEqual([]);
  });

  it('[PS5] the enabling signal of one guard says nothing of another', () => {
    const two = smallLine(
      { guards: [...line.guards, { ...line.guards[0]!, id: 'gate', name: 'guard door 2' }] },
      [
        ...boundSignals.map((signal) => (signal.id === 'enabling' ? { ...signal, of: 'gate' } : signal)),
        { id: 'gate', role: 'guard', of: 'gate', type: 'boolean' },
      ],
    );
    const rows: Rows = [
      ...running(),
      [0, 'gate', false],
      [9, 'enabling', true],
      [10, 'door', true],
      [10, 'gate', true],
      [14, 'door', false],
      [14, 'gate', false],
    ];
    const inOrder = new LineFold(two);
    inOrder.take(changes(two, rows));
    expect(matters(inOrder, 15)).toMatchObject([{ kind: 'guardOpenRunning', guard: 'guard door 1' }]);
    expect(matters(inOrder, 15)).toHaveLength(1);
  });

  it('[PS5] a guard that reads open over a stop is a finding before it and one after it', () => {
    const fold = foldOf([
      ...running(),
      [10, 'door', true],
      [15, 'state', 11],
      [20, 'state', 6],
      [26, 'door', false],
    ]);
    expect(matters(fold, 30).filter(({ kind }) => kind === 'guardOpenRunning')).toMatchObject([
      { at: ms(20), lasted: 6000 },
      { at: ms(10), lasted: 5000 },
    ]);
  });

  it('[PS5] time in which nobody looked, or in which its reading was bad, is no time that it read open', () => {
    const gap = foldOf([
      ...running(),
      [10, 'door', true],
      [11, 'link', false],
      [100, 'link', true],
      [100.5, 'door', false],
    ]);
    expect(matters(gap, 101).filter(({ kind }) => kind === 'guardOpenRunning')).toEqual([]);
    const bad = foldOf([
      ...running(),
      [10, 'door', true],
      [11, 'door', null, 0x80000000],
      [60, 'door', true],
      [60.5, 'door', false],
    ]);
    expect(matters(bad, 61)).toEqual([]);
  });

  it('[PS5] a line seen from its cycles alone ran up to the last of them', () => {
    const cycles = smallLine(
      {},
      boundSignals.filter(({ id }) => id !== 'state'),
    );
    const rows = (last: number): Rows => [
      ...running().filter(([, id]) => id !== 'state'),
      ...Array.from({ length: 10 + last }, (_, n) => [n + 1, 'cycles', n + 1] as const),
    ];
    const ran = new LineFold(cycles);
    ran.take(changes(cycles, [...rows(6), [16.1, 'panel', true], [20, 'heartbeat', 1]]));
    expect(matters(ran, 20)).toEqual([]);
    const pressed = [...rows(6).slice(0, -6), [10.1, 'panel', true] as const, ...rows(6).slice(-6)];
    const on = new LineFold(cycles);
    on.take(changes(cycles, [...pressed, [30, 'heartbeat', 1]]));
    expect(matters(on, 30)).toMatchObject([{ kind: 'devicePressedRunning', at: ms(10.1), lasted: 5900 }]);
  });

  it('[PS5] a device read pressed while it runs on is kept', () => {
    const fold = foldOf([...running(), [10, 'panel', true], [15, 'panel', false]]);
    expect(viewOf(fold, at(20), { servers: [] }).matters).toMatchObject([
      { kind: 'devicePressedRunning', device: 'main panel', lasted: 5000 },
    ]);
  });

  it('[PS5] a device read pressed while it runs on is told at once, and is the same finding when it is over', () => {
    const fold = foldOf([...running(), [10, 'panel', true]]);
    expect(matters(fold, 11.9)).toEqual([]);
    const now = matters(fold, 12.9);
    expect(now).toMatchObject([{ kind: 'devicePressedRunning', device: 'main panel', at: ms(10) }]);
    expect(now[0]).toHaveProperty('lasted', undefined);
    fold.take(changes(line, [[610, 'state', 8]]));
    expect(matters(fold, 611)).toEqual([{ ...now[0], lasted: 600_000 }]);
  });

  it('[PS5] a finding is closed by a person, once, and the others stay', () => {
    const fold = foldOf([
      ...running(),
      [10, 'door', true],
      [14, 'door', false],
      [20, 'panel', true],
      [25, 'panel', false],
    ]);
    const [panel, door] = matters(fold, 30) as readonly { id: string }[];
    fold.take(changes(line, [[31, 'entry', entered('a', { kind: 'closed', finding: door!.id })]]));
    expect(matters(fold, 32)).toEqual([panel]);
    fold.take(changes(line, [[33, 'entry', entered('b', { kind: 'closed', finding: panel!.id })]]));
    expect(matters(fold, 34)).toEqual([]);
  });

  it('[PS5] findings beyond what is kept are counted until a person closes them, and hide no open stop', () => {
    const times = Array.from({ length: 130 }, (_, n) => 10 + n * 10);
    const fold = foldOf([
      ...running(),
      ...times.flatMap((from) => [[from, 'panel', true] as const, [from + 5, 'panel', false] as const]),
      [1400, 'state', 11],
      [1440, 'heartbeat', 1],
    ]);
    expect(fold.state.open).toHaveLength(100);
    expect(fold.state.openDropped).toBe(30);
    const shown = matters(fold, 1440);
    expect(shown).toHaveLength(21);
    expect(shown.map(({ kind }) => kind)).toEqual([
      ...Array.from({ length: 19 }, () => 'devicePressedRunning'),
      'unexplainedStop',
      'further',
    ]);
    expect(shown.at(-1)).toEqual({ kind: 'further', count: 82 });
    const close = fold.state.open.map(({ id }, n) => [
      1441,
      'entry',
      entered(`c-${n}`, { kind: 'closed', finding: id }),
    ]) as unknown as Rows;
    fold.take(changes(line, close));
    expect(matters(fold, 1442)).toMatchObject([
      { kind: 'olderFindings', count: 30 },
      { kind: 'unexplainedStop' },
    ]);
    fold.take(changes(line, [[1443, 'entry', entered('older', { kind: 'closed', finding: 'older' })]]));
    expect(matters(fold, 1444)).toMatchObject([{ kind: 'unexplainedStop' }]);
  });
});
