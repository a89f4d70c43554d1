import { describe, expect, it } from 'vitest';
import { siteForTest } from './web.ts';

const desk = { kind: 'screen', screen: 'desk' };
const front = { kind: 'position', position: 'front' };
const back = { kind: 'position', position: 'back' };

describe('what people say and correct, over the interface', () => {
  it('[EN1] a crew that is corrected counts from the moment that it was entered for', async () => {
    const { enter, live, clock } = await siteForTest();
    expect((await enter({ id: 'e-1', author: desk, kind: 'crew', people: 2 })).status).toBe(201);
    const { at } = live.fold().state.said[0]!;
    clock.second += 30;
    const body = { kind: 'crew', people: 3 };
    const correction = { id: 'e-2', author: desk, kind: 'correction', of: 'e-1', was: 'crew', body };
    expect(await troubleOf(await enter(correction))).toContain('no reason');
    expect((await enter({ ...correction, why: 'one more came' })).status).toBe(201);
    expect(live.fold().state).toMatchObject({ crew: 3, said: [{ at, first: { people: 2 } }] });
  });

  it.each<[string, object, string]>([
    ['another kind', { of: 'e-1', was: 'note', why: 'x' }, 'another kind'],
    ['an entry that is not there', { of: 'e-9', was: 'crew', why: 'x' }, 'no entry'],
    [
      'a crew by something else',
      { of: 'e-1', was: 'crew', body: { kind: 'note', words: 'x' }, why: 'x' },
      'another kind',
    ],
  ])('[EN1] %s is refused with words, and nothing is recorded', async (_what, said, told) => {
    const { enter, live } = await siteForTest();
    await enter({ id: 'e-1', author: desk, kind: 'crew', people: 2 });
    expect(await troubleOf(await enter({ id: 'e-2', author: desk, kind: 'correction', ...said }))).toContain(
      told,
    );
    expect(live.fold().state.said[0]?.corrections).toEqual([]);
  });

  it('[EN1] of two corrections of the same the second is refused, with who was first, when and what that says', async () => {
    const { enter, live } = await siteForTest();
    await enter({ id: 'e-1', author: front, kind: 'takenOut', cartons: 6, why: 'sample' });
    const was = { author: desk, kind: 'correction', was: 'takenOut', why: 'counted again' };
    const body = { kind: 'takenOut', cartons: 7, why: 'sample' };
    expect((await enter({ ...was, id: 'e-2', of: 'e-1', body })).status).toBe(201);
    const second = { ...was, body: { ...body, cartons: 8 } };
    const before =
      /^This was corrected before you, at a desk at 06:00 on Tue 17 Mar; it says now: 7 cartons as samples$/;
    expect(await troubleOf(await enter({ ...second, id: 'e-3', of: 'e-1' }))).toMatch(before);
    // at the panel where it was entered it is not taken back unseen either
    const back = { id: 'e-4', author: front, kind: 'correction', of: 'e-1', was: 'takenOut' };
    expect(await troubleOf(await enter(back))).toMatch(before);
    // what the first says is corrected in turn
    expect((await enter({ ...second, id: 'e-5', of: 'e-2' })).status).toBe(201);
    expect((await enter({ ...was, id: 'e-6', of: 'e-5' })).status).toBe(201);
    expect(await troubleOf(await enter({ ...second, id: 'e-7', of: 'e-5' }))).toMatch(
      /^This was withdrawn before you, at a desk at /,
    );
    expect(live.fold().state.said[0]!.corrections.map(({ id }) => id)).toEqual(['e-2', 'e-5', 'e-6']);
  });

  it('[EN1] a panel takes back what was entered there, for a minute and no longer', async () => {
    const { enter, live, clock } = await siteForTest();
    await enter({ id: 'e-1', author: front, kind: 'note', words: 'reel' });
    const takeBack = { id: 'e-2', author: back, kind: 'correction', of: 'e-1', was: 'note' };
    expect(await troubleOf(await enter(takeBack))).toContain('cannot be taken back');
    expect((await enter({ ...takeBack, id: 'e-3', author: front })).status).toBe(201);
    expect(live.fold().state.notes).toEqual([]);
    await enter({ id: 'e-4', author: front, kind: 'note', words: 'box' });
    clock.second += 120;
    const late = { ...takeBack, id: 'e-5', of: 'e-4', author: front };
    expect(await troubleOf(await enter(late))).toContain('cannot be taken back');
  });

  it('[EN2] a cause of a station that there is not, or of no stop, is refused', async () => {
    const { enter } = await siteForTest();
    const parts = [{ after: 0, station: 'fold', class: 'stopped' }];
    const cause = { id: 'e-1', author: desk, kind: 'cause', words: 'as seen', stop: 'none', parts };
    expect(await troubleOf(await enter(cause))).toContain('no stop');
    expect(await troubleOf(await enter({ ...cause, parts: [{ ...parts[0], station: 'x' }] }))).toContain(
      'no station',
    );
    expect((await enter({ ...cause, parts: [{ ...parts[0], after: 5 }] })).status).toBe(400);
  });

  it('[EN3] [EN4] a change and a target are taken as the line’s file lets them be', async () => {
    const { enter, live } = await siteForTest();
    const changed = { id: 'e-1', author: desk, kind: 'changed', station: 'fold', words: 'new tucker' };
    expect((await enter({ ...changed, changed: { of: 'part', name: 'tucker' } })).status).toBe(201);
    const adjusted = { of: 'adjustment', adjustment: '9.9', from: '1', to: '2' };
    expect(await troubleOf(await enter({ ...changed, id: 'e-2', changed: adjusted }))).toContain(
      'no adjustment',
    );
    const because = { ...changed, id: 'e-5', changed: { of: 'other' }, notice: 'n-1' };
    expect(await troubleOf(await enter(because))).toContain('no notice n-1');
    const target = { id: 'e-3', author: desk, kind: 'target', size: 'sachet-20', crew: 2, perMinute: 52.3 };
    expect((await enter(target)).status).toBe(201);
    expect(live.fold().state.targets).toMatchObject([{ size: 'sachet-20', crew: 2, tenths: 523 }]);
    expect((await enter({ ...target, id: 'e-4', perMinute: 52.34 })).status).toBe(400);
  });
});

async function troubleOf(response: Response): Promise<string> {
  expect(response.status).toBe(400);
  return ((await response.json()) as { trouble: string }).trouble;
}
