import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readLineFile } from '../../../gateway/binding/binding.ts';
import { FileError } from '../../../gateway/binding/faults.ts';
import { parseSymptoms, readSymptoms, symptomsPath } from '../../../gateway/binding/symptomsFile.ts';

const lineFile = resolve(import.meta.dirname, '../../../simulator/lines/line-3.yaml');
const { line } = await readLineFile(lineFile);
const path = symptomsPath(lineFile);
const bundled = readFileSync(path, 'utf8');

const least = `adjustments:
  - number: "5.2"
    tooHigh: { symptoms: { off-score: often } }
    tooLow: { rejects: { bottom-open: seldom }, stops: { 51: sometimes } }
`;

function wrong(text: string): readonly string[] {
  try {
    parseSymptoms(text, 'lines/line-3.symptoms.yaml', line);
  } catch (error) {
    if (!(error instanceof FileError)) throw error;
    return error.faults.map(({ at, what }) => `${at.line}:${at.column} ${what}`);
  }
  return [];
}

const changed = (from: string, to: string) => {
  if (!least.includes(from)) throw new Error(`The file has no ${from}`);
  return least.replace(from, to);
};

describe('the file of symptoms', () => {
  it('[DG5] beside the bundled line knows every adjustment, to both sides, and every station that one acts on', async () => {
    const { adjustments, causes } = await readSymptoms(path, line);
    expect(adjustments.map(({ number }) => number)).toEqual(line.adjustments.map(({ number }) => number));
    for (const { high, low, shows } of adjustments) {
      expect(high.symptoms.size + high.rejects.size + high.stops.size).toBeGreaterThan(0);
      expect(low.symptoms.size + low.rejects.size + low.stops.size).toBeGreaterThan(0);
      expect(shows).toBeGreaterThan(0);
    }
    expect(adjustments.find(({ number }) => number === '4.2')!.stations).toEqual([
      'bottom-minor',
      'bottom-major',
    ]);
    expect(causes.map(({ id }) => id)).toContain('board-lot');
    expect(bundled).toMatch(/Common practice, no source/);
  });

  it('[DG5] what it leaves out is taken from the line: its own stations, a fiftieth of the scale', () => {
    expect(parseSymptoms(least, 'x', line)).toEqual({
      adjustments: [
        {
          number: '5.2',
          stations: ['bottom-major'],
          loose: 'sometimes',
          shows: 1.2,
          high: { symptoms: new Map([['off-score', 'often']]), rejects: new Map(), stops: new Map() },
          low: {
            symptoms: new Map(),
            rejects: new Map([['bottom-open', 'seldom']]),
            stops: new Map([[51, 'sometimes']]),
          },
        },
      ],
      causes: [],
    });
  });

  it.each([
    ['another adjustment', '"5.2"', '"5.9"', '2:13 There is no adjustment “5.9”.'],
    ['another reject', 'bottom-open', 'bottom-opn', '4:26 There is no reject reason “bottom-opn”.'],
    ['another stop', '51:', '52:', '4:58 There is no stop reason “52”.'],
    ['another symptom', 'off-score', 'offscore', '3:28 “offscore” is not known here.'],
    ['another word', 'seldom', 'never', '4:39 “never” cannot be used as bottom-open.'],
    ['a bare number', '"5.2"', '5.2', '2:13 “5.2” cannot be used as number.'],
    ['no side', '    tooLow:', '    low:', '2:5 “tooLow” of item 1 of adjustments is missing.'],
  ])('names %s at its place', (_, from, to, expected) => {
    expect(wrong(changed(from, to))).toContain(expected);
  });

  it('names what stands twice, stations that the line has not, and text that is no such file', () => {
    const second = least.replace('adjustments:\n', '');
    expect(wrong(least + second)).toEqual(['5:13 The adjustment “5.2” stands twice.']);
    const cause = `${least}causes:\n  - { id: lot, name: board, stations: [bottom], begins: [lot] }\n`;
    expect(wrong(cause)).toEqual(['6:40 There is no station “bottom”.']);
    expect(wrong('only some words')).toEqual(['1:1 This does not describe symptoms.']);
    expect(wrong('')).toEqual(['1:1 This does not describe symptoms.']);
    expect(wrong('causes: [')[0]).toContain('This is not YAML.');
  });

  it('says how each is mended', () => {
    let said = '';
    try {
      parseSymptoms(changed('bottom-open', 'bottom-opn'), 'lines/line-3.symptoms.yaml', line);
    } catch (error) {
      said = (error as FileError).why ?? '';
    }
    expect(said).toBe(
      'line-3.symptoms.yaml:4:26 There is no reject reason “bottom-opn”. The line file names no reject reason like it. Did you mean “bottom-open”?',
    );
  });
});
