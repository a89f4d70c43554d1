import { describe, expect, it } from 'vitest';
import { viewOf } from '../../model/view/lineView.ts';
import { matters, ms } from './pressedLine.ts';
import { at, changes, foldOf, type Rows, running, smallLine } from './smallLine.ts';

const line = smallLine();

describe('presses of stop devices', () => {
  it('[PS1] what came before is counted once, from when the first fault was read', () => {
    const fold = foldOf([...running(), [10, 'state', 8], [10.2, 'reason', 51], [15, 'panel', true]]);
    const { head } = viewOf(fold, at(20), { servers: [] });
    expect(head).toMatchObject({
      kind: 'pressed',
      standsSince: ms(10),
      firstFault: { at: ms(10.2), untilPress: 4800 },
      before: [
        { kind: 'firstFault', offset: 0 },
        { kind: 'press', offset: 4800 },
      ],
    });
  });

  it('[PS1] a press is followed from pressed to the first good carton', () => {
    const fold = foldOf([
      ...running(),
      [10, 'panel', true],
      [10.01, 'state', 8],
      [10.01, 'reason', 301],
      [40, 'panel', false],
      [41, 'state', 1],
      [45, 'state', 6],
      [45, 'reason', 0],
      [48, 'good', 1],
    ]);
    expect(fold.state.presses).toMatchObject([
      {
        pressed: at(10),
        released: at(40),
        reset: at(41),
        restarted: at(45),
        firstGood: at(48),
        role: 'caused',
      },
    ]);
  });

  it('[PS1] while it is pressed the screen says so and nothing else', () => {
    const fold = foldOf([...running(), [10, 'panel', true], [10.01, 'state', 8], [10.01, 'reason', 301]]);
    const view = viewOf(fold, at(20), { servers: [] });
    expect(view.head).toMatchObject({ kind: 'pressed', press: { name: 'main panel', role: 'caused' } });
    expect(view.plan.finish).toBeUndefined();
  });

  it('[PS2] pressed while it already stood, it was used during a stop', () => {
    const fold = foldOf([
      ...running(),
      [10, 'state', 11],
      [10, 'reason', 51],
      [14.9, 'panel', true],
      [14.91, 'state', 9],
    ]);
    expect(fold.state.presses).toMatchObject([{ role: 'during', stop: at(10).toString(36) }]);
    expect(viewOf(fold, at(20), { servers: [] }).head).toMatchObject({
      kind: 'pressed',
      firstFault: { name: 'tuck jam', station: 'fold' },
    });
  });

  it('[PS2] within the certain interval the first-out word decides', () => {
    const jam = foldOf([...running(), [10, 'state', 11], [10, 'reason', 51], [10.01, 'panel', true]]);
    expect(jam.state.presses[0]?.role).toBe('during');
    const press = foldOf([...running(), [10, 'state', 8], [10, 'reason', 301], [10.01, 'panel', true]]);
    expect(press.state.presses[0]?.role).toBe('caused');
    const late = foldOf([...running(), [10, 'state', 8], [10.01, 'panel', true], [10.02, 'reason', 301]]);
    expect(late.state.presses[0]?.role).toBe('caused');
  });

  it('[PS2] without a first-out word an order that close is not certain', () => {
    expect(foldOf([...running(), [10, 'state', 8], [10.01, 'panel', true]]).state.presses[0]?.role).toBe(
      'uncertain',
    );
    expect(foldOf([...running(), [10, 'panel', true], [10.01, 'state', 8]]).state.presses[0]?.role).toBe(
      'uncertain',
    );
  });

  it.each([
    {
      title: 'before',
      rows: [
        [9.99, 'panelCount', 1],
        [10, 'panel', true],
        [10.03, 'panel', false],
      ],
      known: ['edge'],
    },
    {
      title: 'after',
      rows: [
        [10, 'panel', true],
        [10.03, 'panel', false],
        [10.05, 'panelCount', 1],
      ],
      known: ['edge'],
    },
    {
      title: 'before, for one not seen as well,',
      rows: [
        [9.99, 'panelCount', 2],
        [10, 'panel', true],
        [10.03, 'panel', false],
      ],
      known: ['count', 'edge'],
    },
    {
      title: 'long before, for another press,',
      rows: [
        [8, 'panelCount', 1],
        [10, 'panel', true],
        [10.1, 'panelCount', 2],
        [10.2, 'panel', false],
      ],
      known: ['count', 'edge'],
    },
  ] satisfies { title: string; rows: Rows; known: string[] }[])(
    '[PS3] a twin that moves $title the device is read pressed makes no press of its own of it',
    ({ rows, known }) => {
      const fold = foldOf([...running(), ...rows, [60, 'heartbeat', 1]]);
      expect(fold.state.presses.map((press) => press.known)).toEqual(known);
      const counted = rows.findLast(([, id]) => id === 'panelCount')![2] as number;
      const next: Rows = [
        ...rows,
        [70, 'panel', true],
        [70, 'panelCount', counted + 1],
        [70.1, 'panel', false],
      ];
      expect(foldOf([...running(), ...next]).state.presses).toHaveLength(known.length + 1);
    },
  );

  it('[PS3] a counted twin shows presses that were not seen', () => {
    const fold = foldOf([
      ...running(),
      [10, 'panel', true],
      [10, 'panelCount', 1],
      [12, 'panel', false],
      [20, 'panelCount', 3],
    ]);
    expect(fold.state.presses.map((press) => press.known)).toEqual(['edge', 'count', 'count']);
  });

  it('[PS4] a circuit names its candidates until somebody says which', () => {
    const fold = foldOf([...running(), [10, 'circuit', true], [10.01, 'state', 8], [20, 'circuit', false]]);
    const view = viewOf(fold, at(21), { servers: [] });
    expect(view.matters).toMatchObject([
      { kind: 'whichButton', candidates: [{ id: 'front' }, { id: 'back' }] },
    ]);
    const press = fold.state.presses[0]!.id;
    const entry = {
      id: 'e',
      at: 0,
      author: { kind: 'position', position: 'front' },
      kind: 'device',
      press,
      candidate: 'front',
    };
    fold.take(changes(line, [[22, 'entry', JSON.stringify(entry)]]));
    expect(viewOf(fold, at(23), { servers: [] }).matters).toEqual([]);
  });

  it('[PS1] a device latched at the first look is a press without a moment of its own', () => {
    const first = running().map(
      ([after, id, value]) => [after, id, id === 'panel' ? true : id === 'state' ? 8 : value] as const,
    );
    const fold = foldOf([
      ...first,
      [20, 'panel', false],
      [21, 'state', 1],
      [25, 'state', 6],
      [28, 'good', 1],
    ]);
    expect(fold.state.presses).toMatchObject([
      { known: 'found', role: 'uncertain', released: at(20), restarted: at(25), firstGood: at(28) },
    ]);
    expect(fold.state.happenings.map(({ kind }) => kind)).not.toContain('press');
    expect(fold.state.edgesSinceTwin[0]).toBe(0);
    const latched = foldOf(first);
    expect(viewOf(latched, at(1), { servers: [] }).head).toMatchObject({
      kind: 'pressed',
      press: { known: 'found' },
    });
  });

  it('[PS1] [PS4] which button of a circuit latched at the first look is asked without a moment', () => {
    const first = running().map(
      ([after, id, value]) => [after, id, id === 'circuit' ? true : id === 'state' ? 8 : value] as const,
    );
    const asked = matters(foldOf(first), 1).find(({ kind }) => kind === 'whichButton');
    expect(asked).toMatchObject({ candidates: [{ id: 'front' }, { id: 'back' }] });
    expect(asked).toHaveProperty('at', undefined);
  });
});
