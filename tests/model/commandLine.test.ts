import { parseArgs } from 'node:util';
import { expect, it } from 'vitest';
import { commandMistake } from '../../model/commandLine/commandLine.ts';

const options = { port: { type: 'string' }, fresh: { type: 'boolean' } } as const;

function mistake(...args: string[]): string | undefined {
  return commandMistake(parseArgs({ args, options, strict: false, tokens: true }).tokens, options);
}

it('a command line that fits has no mistake', () => {
  expect(mistake()).toBeUndefined();
  expect(mistake('--port', '80', '--fresh')).toBeUndefined();
  expect(mistake('--port=-1')).toBeUndefined();
});

it('the first thing that does not fit is told in words of our own', () => {
  expect(mistake('--sped', '--port')).toBe('there is no option --sped');
  expect(mistake('-p', '80')).toBe('there is no option -p');
  expect(mistake('--toString', '1')).toBe('there is no option --toString');
  expect(mistake('--port', '--fresh')).toBe('--port has no value');
  expect(mistake('--fresh=no')).toBe('--fresh takes no value');
  expect(mistake('80')).toBe('“80” belongs to no option');
});
