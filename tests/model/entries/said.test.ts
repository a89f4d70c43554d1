import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { EntryBody } from '../../../model/entries/entries.ts';
import { CARTON, lostByKey } from '../../../model/fold/account.ts';
import type { LineEvent } from '../../../model/fold/events.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import { correctionAt } from '../../../model/fold/said.ts';
import type { Line } from '../../../model/line/line.ts';
import { takenIn } from '../../../model/past/knownFlow.ts';
import { recordSteps } from '../../../model/records/records.ts';
import { subjectOf } from '../../../model/records/subjects.ts';
import { byLineTime, type Change } from '../../../model/signals/signals.ts';
import type { Millis } from '../../../model/units/units.ts';
import { at, changes, goods, type Rows, running, smallLine } from '../smallLine.ts';

const small = smallLine();
/** 60 a minute by two people, 90 by three. */
const line: Line = {
  ...small,
  sizes: small.sizes.map((size, n) => ({
    ...size,
    targets: new Map([
      [2, n === 0 ? 60 : 30],
      [3, n === 0 ? 90 : 45],
    ]),
  })),
};
const FOLD = { after: 0 as Millis, station: 'fold', class: 'stopped' } as const;

function entry(second: number, id: string, body: EntryBody, madeAt = second): Rows[number] {
  const author = { kind: 'screen', screen: 'desk' };
  return [second, 'entry', JSON.stringify({ id, at: madeAt, author, ...body })];
}

function foldOf(...rows: readonly Rows[]): LineFold {
  const fold = new LineFold(line);
  fold.take(changes(line, rows.flat()));
  return fold;
}

/** The line runs, stands for a tuck jam from 10 to 40, and runs again. */
const jammed: Rows = [
  ...running(),
  ...goods(1, 9, 1),
  [10, 'state', 11],
  [10, 'reason', 51],
  [40, 'state', 6],
  [40, 'reason', 0],
  ...goods(41, 50, 10),
];
const jam = at(10).toString(36);

describe('what people say and correct', () => {
  it('[EN1] a correction stands beside what it corrects, and both can be read', () => {
    const { state } = foldOf(
      jammed,
      [entry(51, 'a', { kind: 'note', words: 'new box' })],
      [
        entry(60, 'b', {
          kind: 'correction',
          of: 'a',
          was: 'note',
          body: { kind: 'note', words: 'new reel' },
          why: 'slip',
        }),
      ],
    );
    expect(state.notes.map(({ id, words }) => [id, words])).toEqual([['a', 'new reel']]);
    expect(state.said).toMatchObject([
      {
        at: at(51),
        first: { id: 'a', words: 'new box' },
        corrections: [{ id: 'b', body: { words: 'new reel' }, why: 'slip' }],
      },
    ]);
  });

  it('[EN1] what is withdrawn counts no more, and can be said again', () => {
    const fold = foldOf(jammed, [
      entry(51, 'a', { kind: 'reason', stop: jam, reason: 'material' }),
      entry(52, 'b', { kind: 'correction', of: 'a', was: 'reason' }),
    ]);
    expect(fold.state.stops[0]!.answer).toBeNull();
    expect(fold.state.answers).toEqual([]);
    fold.take(
      changes(line, [
        entry(53, 'c', {
          kind: 'correction',
          of: 'a',
          was: 'reason',
          body: { kind: 'reason', stop: jam, reason: 'cleaning' },
        }),
      ]),
    );
    expect(fold.state.stops[0]!.answer).toMatchObject({ reason: 'cleaning' });
    expect(fold.state.answers).toMatchObject([{ answer: 'cleaning', times: 1 }]);
  });

  it('[EN1] a correction of another kind, of nothing, or sent twice changes nothing', () => {
    const told = [entry(51, 'a', { kind: 'note', words: 'one' })];
    const before = foldOf(jammed, told).state;
    const { state } = foldOf(jammed, told, [
      entry(52, 'b', { kind: 'correction', of: 'a', was: 'crew', body: { kind: 'crew', people: 3 } }),
      entry(52, 'c', { kind: 'correction', of: 'x', was: 'note' }),
      entry(52, 'c', { kind: 'correction', of: 'a', was: 'note' }),
    ]);
    expect({ ...state, at: 0, signal: 0, values: [], ats: [], entryIds: [] }).toEqual({
      ...before,
      ...{ at: 0, signal: 0, values: [], ats: [], entryIds: [] },
    });
  });

  it('[EN1] the count of cartons handed over is the newest that was not withdrawn', () => {
    const order: EntryBody = {
      kind: 'order',
      number: '7',
      size: 'sachet-20',
      blend: '',
      quantity: 5,
      starts: 'now',
    };
    const handed = (second: number, id: string, cartons: number) =>
      entry(second, id, { kind: 'handedOver', order: '7', cartons });
    const fold = foldOf([entry(-1, 'o', order)], jammed, [handed(60, 'a', 19), handed(61, 'b', 91)]);
    expect(fold.state.orders[0]!.handedOver).toBe(91);
    fold.take(changes(line, [entry(62, 'c', { kind: 'correction', of: 'b', was: 'handedOver' })]));
    expect(fold.state.orders[0]!.handedOver).toBe(19);
  });

  it('[EN1] a crew that is corrected counts from the moment it was entered for, and possible follows to the last part', () => {
    const said = entry(20, 'a', { kind: 'crew', people: 2 });
    const right = entry(20, 'a', { kind: 'crew', people: 3 });
    const end: Rows = goods(51, 60, 20);
    const fold = foldOf(
      jammed,
      [said].filter(() => false),
    );
    fold.take([]);
    const live = new LineFold(line);
    live.take([...changes(line, [...jammed, said, ...end])].sort(byLineTime));
    const correction = {
      kind: 'correction',
      of: 'a',
      was: 'crew',
      body: { kind: 'crew', people: 3 },
    } as const;
    const moment = correctionAt(live.state, {
      id: 'b',
      at: 0 as never,
      author: { kind: 'itself' },
      ...correction,
    });
    expect(moment).toBe(at(20));
    live.take(changes(line, [entry(20, 'b', correction, 60)]));
    const asSaid = new LineFold(line);
    asSaid.take([...changes(line, [...jammed, right, ...end])].sort(byLineTime));
    expect(live.state.crew).toBe(3);
    expect(live.state.shift.account).toEqual(asSaid.state.shift.account);
    const { account } = live.state.shift;
    const open = account.open?.net ?? 0;
    expect(lostByKey(account).reduce((sum, parts) => sum + parts, open)).toBe(
      account.possible - account.good * CARTON,
    );
  });

  it('[EN1] a crew that another has followed since goes on to be what that one said', () => {
    const fold = foldOf(jammed, [
      entry(51, 'a', { kind: 'crew', people: 2 }),
      entry(52, 'b', { kind: 'crew', people: 3 }),
    ]);
    fold.take(
      changes(line, [
        entry(51, 'c', { kind: 'correction', of: 'a', was: 'crew', body: { kind: 'crew', people: 4 } }),
      ]),
    );
    expect(fold.state.crew).toBe(3);
    fold.take(changes(line, [entry(52, 'd', { kind: 'correction', of: 'b', was: 'crew' })]));
    expect(fold.state.crew).toBe(4);
  });

  it('[EN2] a cause stands beside what the PLC said, and the account stays by its first fault', () => {
    const plain = foldOf(jammed).state;
    const { state } = foldOf(jammed, [
      entry(51, 'a', {
        kind: 'cause',
        words: 'as seen',
        stop: jam,
        parts: [FOLD, { after: 20_000 as Millis, station: 'pick', class: 'starved' }],
      }),
    ]);
    expect(state.stops[0]).toMatchObject({
      reason: 51,
      station: 'fold',
      class: 'stopped',
      cause: { parts: [FOLD, { station: 'pick' }] },
    });
    expect(lostByKey(state.shift.account)).toEqual(lostByKey(plain.shift.account));
    expect(state.stops[0]!.lost).toBe(plain.stops[0]!.lost);
  });

  it('[EN2] the newest word on a cause counts; withdrawn, the one before it does, and without any the PLC alone', () => {
    const cause = (second: number, id: string, station: string) =>
      entry(second, id, { kind: 'cause', words: 'as seen', stop: jam, parts: [{ ...FOLD, station }] });
    const fold = foldOf(jammed, [cause(51, 'a', 'pick'), cause(52, 'b', 'discharge')]);
    const station = () => fold.state.stops[0]!.cause?.parts[0]?.station;
    expect(station()).toBe('discharge');
    fold.take(changes(line, [entry(53, 'c', { kind: 'correction', of: 'b', was: 'cause' })]));
    expect(station()).toBe('pick');
    fold.take(changes(line, [entry(54, 'd', { kind: 'correction', of: 'a', was: 'cause' })]));
    expect(fold.state.stops[0]).not.toHaveProperty('cause');
  });

  it('[EN3] a change that was made is a record of its own, found by its station', () => {
    const fold = new LineFold(line);
    const told = fold.take(
      changes(line, [
        ...jammed,
        entry(51, 'a', {
          kind: 'changed',
          station: 'fold',
          changed: { of: 'part', name: 'tucker' },
          words: 'worn',
        }),
      ]),
    );
    const [record] = entryRecords(told, fold);
    expect(record).toMatchObject({
      at: at(51),
      id: 'a',
      body: { entry: { kind: 'changed', words: 'worn' } },
    });
    expect(subjectOf(record!)).toBe('changed fold');
  });

  it('[EN4] a target counts from its moment on, for its size and crew, until the file’s is said to', () => {
    const account = (rows: Rows) => foldOf(running(), rows).state.shift.account;
    expect(account([[10, 'good', 1]]).possible / CARTON).toBe(10);
    const target = (second: number, crew: number, perMinute: number | null) =>
      entry(second, `t${second}`, { kind: 'target', size: 'sachet-20', crew, perMinute });
    expect(account([target(0, 2, 120), [10, 'good', 1]]).possible / CARTON).toBe(20);
    expect(account([target(0, 3, 120), [10, 'good', 1]]).possible / CARTON).toBe(10);
    expect(account([target(0, 2, 120), target(5, 2, null), [10, 'good', 1]]).possible / CARTON).toBe(15);
    expect(
      account([
        target(0, 2, 120),
        target(5, 2, 180),
        entry(5, 'w', { kind: 'correction', of: 't5', was: 'target' }),
        [10, 'good', 1],
      ]).possible / CARTON,
    ).toBe(20);
  });

  it('[EN1] a withdrawn test is no test, and one that was of another device is found by that', () => {
    const fold = new LineFold(line);
    const test = (device: string) => ({ kind: 'tested', device, method: 'pressed', person: '41' }) as const;
    const told = fold.take(
      changes(line, [
        ...jammed,
        entry(51, 'a', test('panel')),
        entry(52, 'b', test('panel')),
        entry(53, 'c', { kind: 'correction', of: 'a', was: 'tested' }),
        entry(54, 'd', { kind: 'correction', of: 'b', was: 'tested', body: test('door') }),
      ]),
    );
    const newest = new Map(entryRecords(told, fold).map((record) => [record.id, subjectOf(record)]));
    expect([...newest]).toEqual([
      ['a', null],
      ['b', 'tested door'],
    ]);
  });

  it('[EN1] records are the same whether a correction came later or what it says was entered so at once', () => {
    const rows = [
      ...jammed,
      entry(20, 'a', { kind: 'crew', people: 2 }),
      entry(45, 'n', { kind: 'note', words: 'reel' }),
    ];
    const correction = entry(
      20,
      'c',
      { kind: 'correction', of: 'a', was: 'crew', body: { kind: 'crew', people: 3 } },
      60,
    );
    const tape = changes(line, [...rows, ...goods(51, 60, 20)]).sort(byLineTime);
    const late = [...tape, ...changes(line, [correction])];
    expect(recordsOf(late.map((change) => [change]))).toEqual(recordsOf([[...late].sort(byLineTime)]));
    expect(
      recordsOf(late.map((change) => [change])).filter(([key]) => key.startsWith('entry')),
    ).toMatchObject([
      [`entry ${at(20)} a`, { entry: { id: 'a', people: 3 }, said: { first: { people: 2 } } }],
      [`entry ${at(45)} n`, { entry: { words: 'reel' } }],
    ]);
  });

  it('[BA4] [EN1] a count of cartons taken out that is corrected takes its place in the balance, and withdrawn it has none', () => {
    const fold = new LineFold(line);
    const told = fold.take(
      changes(line, [
        ...jammed,
        entry(51, 'a', { kind: 'takenOut', cartons: 90, why: 'sample' }),
        entry(52, 'b', { kind: 'takenOut', cartons: 4, why: 'byHand' }),
        entry(53, 'c', {
          kind: 'correction',
          of: 'a',
          was: 'takenOut',
          body: { kind: 'takenOut', cartons: 9, why: 'sample' },
        }),
        entry(54, 'd', { kind: 'correction', of: 'b', was: 'takenOut' }),
      ]),
    );
    const records = new Map(entryRecords(told, fold).map((record) => [record.id, record.body]));
    expect(takenIn([...records.values()], { from: at(0), to: at(100) })).toEqual({
      ...{ sample: 9, byHand: 0, broughtBack: 0 },
      takenOut: 9,
    });
  });

  it('[EN1] whatever the chunks, a restart in between and what comes late, the state is that of the fold in line time', () => {
    const inOrder = textOf(tapeOf(), [1e9]);
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 1, maxLength: 20 }),
        fc.array(fc.nat({ max: 600 }), { minLength: 80, maxLength: 80 }),
        (chunks, delays) => {
          expect(textOf(tapeOf(), chunks)).toBe(inOrder);
          expect(textOf(late(tapeOf(), delays), chunks, true)).toBe(inOrder);
        },
      ),
      { numRuns: 40 },
    );
  });
});

/** Records as they stand after a tape, however it came. */
function recordsOf(batches: readonly (readonly Change[])[]) {
  const fold = new LineFold(line);
  const kept = new Map<string, unknown>();
  for (const batch of batches)
    for (const step of recordSteps(fold.take(batch), fold.state)) {
      if (step.kind === 'put')
        kept.set(
          `${step.record.kind} ${step.record.at} ${step.record.id}`,
          structuredClone(step.record.body),
        );
      if (step.kind === 'drop') kept.delete(`${step.of} ${step.at} ${step.id}`);
      if (step.kind === 'cut')
        for (const key of [...kept.keys()]) {
          const [kind, moment] = key.split(' ');
          if ((step.of as readonly string[]).includes(kind!) && Number(moment) >= step.from) kept.delete(key);
        }
    }
  return [...kept].sort(([a], [b]) => a.localeCompare(b));
}

function entryRecords(told: readonly LineEvent[], fold: LineFold) {
  return recordSteps(told, fold.state).flatMap((step) =>
    step.kind === 'put' && step.record.kind === 'entry' ? [step.record] : [],
  );
}

/** Corrections of a crew and a target stand at the moments of what they correct, the rest where they were made. */
function tapeOf(): Change[] {
  return changes(line, [
    ...jammed,
    entry(15, 'crew', { kind: 'crew', people: 3 }),
    entry(20, 'cause', { kind: 'cause', words: 'as seen', stop: jam, parts: [{ ...FOLD, station: 'pick' }] }),
    entry(22, 'target', { kind: 'target', size: 'sachet-20', crew: 3, perMinute: 75.5 }),
    entry(30, 'reason', { kind: 'reason', stop: jam, reason: 'material' }),
    entry(45, 'note', { kind: 'note', words: 'reel' }),
    entry(52, 'c1', {
      kind: 'correction',
      of: 'cause',
      was: 'cause',
      body: { kind: 'cause', words: 'as seen', stop: jam, parts: [FOLD] },
    }),
    entry(53, 'c2', { kind: 'correction', of: 'reason', was: 'reason' }),
    entry(54, 'c3', { kind: 'correction', of: 'note', was: 'note', body: { kind: 'note', words: 'box' } }),
    entry(15, 'c4', { kind: 'correction', of: 'crew', was: 'crew', body: { kind: 'crew', people: 2 } }, 55),
    entry(
      22,
      'c5',
      {
        kind: 'correction',
        of: 'target',
        was: 'target',
        body: { kind: 'target', size: 'sachet-20', crew: 2, perMinute: 66 },
      },
      56,
    ),
    ...goods(57, 70, 20),
  ]).sort(byLineTime);
}

/** People's entries reach the tape in the order in which they are made; what the line tells comes late. */
function late(tape: readonly Change[], delays: readonly number[]): Change[] {
  const entrySignal = line.signals.findIndex(({ role }) => role === 'entry');
  return tape
    .map((change, place) => {
      const madeAt = change.signal === entrySignal ? Number(JSON.parse(String(change.value)).at) : undefined;
      const comes =
        madeAt === undefined ? change.at + delays[place % delays.length]! * 10_000_000 : at(madeAt);
      return { change, comes };
    })
    .sort((a, b) => a.comes - b.comes)
    .map(({ change }) => change);
}

function textOf(tape: readonly Change[], chunks: readonly number[], restart = false): string {
  let fold = new LineFold(line);
  for (let place = 0, n = 0; place < tape.length; n += 1) {
    const size = chunks[n % chunks.length]!;
    fold.take(tape.slice(place, place + size));
    place += size;
    // a fold that goes on from what was saved cannot work in what is older: only in line time it may be made anew
    if (!restart) fold = new LineFold(line, fold.save());
  }
  return fold.text();
}
