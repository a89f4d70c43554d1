import { pino } from 'pino';
import { describe, expect, it } from 'vitest';
import { intakeOptions } from '../../../gateway/commands/intakes.ts';
import type { Tape } from '../../../gateway/tape/tape.ts';
import { LineError } from '../../../model/trouble/trouble.ts';
import type { Instant } from '../../../model/units/units.ts';
import { changes, goods, running, smallLine } from '../../model/smallLine.ts';
import { stand } from '../live/shell.ts';

const line = smallLine();
const server = {
  id: 'plc',
  endpoint: 'opc.tcp://127.0.0.1:1',
  security: 'none',
  clock: 'utc',
  namespace: '',
} as const;
const full = new LineError('The disk is full.', { why: 'No space.', mend: 'Make room.' });

async function handOver(through: (tape: Tape) => Tape) {
  const stood = await stand(line, { through });
  const logged: { level: number; msg: string }[] = [];
  const log = pino({}, { write: (row: string) => void logged.push(JSON.parse(row)) });
  const stopping = new AbortController();
  const bound = { line, servers: [server], tags: new Map() };
  const { take } = intakeOptions(server, {
    bound,
    live: stood.live,
    data: '/nowhere',
    log,
    stopping: stopping.signal,
    retryMs: 5,
  });
  return { ...stood, take, logged, stopping };
}

describe('what an intake is told of the tape', () => {
  it('[SI1] a value that was last bad or uncertain is not known, so that it is taken again when it is good', async () => {
    const { live } = await stand(line, {});
    const good = changes(line, [...running(), ...goods(1, 3, 1)]);
    const place = line.signals.findIndex(({ role }) => role === 'goodCount');
    const state = line.signals.findIndex(({ role }) => role === 'state');
    const [later] = changes(line, [[10, 'good', 3]]);
    await live.offer([...good, { ...later!, status: 0x80000000, value: null }]);
    const bound = { line, servers: [server], tags: new Map() };
    const log = pino({ level: 'silent' });
    const parts = { bound, live, data: '/nowhere', log, stopping: new AbortController().signal };
    const { known } = intakeOptions(server, parts);
    expect(known!(place)).toEqual({ at: later!.at, value: null });
    expect(known!(state)).toMatchObject({ value: 6 });
    expect(known!(line.signals.findIndex(({ role }) => role === 'crushedCount'))).toMatchObject({ value: 0 });
    const at = (later!.at + 1) as Instant;
    const uncertain = { ...later!, at, status: 0x40000000, value: 3 };
    await live.offer([uncertain]);
    expect(known!(place)).toEqual({ at, value: null });
  });
});

describe('what an intake hands over', () => {
  it('is tried until there is room again, recorded once, and said once', async () => {
    let tries = 0;
    const { take, tape, live, logged } = await handOver((inner) => ({
      ...inner,
      append: (id, some) => {
        tries += 1;
        return tries < 4 ? Promise.reject(full) : inner.append(id, some);
      },
    }));
    const some = changes(line, [...running(), ...goods(1, 3, 1)]);
    await take([...some]);
    expect(tries).toBe(4);
    expect(tape.end(line.id)).toBe(some.length);
    expect(live.fold().state.shift.account.good).toBe(3);
    expect(logged.map(({ msg }) => msg)).toEqual([
      'The disk is full. No space. Make room.',
      'The tape is being written again; what the server could not hold meanwhile is a gap.',
    ]);
  });

  it('is given up when the gateway ends, and nothing of it is shown', async () => {
    const { take, live, stopping } = await handOver((inner) => ({
      ...inner,
      append: () => Promise.reject(full),
    }));
    const taken = take(changes(line, running()));
    stopping.abort();
    await taken;
    expect(live.fold().newest).toBeUndefined();
  });

  it('is not recorded twice because a saved state could not be kept', async () => {
    const { take, tape, live, notes } = await handOver((inner) => ({
      ...inner,
      keep: () => Promise.reject(full),
    }));
    const some = changes(line, [...running(), ...goods(1, 400, 1)]);
    await take([...some]);
    expect(tape.end(line.id)).toBe(some.length);
    expect(live.fold().state.shift.account.good).toBe(400);
    expect(notes.filter(({ kind }) => kind === 'trouble')).toHaveLength(1);
  });

  it('does not hide a mistake of our own', async () => {
    const { take } = await handOver((inner) => ({
      ...inner,
      append: () => Promise.reject(new Error('bug')),
    }));
    await expect(take(changes(line, running()))).rejects.toThrow('bug');
  });
});
