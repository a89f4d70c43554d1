import { afterEach, describe, expect, it, vi } from 'vitest';
import { createLog, forPeople } from '../../../gateway/commands/log.ts';

const time = new Date(2026, 2, 16, 6, 5, 4).getTime();

afterEach(() => void vi.unstubAllEnvs());

describe('how much the log tells', () => {
  it.each([
    ['', 'warn'],
    ['debug', 'debug'],
    ['silent', 'silent'],
  ])('with SCORELINE_LOG=%s it is %s', (wish, level) => {
    vi.stubEnv('SCORELINE_LOG', wish);
    expect(createLog().level).toBe(level);
  });

  it('is refused in words when there is no such level', () => {
    vi.stubEnv('SCORELINE_LOG', 'loud');
    expect(() => createLog()).toThrow('The log has no level “loud”.');
  });
});

describe('the log for a person at a terminal', () => {
  it('says when, how bad, and what, in one line', () => {
    const warning = JSON.stringify({ level: 40, time, pid: 1, msg: 'The server plc is not heard.' });
    expect(forPeople(warning)).toBe('06:05:04 Look: The server plc is not heard.\n');
    expect(forPeople(JSON.stringify({ level: 30, time, msg: 'StopBegan' }))).toBe('06:05:04 StopBegan\n');
  });

  it('keeps the details of a mistake of our own', () => {
    const row = {
      level: 50,
      time,
      msg: 'Scoreline made a mistake of its own.',
      err: { message: 'x', stack: 'x at y' },
    };
    expect(forPeople(JSON.stringify(row))).toBe(
      '06:05:04 Mistake: Scoreline made a mistake of its own.\nx at y\n',
    );
  });
});
