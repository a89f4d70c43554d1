import { describe, expect, it } from 'vitest';
import { indexOf } from '../../../model/fold/lineIndex.ts';
import { stationRef } from '../../../model/past/past.ts';
import { type ServerReading, serverPanels } from '../../../model/past/serverPanels.ts';
import { type SignalReading, signalMeanings, signalSheets } from '../../../model/past/signalSheets.ts';
import { smallLine } from '../smallLine.ts';

const index = indexOf(smallLine());
const meanings = signalMeanings(index);
const stations = index.line.stations.map(({ id }) => stationRef(index, id)!);

function reading(id: string, change: Partial<SignalReading> = {}): SignalReading {
  const role = meanings.find((meaning) => meaning.id === id)?.role;
  return {
    id,
    server: 'plc',
    tag: id,
    value: 1,
    quality: 'good',
    ageMs: 500,
    samplingMs: 0,
    queue: 100,
    twin: role === 'stopDevice' ? true : null,
    missable: null,
    trouble: null,
    ...change,
  };
}
const readings = (changes: Readonly<Record<string, Partial<SignalReading>>> = {}) =>
  meanings.map(({ id }) => reading(id, changes[id]));

describe('what signals mean', () => {
  it('is told with where they belong and what their numbers stand for; what people enter is none', () => {
    const of = (id: string) => meanings.find((meaning) => meaning.id === id);
    expect(of('entry')).toBeUndefined();
    expect(of('rejectOpen')).toMatchObject({ place: 'station', station: 'fold', name: 'open' });
    expect(of('missed')).toMatchObject({ place: 'station', station: 'pick' });
    expect(of('notLoadedFront')).toMatchObject({ station: 'fold', name: 'loading front' });
    expect(of('panelCount')).toMatchObject({ place: 'devices', name: 'main panel' });
    expect(of('mode')).toMatchObject({ place: 'line', values: { 1: 'produce', 4: 'setup' } });
    expect(of('reason')!.values[51]).toBe('tuck jam');
  });
});

describe('signals by where they belong', () => {
  it('stand as the line, what stops it, and each station; nothing is counted twice', () => {
    const sheets = signalSheets(meanings, readings(), stations, 'all');
    expect(sheets.sheets.map(({ id }) => id)).toEqual(['line', 'devices', 'pick', 'fold']);
    expect(sheets.sheets.reduce((sum, { signals }) => sum + signals, 0)).toBe(sheets.all);
    expect(sheets).toMatchObject({ all: meanings.length, mend: 0, good: meanings.length, devices: 3 });
  });

  it('what is to be mended stands first, or alone where only that is wanted', () => {
    const told = readings({
      rejectOpen: { trouble: 'The server has no node.', quality: 'unknown' },
      crushed: { quality: 'unknown' },
      presented: { quality: 'unknown', ageMs: null },
      good: { quality: 'uncertain' },
      circuit: { twin: false, missable: 'a press may be missed' },
      panel: { missable: 'a shorter press may be missed' },
    });
    const all = signalSheets(meanings, told, stations, 'all');
    expect(all).toMatchObject({ mend: 6, withoutTwin: 1, uncertain: 1, silent: 3 });
    const mend = signalSheets(meanings, told, stations, 'mend');
    expect(mend.sheets.map(({ id, shown }) => [id, shown.map((one) => [one.id, one.wrong])])).toEqual([
      ['line', [['good', 'uncertain']]],
      [
        'devices',
        [
          ['panel', 'missable'],
          ['circuit', 'noTwin'],
        ],
      ],
      [
        'fold',
        [
          ['presented', 'never'],
          ['crushed', 'bad'],
          ['rejectOpen', 'trouble'],
        ],
      ],
    ]);
    const fold = all.sheets.find(({ id }) => id === 'fold')!;
    expect(fold.shown.slice(0, 3).map(({ id }) => id)).toEqual(['presented', 'crushed', 'rejectOpen']);
    const devices = signalSheets(meanings, told, stations, 'devices');
    expect(devices.sheets.flatMap(({ shown }) => shown.map(({ id }) => id))).toEqual([
      'panel',
      'circuit',
      'door',
    ]);
  });

  it('of a server that is not heard no signal has a trouble of its own, and none has a value of now', () => {
    const told = meanings.map(({ id }) => reading(id, { quality: 'notHeard' }));
    expect(signalSheets(meanings, told, stations, 'all')).toMatchObject({
      mend: 0,
      good: 0,
      silent: meanings.length,
    });
  });
});

describe('servers as panels', () => {
  const server: ServerReading = {
    id: 'plc',
    endpoint: 'opc.tcp://127.0.0.1:4840',
    security: 'none',
    up: true,
    since: 0,
    lastDataAt: 1000,
    clockOffsetMs: -500,
    clockSetMs: 0,
    fingerprint: '4C:9A:07:E1:52',
    trouble: null,
  };
  const panel = (change: Partial<ServerReading> = {}) =>
    serverPanels([{ ...server, ...change }], [{ server: 'plc' }, { server: 'other' }], 3500)[0]!;

  it('a fingerprint stands in groups of four digits, and the clock on a scale of two seconds', () => {
    expect(panel()).toMatchObject({
      groups: ['4C9A', '07E1', '52'],
      clock: { place: -0.25, beyond: false },
      age: 2500,
      signals: 1,
    });
    expect(panel({ clockOffsetMs: 7000 }).clock).toEqual({ place: 1, beyond: true });
  });

  it('what is not known has no place on it', () => {
    const unknown = panel({ clockOffsetMs: null, lastDataAt: null, fingerprint: null });
    expect([unknown.clock, unknown.age, unknown.groups]).toEqual([undefined, undefined, []]);
  });
});
