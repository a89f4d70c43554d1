import { describe, expect, it } from 'vitest';
import { viewOf } from '../../model/view/lineView.ts';
import { at, changes, foldOf, running, smallLine } from './smallLine.ts';

const line = smallLine();

describe('presses of stop devices', () => {
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

  it('[PS5] a device read pressed while it runs on is kept', () => {
    const fold = foldOf([...running(), [10, 'panel', true], [15, 'panel', false]]);
    expect(viewOf(fold, at(20), { servers: [] }).matters).toMatchObject([
      { kind: 'devicePressedRunning', device: 'main panel', lasted: 5000 },
    ]);
  });
});
