import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseLineFile } from '../../../gateway/binding/binding.ts';
import { parseSymptoms } from '../../../gateway/binding/symptomsFile.ts';
import { diagnose } from '../../../model/diagnosis/diagnosis.ts';
import {
  type CauseAnswer,
  type DiagnosisAnswer,
  diagnosisAnswer,
} from '../../../model/diagnosis/diagnosisAnswer.ts';
import { DIAGNOSIS_MEASURED } from '../../../model/diagnosis/measured.ts';
import type { AdjustmentKnown, Troubled } from '../../../model/diagnosis/troubled.ts';
import { epochMs } from '../../../model/units/units.ts';
import { wordsIn } from '../../../model/words/words.ts';
import { at, courses } from './troubles.ts';

const lines = resolve(import.meta.dirname, '../../../simulator/lines');
const read = (file: string) => readFileSync(resolve(lines, file), 'utf8');
const { line } = parseLineFile(read('line-3.yaml'), 'line-3.yaml');
const knowledge = parseSymptoms(read('line-3.symptoms.yaml'), 'line-3.symptoms.yaml', line);
const words = wordsIn('en').screen.diagnosis;
const zone = 'UTC';

const book = (number: string, value: number, more: Partial<AdjustmentKnown> = {}): AdjustmentKnown => ({
  ...{ number, hasSensor: false, reading: undefined, cost: undefined, moves: [] },
  best: { value, sd: 0.3 },
  ...more,
});

/** The bottom major flap of the bundled line, whose closing guide was moved two hours into the run. */
function asked(more: Partial<Troubled> = {}): DiagnosisAnswer {
  const moved = { at: at(120), from: 26, to: 27.8, by: 'hand' } as const;
  const reading = { value: 27.8, known: 'sensor', since: at(120) } as const;
  const troubled: Troubled = {
    station: 'bottom-major',
    reasons: [
      { kind: 'reject', id: 'bottom-open', station: 'bottom-major', usual: 0.002 },
      { kind: 'stop', id: 51, station: 'bottom-major', usual: 0.002 },
    ],
    ...{ cells: courses.fromFifth, began: 'size', alike: 20, happenings: [] },
    symptoms: new Map([['off-score', 2]]),
    adjustments: [
      book('4.2', 18),
      book('5.1', 12, { reading: { value: 12.1, known: 'typed', since: at(299) } }),
      book('5.2', 26, { hasSensor: true, reading, moves: [moved] }),
    ],
    ...more,
  };
  return diagnosisAnswer(line, diagnose(troubled, knowledge)!)!;
}

const said = (cause: CauseAnswer, speaks: 'for' | 'against') =>
  cause.evidence.filter((one) => one.speaks === speaks).map((one) => words.evidence(one, cause, zone));

describe('a diagnosis as it is shown', () => {
  it('names the station, the causes that are worth it, and moments as people’s programs write them', () => {
    const answer = asked();
    expect(answer.station).toEqual({ id: 'bottom-major', number: 5, name: 'bottom major flap' });
    expect(answer.causes[0]).toMatchObject({
      ...{ key: 'adjustment 5.2', name: 'bottom closing guide' },
      adjustment: { number: '5.2', unit: 'mm', decimals: 1 },
      how: { is: 'moved', at: epochMs(at(120)) },
    });
    const named = answer.causes.reduce((sum, { chance }) => sum + chance, 0);
    expect(named + answer.unlikely + answer.dontKnow.chance).toBeCloseTo(1, 9);
    expect(JSON.parse(JSON.stringify(answer.causes[0]!.evidence))).toHaveLength(
      answer.causes[0]!.evidence.length,
    );
    expect(
      diagnosisAnswer({ ...line, stations: [] }, diagnose({ ...troubledUsual() }, knowledge)!),
    ).toBeUndefined();
  });

  it('says first what explains it best, its odds once and in words, and which scale to read', () => {
    const answer = asked();
    expect(words.lead(answer)).toEqual([
      '5.2 bottom closing guide explains it best: very likely, about nine times in ten.',
      '',
    ]);
    expect(words.way(answer.causes[0]!)).toBe('too high, moved since');
    const unread = asked({ adjustments: [book('4.2', 18), book('5.1', 12), book('5.2', 26)] });
    expect(words.lead(unread)[1]).toMatch(/^The scale of \d\.\d [a-z ]+ would tell most: read it first\.$/);
  });

  it('[DG3] says what speaks for a cause and against it in the trade’s words, and never that it caused anything', () => {
    const [guide] = asked().causes;
    expect(said(guide!, 'for')).toEqual(
      expect.arrayContaining([
        'Moved from 26.0 mm to 27.8 mm at 02:00, before it began.',
        'Its sensor reads 27.8 mm, 1.8 mm above its best number (26.0 mm, known to within 0.6 mm).',
        'Somebody said: folded off the score line. This it often brings.',
      ]),
    );
    const other = asked({
      adjustments: [book('5.1', 12, { reading: { value: 12.1, known: 'typed', since: at(299) } })],
    });
    const folder = other.causes.find(({ key }) => key === 'adjustment 5.1')!;
    expect(said(folder, 'against')).toContain(
      'At 04:59 somebody read 12.1 mm, 0.1 mm above its best number (12.0 mm, known to within 0.6 mm).',
    );
    const looked = (put: number) => {
      const reading = { value: 12.1, known: 'typed', since: at(299), put } as const;
      const { causes } = asked({ adjustments: [book('5.1', 12, { reading })] });
      return said(causes.find(({ key }) => key === 'adjustment 5.1')!, 'against').join(' ');
    };
    // and what was done by whoever read it [SP10]
    expect(looked(12.1)).toContain('somebody read 12.1 mm, 0.1 mm above its best number');
    expect(looked(12.1)).toContain(', and left it there.');
    expect(looked(12)).toContain(', and moved it to 12.0 mm.');
    const all = [...asked().causes, ...other.causes].flatMap((cause) => [
      ...said(cause, 'for'),
      ...said(cause, 'against'),
    ]);
    expect(all.length).toBeGreaterThan(8);
    for (const sentence of all) expect(sentence).not.toMatch(/caused?\b|undefined|NaN/);
  });

  it('[DG1] says that nobody can tell where that leads, and what is likeliest of what is known', () => {
    const nothing = diagnosisAnswer(line, diagnose(troubledUsual(), knowledge)!)!;
    expect(words.lead(nothing)[0]).toBe('It may be a bad day and nothing more: nobody can tell yet.');
    const answer = asked();
    const else_ = {
      ...answer,
      says: 'dontKnow' as const,
      dontKnow: { chance: 0.6, nothing: 0, somethingElse: 0.6 },
    };
    expect(words.lead(else_)[0]).toMatch(
      /^Nobody can tell what explains it: something else may\. The likeliest that is known: 5\.2 bottom closing guide(, then .+)?\.$/,
    );
  });

  it('says odds in words, the larger the chance the surer', () => {
    expect([0.97, 0.75, 0.6, 0.5, 0.3, 0.2, 0.1, 0.01].map(words.odds)).toEqual([
      'very likely, about nine times in ten',
      'likely, about three times in four',
      'likely, about two times in three',
      'about even',
      'possible, about one time in three',
      'possible, about one time in five',
      'unlikely, about one time in ten',
      'hardly',
    ]);
  });

  it('[DG7] says how far it may be trusted, by what was measured', () => {
    const { troubles, first } = DIAGNOSIS_MEASURED.line3;
    expect(troubles).toBe(1000);
    expect(words.measured()).toMatch(
      /^Held against the truth of 1,000 simulated troubles of the bundled line, /,
    );
    expect(words.measured()).toContain(`first in ${first} of 100`);
  });

  it('says since when, how much came and how much is usual, and each move', () => {
    const answer = asked();
    expect(words.trouble(answer, zone)).toBe(
      'Since 02:00: 65 rejects and stops in 6,000 cartons; 24 are usual in as many.',
    );
    const [guide] = answer.causes;
    expect(words.move(guide!.moves[0]!, guide!.adjustment!, zone)).toBe(
      'Moved from 26.0 mm to 27.8 mm at 02:00.',
    );
  });
});

function troubledUsual(): Troubled {
  return {
    station: 'bottom-major',
    reasons: [
      { kind: 'reject', id: 'bottom-open', station: 'bottom-major', usual: 0.002 },
      { kind: 'stop', id: 51, station: 'bottom-major', usual: 0.002 },
    ],
    ...{ cells: courses.usual, began: 'size', alike: 20, happenings: [], symptoms: new Map() },
    adjustments: [book('5.2', 26)],
  };
}
