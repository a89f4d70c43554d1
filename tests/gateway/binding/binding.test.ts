import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseLineFile, readLineFile } from '../../../gateway/binding/binding.ts';
import { FileError } from '../../../gateway/binding/faults.ts';
import { drawings } from '../../../gateway/binding/lineChecks.ts';
import { opc30050, opc30060 } from '../../../model/packml/packml.ts';
import { LineError } from '../../../model/trouble/trouble.ts';
import { lineFileText } from '../../../simulator/lines/variants.ts';
import { standard, type Variant } from '../../../simulator/lines/variant.ts';
import { bound, changed, small, wrong } from './smallFile.ts';

const root = resolve(import.meta.dirname, '../../..');
const bundledPath = resolve(root, 'simulator/lines/line-3.yaml');

describe('the bundled line file', () => {
  it('[CH5] [SP4] may say how many trial cartons a changeover has, and which part of one is the board', () => {
    const text = readFileSync(bundledPath, 'utf8')
      .replace('  askAfter: 20 s', '  askAfter: 20 s\n  trialCartons: 10')
      .replace(
        'changeover:\n  steps:',
        'changeover:\n  steps:\n    - { id: board, kind: part, name: board, station: magazine, lot: true }',
      );
    const { line } = parseLineFile(text, bundledPath);
    expect(line.settings.trialCartons).toBe(10);
    expect(line.changeoverSteps[0]).toEqual({
      id: 'board',
      kind: 'part',
      name: 'board',
      station: 'magazine',
      lot: true,
      in: ['size'],
    });
    const odd = text.replace('trialCartons: 10', 'trialCartons: some');
    expect(() => parseLineFile(odd, bundledPath)).toThrow(FileError);
  });

  it('is read whole, with what it leaves out filled in', async () => {
    const { line, servers, ordersFile } = await readLineFile(bundledPath);
    expect(line.stations.map(({ number, drawing }) => [number, drawing])).toEqual(
      drawings.map((drawing, place) => [place + 1, drawing]),
    );
    expect(line.stations[4]).toEqual({
      id: 'bottom-major',
      number: 5,
      name: 'bottom major flap',
      machine: 'cartoner',
      pocketsToDischarge: 19,
      drawing: 'bottom-major',
      answers: [],
    });
    expect(line.machines[0]?.states).toEqual(opc30050);
    expect(line.machines[0]?.modes.get(4)).toBe('setup');
    expect(line.sizes[0]?.targets).toEqual(
      new Map([
        [1, 30],
        [2, 52],
        [3, 52],
      ]),
    );
    expect(line.rejects.find(({ id }) => id === 'empty')?.means).toBe('notLoaded');
    expect(line.rejects.find(({ id }) => id === 'code')?.means).toBe('reject');
    expect(line.rejects.find(({ id }) => id === 'bottom-open')?.from).toEqual([
      'bottom-minor',
      'bottom-major',
    ]);
    expect(line.rejects.find(({ id }) => id === 'empty')).not.toHaveProperty('from');
    expect(line.adjustments.find(({ number }) => number === '9.2')).toEqual({
      number: '9.2',
      name: 'chain phase',
      station: 'top-major',
      unit: 'deg',
      decimals: 0,
      min: -45,
      max: 45,
      book: new Map([
        ['sachet-20', 0],
        ['sachet-48', 4],
        ['sampler-12', 9],
      ]),
      clamp: true,
    });
    expect(line.calendar.pauses[0]?.allowanceMinutes).toBe(20);
    expect(line.settings).toEqual({
      minorStopMinutes: 10,
      rejamCartons: 10,
      askAfterSeconds: 20,
      atRateMinutes: 3,
      atRateShare: 0.9,
      trialCartons: 0,
      orderCertainMs: 20,
      planShare: 1,
      staleSeconds: 3,
      lostSeconds: 60,
      heartbeatSeconds: 10,
      rateMax: 120,
      emergencyNumber: '333',
    });
    expect(servers).toEqual([
      {
        id: 'plc',
        endpoint: 'opc.tcp://127.0.0.1:4840',
        security: 'none',
        clock: 'utc',
        namespace: 'urn:scoreline:simulator:line',
      },
    ]);
    expect(ordersFile).toBe(resolve(root, 'simulator/lines/orders.csv'));
  });

  it('says what the simulator says of its standard variant', async () => {
    const written = parseLineFile(lineFileText(standard), bundledPath);
    expect(written).toEqual(await readLineFile(bundledPath));
  });

  const variants: Variant[] = [
    { ...standard, loading: 'four', buttons: 'series' },
    { ...standard, loading: 'automatic', encoders: false },
    { ...standard, firstOut: false, twins: false, stateTag: false },
  ];
  it.each(variants)('every variant of the simulated line can be read: $loading, $buttons', (variant) => {
    expect(parseLineFile(lineFileText(variant), 'variant.yaml').line.signals.length).toBeGreaterThan(40);
  });

  it('knows the drawings that the dashboard has', () => {
    const svg = readFileSync(resolve(root, 'dashboard/marks/stations.svg'), 'utf8');
    const drawn = [...svg.matchAll(/<symbol id="st-([a-z-]+)"/g)].map(([, id]) => id!);
    expect(new Set(drawn.map((id) => id.replace(/-off$/, '')))).toEqual(new Set(drawings));
  });
});

describe('a small line file', () => {
  it('needs no more than a server, a machine, stations, a size, loading, a shift and two signals', () => {
    const { line, ordersFile } = bound(small);
    expect(line.settings.rateMax).toBe(65);
    expect(line.calendar.shifts[0]?.days).toEqual([1, 2, 3, 4, 5, 6, 7]);
    expect(ordersFile).toBeUndefined();
    expect(line.signals).toEqual([
      { index: 0, id: 'state', role: 'state', machine: 'm', server: 'plc', type: 'number' },
      {
        index: 1,
        id: 'good-count',
        role: 'goodCount',
        machine: 'm',
        server: 'plc',
        type: 'number',
        wraps: 4294967296,
      },
      { index: 2, id: 'link.plc', role: 'link', machine: 'm', server: 'plc', type: 'text' },
      { index: 3, id: 'entry', role: 'entry', machine: 'm', server: '', type: 'text' },
    ]);
  });

  it('takes the other published numbering of states, and a map of one’s own', () => {
    expect(bound(changed('opc30050', 'opc30060')).line.machines[0]?.states).toEqual(opc30060);
    const own = bound(changed('opc30050', '{ 3: Execute, 7: Held }'));
    expect(own.line.machines[0]?.states).toEqual(
      new Map([
        [3, 'Execute'],
        [7, 'Held'],
      ]),
    );
  });

  it('reads durations in every unit', () => {
    const settings = 'settings: { minorStop: 0.5 h, askAfter: 90 s, orderCertain: 20ms, stale: 1500 ms }\n';
    expect(bound(small + settings).line.settings).toMatchObject({
      minorStopMinutes: 30,
      askAfterSeconds: 90,
      orderCertainMs: 20,
      staleSeconds: 1.5,
    });
  });

  it('keeps full node ids as they stand and says which server each signal is on', () => {
    const text = changed(', namespace: "urn:x"', '')
      .replace('tag: State', 'tag: "ns=3;s=State"')
      .replace('tag: Good', 'tag: "nsu=urn:y;i=7"');
    const { tags, servers } = bound(text);
    expect(servers[0]?.namespace).toBe('');
    expect([...tags]).toEqual([
      [0, { server: 'plc', tag: 'ns=3;s=State' }],
      [1, { server: 'plc', tag: 'nsu=urn:y;i=7' }],
    ]);
  });
});

describe('the order of signals', () => {
  const devices = `devices:
  - { id: b1, name: one, side: front }
  - { id: b2, name: two, side: back }
`;
  const signals = `  - { role: heartbeat, tag: H }
  - { role: stopDeviceCount, of: b2, tag: B2C, width: 16 }
  - { role: stopDevice, of: b2, tag: B2 }
  - { role: cycleCount, tag: C, width: 31 }
  - { role: stopDeviceCount, of: b1, tag: B1C, width: 16 }
  - { role: stopDevice, of: b1, tag: B1, activeWhen: false }
  - { role: size, tag: S }
`;

  it('is that of equal times, whatever the order of the file', () => {
    const { line, tags } = bound(small + signals + devices);
    expect(line.signals.map(({ id }) => id)).toEqual([
      'state',
      'size',
      'stop-device.b1',
      'stop-device-count.b1',
      'stop-device.b2',
      'stop-device-count.b2',
      'cycle-count',
      'good-count',
      'heartbeat',
      'link.plc',
      'entry',
    ]);
    expect(line.signals[2]).toMatchObject({ activeWhen: false, of: 'b1', type: 'boolean' });
    expect(line.signals[6]?.wraps).toBe(2147483648);
    expect(tags.get(4)).toEqual({ server: 'plc', tag: 'B2' });
    expect(line.signals.map(({ index }) => index)).toEqual(line.signals.map((_, place) => place));
  });

  it('gives signals of a second machine and a second server names of their own', () => {
    const text = small
      .replace('machines:\n', 'machines:\n  - { id: e, name: erector, states: opc30050 }\n')
      .replace(
        '  - { id: plc',
        '  - { id: b, endpoint: "opc.tcp://h", security: sign, clock: local, namespace: n }\n  - { id: plc',
      )
      .replace('tag: State', 'server: plc, tag: State')
      .replace('tag: Good', 'server: plc, tag: Good');
    const { line } = bound(`${text}  - { role: state, machine: e, server: b, tag: State }\n`);
    expect(line.signals.map(({ id, server }) => `${id} ${server}`)).toEqual([
      'state plc',
      'state.e b',
      'good-count plc',
      'link.b b',
      'link.plc plc',
      'entry ',
    ]);
  });
});

describe('a file that cannot be read', () => {
  it('is told with its path, why and how to mend it', async () => {
    await expect(readLineFile('/nowhere/line.yaml')).rejects.toMatchObject({
      name: 'LineError',
      message: 'The file /nowhere/line.yaml cannot be read.',
      why: 'There is no such file.',
    });
    await expect(readLineFile(root)).rejects.toMatchObject({ why: 'It is not a file.' });
  });

  it('tells all mistakes at once, in one error, each with its place, why and how to mend it', () => {
    const text = changed('zone: Europe/Berlin', 'zone: Europe/Berln').replace('code: 20', 'cod: 20');
    const thrown = (() => {
      try {
        return bound(text);
      } catch (error) {
        return error;
      }
    })();
    expect(thrown).toBeInstanceOf(LineError);
    expect(thrown).toBeInstanceOf(FileError);
    const { message, why, mend } = thrown as FileError;
    expect(message).toBe('small.yaml cannot be used: 3 things in it are wrong.');
    expect(why.split('\n')).toEqual([
      'small.yaml:1:48 “Europe/Berln” is no time zone. Shifts follow the summer time of a zone in the IANA list. Did you mean “Europe/Berlin”?',
      'small.yaml:10:5 “code” of s20 is missing. It is needed. Add it.',
      'small.yaml:10:33 “cod” is not known here. A key that is not understood would be left out in silence. Did you mean “code”?',
    ]);
    expect(mend).toBe('Mend what is named, save the file, and try again.');
  });

  it('counts what it does not tell', () => {
    const text = small + Array.from({ length: 60 }, (_, n) => `odd${n}: 1\n`).join('');
    expect(wrong(text)).toHaveLength(60);
    expect(() => bound(text)).toThrow(
      expect.objectContaining({ why: expect.stringMatching(/\nAnd 10 more\.$/) }),
    );
  });
});
