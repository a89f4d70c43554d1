import { describe, expect, it } from 'vitest';
import { bound, changed, small, wrong } from './smallFile.ts';

describe('YAML that is none', () => {
  it.each([
    ['line: [1, 2', '1:12 This is not YAML.'],
    ['line:\n\t- a', '2:1 This is not YAML.'],
    ['line: {}\nline: {}\n', '2:1 “line” stands twice here.'],
    ['? [a]\n: 1\n', '1:3 This key cannot be used.'],
    ['', '1:1 The file is empty.'],
    ['# nothing\n', '1:1 The file is empty.'],
    ['[]', '1:1 This does not describe a line.'],
    ['PK, or another text', '1:1 This does not describe a line.'],
  ])('%j', (text, expected) => {
    expect(wrong(text)).toContain(expected);
  });

  it('text of another kind is told once and in whole sentences, not by every section it lacks', () => {
    let told: unknown;
    try {
      bound('only some words');
    } catch (error) {
      told = error;
    }
    expect((told as Error & { why: string }).why).toBe(
      'small.yaml:1:1 This does not describe a line. A line file has sections of their own names, such as line: and signals:. Check that this is the file you meant; start from a copy of simulator/lines/line-3.yaml.',
    );
  });

  it('a file that is far too large, or nested far too deep, is no line file', () => {
    expect(wrong('#'.repeat(400_001))).toEqual(['1:1 The file is too large.']);
    expect(wrong('['.repeat(100_000))[0]).toMatch(/nested too deeply|not YAML/);
    expect(wrong(`${'['.repeat(60)}${']'.repeat(60)}`).join()).toContain('nested too deeply');
    const bomb = [
      'a: &a0 [1, 1]',
      ...Array.from({ length: 40 }, (_, n) => `b${n}: &a${n + 1} [*a${n}, *a${n}]`),
    ];
    expect(wrong(bomb.join('\n')).join()).toContain('far too many values');
  });
});

it('an alias stands for what its anchor names, and is refused without one', () => {
  const shifts = `    - { id: early, name: early, from: "06:00", to: "14:00", days: &days [1, 2] }
    - { id: late, name: late, from: "14:00", to: "22:00", days: *days }
`;
  const text = changed('    - { id: early, name: early, from: "06:00", to: "14:00" }\n', shifts);
  expect(bound(text).line.calendar.shifts[1]?.days).toEqual([1, 2]);
  expect(wrong(text.replace('&days ', '')).join()).toMatch(/stands for nothing|not YAML/);
});

describe('values of the wrong kind', () => {
  it.each([
    ['pockets: 3', 'pockets: three', '7:38 “three” cannot be used as pockets.'],
    ['pockets: 3', 'pockets: 2.5', '7:38 “2.5” cannot be used as pockets.'],
    ['pockets: 3', 'pockets:', '7:38 “pockets” has no value.'],
    ['id: pick', 'id: "a b"', '7:11 “a b” cannot be used as id.'],
    ['security: none', 'security: sing', '3:64 “sing” cannot be used as security.'],
    ['opc.tcp://127.0.0.1:4840', 'http://x', '3:26 “http://x” cannot be used as endpoint.'],
    ['from: "06:00"', 'from: "6:00"', '18:39 “6:00” cannot be used as from.'],
    ['2: 52', '0: 52', '10:54 “0” cannot be used as targets.'],
    ['2: 52', '2: 52.25', '10:57 “52.25” cannot be used as 2 of targets.'],
    ['width: 32', 'width: 64', '21:42 “64” cannot be used as width.'],
    ['opc30050', '{ 1: Running }', '5:42 “Running” cannot be used as 1 of states.'],
    ['opc30050', 'opc30051', '5:37 “opc30051” cannot be used as states.'],
    ['name: pick', 'nam: pick', '7:5 “name” of pick is missing.'],
    ['role: state', 'role: State', '20:13 “State” cannot be used as role.'],
  ])('%s as %s', (from, to, expected) => {
    const told = wrong(changed(from, to));
    expect(told).toContain(expected);
  });

  it('an adjustment number without quotes is refused, as 10.1 and 10.10 would be one', () => {
    const text = `${small}adjustments:\n  - { number: 10.10, name: n, station: pick, unit: mm, decimals: 1, range: [0, 1], book: {} }\n`;
    expect(wrong(text)).toEqual(['23:15 “10.1” cannot be used as number.']);
  });
});

const more = (text: string) => small + text;
const circuit = 'devices: [{ id: c, name: c, side: front, kind: circuit, candidates: [a] }]\n';
const signal = '  - { role: stopDevice, of: c, tag: C }\n';

describe('what one part says about another', () => {
  it.each([
    ['pace', changed('pace: m', 'pace: n'), 'There is no machine “n”.'],
    ['station of loading', changed('station: pick', 'station: pik'), 'There is no station “pik”.'],
    ['two stations', changed('id: discharge', 'id: pick'), 'The station “pick” stands twice.'],
    [
      'pockets that grow',
      changed('pockets: 0', 'pockets: 4'),
      '“discharge” has more pockets to discharge than “pick”.',
    ],
    [
      'pockets that do not end',
      changed('pockets: 0', 'pockets: 1'),
      'The last station, “discharge”, has to have 0 pockets.',
    ],
    ['drawing', changed('pockets: 3', 'pockets: 3, drawing: pik-off'), 'There is no drawing “pik-off”.'],
    ['zone that is an offset', changed('zone: Europe/Berlin', 'zone: "+01:00"'), '“+01:00” is no time zone.'],
    ['crew', changed('crew: 2', 'crew: 3'), 'A crew of 3 is assumed but not among the crews.'],
    ['no target', changed('{ 2: 52 }', '{}'), 'The size “s20” has no target.'],
    ['target above rate', more('settings: { rateMax: 50 }\n'), 'A target of 52 is above rateMax, 50.'],
    ['states', changed('opc30050', '{ 1: Held }'), 'No number means Execute.'],
    [
      'modes',
      changed('states: opc30050', 'states: opc30050, modes: { 1: setup }'),
      'No number means produce.',
    ],
    ['stale', more('settings: { stale: 90 s }\n'), '“lost” is not longer than “stale”.'],
    ['reject', more('rejects: [{ id: a, name: a, station: x }]\n'), 'There is no station “x”.'],
    [
      'reject from',
      more('rejects: [{ id: a, name: a, station: a, from: [a, x] }]\n'),
      'There is no station “x”.',
    ],
    [
      'reason',
      more('reasons: [{ number: 1, kind: machine, name: a, station: x }]\n'),
      'There is no station “x”.',
    ],
    [
      'reasons',
      more('reasons: [{ number: 1, kind: machine, name: a }, { number: 1, kind: machine, name: b }]\n'),
      'The stop reason “1” stands twice.',
    ],
    ['circuit', more(signal + circuit), 'The circuit “c” needs at least two candidates.'],
    ['button', more(signal + circuit.replace(' kind: circuit,', '')), 'The button “c” has candidates.'],
    ['unbound device', more(circuit.replace('[a]', '[a, b]')), 'No signal reads the stop device “c”.'],
    [
      'unbound guard',
      more('guards: [{ id: g, name: g, side: back, from: pick, to: pick }]\n'),
      'No signal reads the guard “g”.',
    ],
    [
      'guard',
      more('guards: [{ id: g, name: g, side: back, from: discharge, to: pick }]\n'),
      'The guard “g” ends before it begins.',
    ],
    [
      'shifts',
      changed(
        'calendar:\n  shifts:\n',
        'calendar:\n  shifts:\n    - { id: n, name: n, from: "22:00", to: "06:30", days: [7] }\n',
      ),
      'The shifts “early” and “n” overlap.',
    ],
    [
      'pause of no shift',
      more('').replace(
        'signals:',
        '  pauses: [{ id: p, name: p, shift: x, from: "09:00", to: "10:00", allowance: 5 min }]\nsignals:',
      ),
      'There is no shift “x”.',
    ],
    [
      'pause outside',
      more('').replace(
        'signals:',
        '  pauses: [{ id: p, name: p, shift: early, from: "13:30", to: "14:30", allowance: 5 min }]\nsignals:',
      ),
      'The window of the pause “p” is not inside the shift “early”.',
    ],
    [
      'pause too long',
      more('').replace(
        'signals:',
        '  pauses: [{ id: p, name: p, shift: early, from: "09:00", to: "09:10", allowance: 20 min }]\nsignals:',
      ),
      'The pause “p” is allowed longer than its window.',
    ],
  ])('%s', (_, text, expected) => {
    expect(wrong(text).map((line) => line.replace(/^\d+:\d+ /, ''))).toContain(expected);
  });

  it('a book with an unknown size, a set point outside its scale and an empty scale', () => {
    const text = more(`adjustments:
  - { number: "1.1", name: n, station: pick, unit: mm, decimals: 0, range: [0, 9], book: { s2: 1, s20: 10 } }
  - { number: "1.2", name: n, station: pick, unit: mm, decimals: 0, range: [9, 0], book: {} }
`);
    expect(wrong(text)).toEqual([
      '23:92 There is no size “s2”.',
      '23:104 The set point 10 lies outside the scale.',
      '24:76 The range is empty.',
    ]);
  });
});

describe('signals', () => {
  it.each([
    ['  - { role: cycleCount, tag: C }\n', 'The counter cycleCount has no width.'],
    ['  - { role: lot, tag: C, width: 16 }\n', 'The signal lot has a width.'],
    ['  - { role: lot, tag: C, activeWhen: true }\n', 'The signal lot has activeWhen.'],
    [
      '  - { role: presentedCount, tag: C, width: 16 }\n',
      'The signal presentedCount does not say which station it belongs to.',
    ],
    ['  - { role: presentedCount, of: pik, tag: C, width: 16 }\n', 'There is no station “pik”.'],
    ['  - { role: lot, of: pick, tag: C }\n', 'The signal lot belongs to nothing.'],
    ['  - { role: lot, tag: State }\n', 'The tag “State” is bound twice.'],
    ['  - { role: state, tag: C }\n', 'The signal “state” is bound twice.'],
    ['  - { role: goodCount, machine: m, tag: C, width: 16 }\n', 'The signal “good-count” is bound twice.'],
    ['  - { role: mode, tag: C }\n', 'The signal mode of “m” cannot be understood.'],
    ['  - { role: lot, server: x, tag: C }\n', 'There is no server “x”.'],
    ['  - { role: lot, machine: x, tag: C }\n', 'There is no machine “x”.'],
    ['  - { role: lot, tag: "ns=3;x=C" }\n', '“ns=3;x=C” is no node id.'],
    ['  - { role: link, tag: C }\n', '“link” cannot be used as role.'],
  ])('%s', (added, expected) => {
    expect(wrong(small + added).map((line) => line.replace(/^\d+:\d+ /, ''))).toContain(expected);
  });

  it('a line needs good cartons, something that tells whether it runs, and a namespace for bare tags', () => {
    const text = changed('role: goodCount, tag: Good, width: 32', 'role: lot, tag: L')
      .replace('role: state', 'role: speedSet')
      .replace(', namespace: "urn:x"', '');
    expect(wrong(text).map((line) => line.replace(/^\d+:\d+ /, ''))).toEqual([
      'The server “plc” has no namespace.',
      'No signal counts good cartons.',
      'Nothing tells whether the machine “m” runs.',
    ]);
  });
});
