import { expect, it } from 'vitest';
import { LineError } from '../../../model/trouble/trouble.ts';
import { after, HOUR } from '../../../model/units/units.ts';
import { standard } from '../../../simulator/lines/variant.ts';
import { readArguments } from '../../../simulator/server/arguments.ts';
import { monday } from '../simulatedLine.ts';

const now = after(monday, HOUR);

it('without options it is the standard line, at its own pace, on loopback', () => {
  expect(readArguments([], now)).toMatchObject({
    seed: 1,
    speed: 1,
    port: 4840,
    host: '127.0.0.1',
    start: undefined,
    history: undefined,
    variant: standard,
    lockOuts: true,
    printLine: false,
    faults: undefined,
  });
  expect(readArguments(['--faults', 'bad morning.txt'], now).faults).toBe('bad morning.txt');
});

it('a moment is read with its zone, and equipment can be left out', () => {
  const asked = readArguments(
    ['--start', '2026-03-16T06:00:00+01:00', '--without', 'firstOut,lockOuts', '--loading', 'four'],
    now,
  );
  expect(asked.start).toBe(monday);
  expect(asked.variant).toEqual({ ...standard, firstOut: false, loading: 'four' });
  expect(asked.lockOuts).toBe(false);
});

const refused: readonly (readonly [readonly string[], string])[] = [
  [['--sped', '2'], 'The simulator cannot be called like this: there is no option --sped.'],
  [['--help'], 'The simulator cannot be called like this: there is no option --help.'],
  [['--seed', '--port'], 'The simulator cannot be called like this: --seed has no value.'],
  [['--print-line=yes'], 'The simulator cannot be called like this: --print-line takes no value.'],
  [['fast'], 'The simulator cannot be called like this: “fast” belongs to no option.'],
  [['--speed', '1000'], 'The value “1000” of --speed cannot be used.'],
  [['--port', '1.5'], 'The value “1.5” of --port cannot be used.'],
  [['--seed', ''], 'The value “” of --seed cannot be used.'],
  [['--start', 'noon'], 'The value “noon” of --start cannot be used.'],
  [['--history', '2026-03-16T06:30:00Z'], 'History cannot begin after live running does.'],
  [['--loading', 'five'], 'The value “five” of --loading cannot be used.'],
  [['--without', 'wheels'], 'The value “wheels” of --without cannot be used.'],
];

for (const [args, sentence] of refused) {
  it(`refuses ${args.join(' ')} and says what to mend`, () => {
    try {
      readArguments(args, now);
    } catch (error) {
      expect(error).toBeInstanceOf(LineError);
      const { message, why, mend } = error as LineError;
      expect(message).toContain(sentence);
      expect(why.length).toBeGreaterThan(10);
      expect(mend.length).toBeGreaterThan(10);
      return;
    }
    expect.unreachable();
  });
}
