import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readArguments } from '../../../gateway/commands/arguments.ts';
import { HOUR } from '../../../model/units/units.ts';
import { LineError } from '../../../model/trouble/trouble.ts';
import { wordsIn } from '../../../model/words/words.ts';

describe('the command line', () => {
  it('asks for the demo on loopback when nothing is said', () => {
    expect(readArguments([])).toEqual({
      line: undefined,
      port: 8080,
      host: '127.0.0.1',
      names: [],
      data: resolve('data/demo'),
      fresh: false,
      speed: 1,
      seed: undefined,
      from: undefined,
      help: false,
    });
  });

  it('asks for a line of one’s own, whose tape is never the demo’s', () => {
    expect(readArguments(['--line', 'my/line.yaml'])).toMatchObject({
      line: resolve('my/line.yaml'),
      data: resolve('data'),
    });
    expect(readArguments(['--name', 'line3', '--name', 'line3.plant.example']).names).toEqual([
      'line3',
      'line3.plant.example',
    ]);
    expect(readArguments(['--line', 'a', '--data', '/d', '--port=0', '--host', '::1'])).toMatchObject({
      data: resolve('/d'),
      port: 0,
      host: '::1',
    });
  });

  it('[OI8] keeps all of a tape, unless it is said how old or how large it may become', () => {
    expect(readArguments([]).keep).toBeUndefined();
    expect(readArguments(['--keep-days', '400', '--keep-gb', '20']).keep).toEqual({
      age: 400 * 24 * HOUR,
      bytes: 20e9,
    });
    expect(readArguments(['--keep-gb', '1']).keep).toEqual({ bytes: 1e9 });
  });

  it('asks for another one-time admin code', () => {
    expect(readArguments(['--new-admin-code'])).toMatchObject({ newAdminCode: true });
    expect(readArguments([]).newAdminCode).toBeUndefined();
  });

  it.each([
    ['--port', '65536'],
    ['--port', '80.5'],
    ['--port', ''],
    ['--port'],
    ['--speed', '11'],
    ['--seed', '-1'],
    ['--from', 'yesterday'],
    ['--from', '1990-01-01T00:00Z'],
    ['--from', '2048-01-01T00:00Z'],
    ['--port', '-1'],
    ['--port', '1e9'],
    ['--host='],
    ['--data='],
    ['--line='],
    ['--data', '  '],
    ['--fresh=1'],
    ['--rebuild=1'],
    ['--keep-days', '30'],
    ['--keep-gb', '0.5'],
    ['--new-admin-code=1'],
    ['--colour'],
    ['line.yaml'],
  ])('says what is wrong in three sentences: %s %s', (...args) => {
    let told: unknown;
    try {
      readArguments(args);
    } catch (error) {
      told = error;
    }
    expect(told).toBeInstanceOf(LineError);
    const { message, why, mend } = told as LineError;
    for (const sentence of [message, why, mend]) expect(sentence).toMatch(/^\S.*[^.]\.$/);
  });

  it.each([
    [['--colour', 'blue'], 'there is no option --colour'],
    [['-p', '80'], 'there is no option -p'],
    [['--no-fresh'], 'there is no option --no-fresh'],
    [['--constructor=1'], 'there is no option --constructor'],
    [['line.yaml'], '“line.yaml” belongs to no option'],
    [['--', 'line.yaml'], '“line.yaml” belongs to no option'],
    [['--port'], '--port has no value'],
    [['--port', '--host', '::1'], '--port has no value'],
    [['--fresh=1'], '--fresh takes no value'],
    [['--port=-1'], '--port must be a number from 0 to 65535'],
  ])('says it in words of our own: %j', (args, what) => {
    expect(() => readArguments(args)).toThrow(`The command line was not understood: ${what}.`);
  });

  it.each([
    ['--speed', '2'],
    ['--speed', '1'],
    ['--seed', '3'],
    ['--from', '2026-03-16T05:00Z'],
    ['--fresh'],
  ])('does not take in silence what would do nothing beside --line: %s', (...args) => {
    readArguments(args);
    let told: unknown;
    try {
      readArguments(['--line', 'line.yaml', ...args]);
    } catch (error) {
      told = error;
    }
    expect(told).toBeInstanceOf(LineError);
    const { message, mend } = told as LineError;
    expect(message).toBe(`${args[0]} cannot be used together with --line.`);
    expect(mend).toBe(`Leave out ${args[0]}, or --line.`);
  });

  it('has help that names every option there is', () => {
    const { usage } = wordsIn('en').gateway;
    const options = Object.keys(readArguments([])).map((option) => option.replace('names', 'name'));
    for (const option of options) expect(usage).toContain(`--${option} `);
  });
});
