import { io } from 'socket.io-client';
import { afterEach, describe, expect, it } from 'vitest';
import { lineView } from '../../../gateway/api/viewSchema.ts';
import { ENTRY_MOST } from '../../../model/entries/entries.ts';
import type { EntryAnswer } from '../../../model/view/protocol.ts';
import { changes } from '../../model/smallLine.ts';
import { entry, msAt } from '../live/shell.ts';
import { line, openSite, type Site } from './web.ts';

const opened: { close(): unknown }[] = [];
afterEach(async () => {
  for (const one of opened.splice(0).reverse()) await one.close();
});

/** A line that stands since a minute, with a press of its circuit, a guard that was open while it ran, and an order. */
async function site(): Promise<Site> {
  const made = await openSite({ second: 100 });
  opened.push(made);
  const { live } = made;
  await live.offer(
    changes(line, [
      [21, 'door', true],
      [27, 'door', false],
      [40, 'state', 11],
      [50, 'circuit', true],
      [52, 'circuit', false],
      [99, 'heartbeat', 1],
    ]),
  );
  const order = { number: '7701', size: 'sachet-20', blend: 'mint', quantity: 5000 };
  await live.enter({
    ...entry('listed', 99, { kind: 'orderListed', ...order }),
    author: { kind: 'file', file: 'orders' },
  });
  return made;
}

function idsOf({ live }: Site): Record<'stop' | 'press' | 'finding', string> {
  const { stops, presses, open } = live.fold().state;
  return { stop: stops[0]!.id, press: presses[0]!.id, finding: open[0]!.id };
}

function overSocket(address: string, sent: unknown): Promise<EntryAnswer> {
  const socket = io(address, { transports: ['websocket'], reconnection: false });
  opened.push({ close: () => socket.disconnect() });
  return new Promise((resolve) => void socket.emit('enter', { line: line.id, entry: sent }, resolve));
}

const author = { kind: 'position', position: 'front' };
const head = { id: 'e-1', author };
type Ids = ReturnType<typeof idsOf>;

const wrong: [string, (ids: Ids) => object, RegExp][] = [
  ['a stop', () => ({ kind: 'reason', stop: 'nostop', reason: 'material' }), /no stop “nostop”/],
  ['a stop, for later', () => ({ kind: 'notNow', stop: '__proto__' }), /no stop “__proto__”/],
  ['a stop that someone goes to', () => ({ kind: 'going', stop: 'nostop' }), /no stop “nostop”/],
  ['a stop that is noted', () => ({ kind: 'note', words: 'x', stop: 'nostop' }), /no stop “nostop”/],
  ['an answer', ({ stop }) => ({ kind: 'reason', stop, reason: 'noreason' }), /“noreason” is none/],
  ['an answer all objects have', ({ stop }) => ({ kind: 'reason', stop, reason: 'toString' }), /“toString”/],
  [
    'a size',
    () => ({ kind: 'order', number: '9', size: '__proto__', blend: '', quantity: 5, starts: 'now' }),
    /no size “__proto__”/,
  ],
  ['an order', () => ({ kind: 'handedOver', order: '9', cartons: 5 }), /no order “9”/],
  ['a press', () => ({ kind: 'device', press: 'nopress', candidate: 'front' }), /no press “nopress”/],
  ['a button', ({ press }) => ({ kind: 'device', press, candidate: 'attic' }), /“attic” is none/],
  ['a finding', () => ({ kind: 'closed', finding: 'nofinding' }), /no open finding “nofinding”/],
  [
    'findings that were only counted',
    () => ({ kind: 'closed', finding: 'older' }),
    /no open finding “older”/,
  ],
  [
    'a position',
    () => ({ kind: 'crew', people: 2, author: { kind: 'position', position: 'nowhere' } }),
    /no loading position “nowhere”/,
  ],
];

describe('an entry that names what there is not', () => {
  it.each(wrong)(
    'is refused in words, over the interface and over a screen’s socket: %s',
    async (_what, made, said) => {
      const one = await site();
      const before = { end: one.tape.end(line.id), text: one.live.fold().text() };
      const sent = { ...head, ...made(idsOf(one)) };
      const response = await one.enter(sent);
      expect(response.status).toBe(400);
      const told = (await response.json()) as { trouble: string; why: string; mend: string };
      expect(told).toMatchObject({ ok: false, trouble: expect.stringMatching(said) });
      for (const sentence of [told.trouble, told.why, told.mend]) expect(sentence).toMatch(/\.$/);
      expect(await overSocket(one.address, sent)).toEqual({
        ok: false,
        trouble: told.trouble,
        why: told.why,
        mend: told.mend,
      });
      expect(one.tape.end(line.id)).toBe(before.end);
      expect(one.live.fold().text()).toBe(before.text);
    },
  );

  it('may be sent again once there is such a thing', async () => {
    const one = await site();
    const handed = { ...head, kind: 'handedOver', order: '9', cartons: 5 };
    expect((await one.enter(handed)).status).toBe(400);
    const order = { kind: 'order', number: '9', size: 'sachet-20', blend: '', quantity: 5, starts: 'now' };
    expect((await one.enter({ ...head, id: 'e-2', ...order })).status).toBe(201);
    expect((await one.enter(handed)).status).toBe(201);
  });
});

describe('an entry that names what there is', () => {
  it.each<[string, (ids: Ids) => object]>([
    ['an answer', ({ stop }) => ({ kind: 'reason', stop, reason: 'material' })],
    ['something else', ({ stop }) => ({ kind: 'reason', stop, reason: 'other', words: 'a wasp' })],
    ['not now', ({ stop }) => ({ kind: 'notNow', stop })],
    ['on the way', ({ stop }) => ({ kind: 'going', stop })],
    ['a note', ({ stop }) => ({ kind: 'note', words: 'x', stop })],
    ['a button', ({ press }) => ({ kind: 'device', press, candidate: 'front' })],
    ['an order of the list', () => ({ kind: 'handedOver', order: '7701', cartons: 4990 })],
    ['any crew', () => ({ kind: 'crew', people: 7 })],
    ['cartons taken out', () => ({ kind: 'takenOut', cartons: 3, why: 'sample' })],
    [
      'a screen of any name',
      () => ({ kind: 'crew', people: 2, author: { kind: 'screen', screen: 'attic' } }),
    ],
    [
      'an order as long as a list may have it',
      () => ({
        kind: 'order',
        number: 'n'.repeat(ENTRY_MOST.orderNumber),
        size: 'sachet-20',
        blend: 'b'.repeat(ENTRY_MOST.blend),
        quantity: ENTRY_MOST.cartons,
        starts: 'whenEnded',
      }),
    ],
  ])('is taken: %s', async (_what, made) => {
    const one = await site();
    expect((await one.enter({ ...head, ...made(idsOf(one)) })).status).toBe(201);
  });
});

describe('a finding', () => {
  it('[PS5] is closed by a person: it leaves the list, and the tape keeps who closed it, and what was said', async () => {
    const one = await site();
    const { finding } = idsOf(one);
    const shown = () => one.live.view().matters.filter(({ kind }) => kind === 'guardOpenRunning');
    expect(shown()).toMatchObject([{ guard: 'guard door 1', lasted: 6000, id: finding }]);
    const closed = { ...head, kind: 'closed', finding, words: 'latch bent' };
    const answer = await (await one.enter(closed)).json();
    expect(shown()).toEqual([]);
    expect(await (await one.enter(closed)).json()).toEqual(answer);
    const again = await one.enter({ ...closed, id: 'e-2' });
    expect(again.status).toBe(400);
    const end = one.tape.end(line.id);
    const row = await (await one.get(`/api/lines/small/changes?from=${end - 1}`)).json();
    const { value } = (row as { changes: { value: string }[] }).changes[0]!;
    expect(JSON.parse(value)).toEqual({ ...closed, at: msAt(100) });
  });

  it('[PS5] that still reads so cannot be closed yet, and the view is as described meanwhile', async () => {
    const one = await openSite({ second: 30 });
    opened.push(one);
    await one.live.offer(
      changes(line, [
        [21, 'door', true],
        [30, 'heartbeat', 1],
      ]),
    );
    const view: unknown = await (await one.get('/api/lines/small/view')).json();
    expect(lineView.safeParse(view).error?.issues ?? []).toEqual([]);
    const [finding] = (view as { matters: { id: string }[] }).matters;
    const response = await one.enter({ ...head, kind: 'closed', finding: finding!.id });
    expect(response.status).toBe(400);
    expect(await response.json()).toMatchObject({ trouble: 'This finding cannot be closed yet.' });
  });
});
