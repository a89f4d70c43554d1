import { describe, expect, it } from 'vitest';
import { diagnose, type Diagnosis } from '../../../model/diagnosis/diagnosis.ts';
import { causeKey } from '../../../model/diagnosis/explanations.ts';
import type { Troubled } from '../../../model/diagnosis/troubled.ts';
import { at, cellsOf, courses, knowledge, troubled, unread } from './troubles.ts';

const of = (asked: Troubled): Diagnosis => diagnose(asked, knowledge)!;
const chanceOf = ({ causes }: Diagnosis, key: string) =>
  causes.find(({ cause }) => causeKey(cause) === key)?.chance ?? 0;
const first = ({ causes }: Diagnosis) => causeKey(causes[0]!.cause);
const withReading = (reading: Parameters<typeof unread>[1], cells = courses.fromFirst) =>
  troubled(cells, { adjustments: [unread('5.1', reading), unread('5.2')] });

describe('the diagnosis of a station', () => {
  it('[DG1] all chances and that of “don’t know” add up to 1, the likeliest first, and only what acts on the station is among them', () => {
    for (const cells of Object.values(courses)) {
      const { causes, dontKnow } = of(troubled(cells));
      expect(causes.reduce((sum, { chance }) => sum + chance, dontKnow.chance)).toBeCloseTo(1, 9);
      expect(dontKnow.nothing + dontKnow.somethingElse).toBeCloseTo(dontKnow.chance, 9);
      expect(causes.map(({ cause }) => causeKey(cause)).sort()).toEqual([
        'adjustment 5.1',
        'adjustment 5.2',
        'other board',
      ]);
      expect(causes.map(({ chance }) => chance)).toEqual(
        causes.map(({ chance }) => chance).toSorted((a, b) => b - a),
      );
    }
  });

  it('[DG1] “don’t know” is said where nothing came but the usual, and where what came is nothing that the file names', () => {
    const usual = of(troubled(courses.usual));
    expect(usual.says).toBe('dontKnow');
    expect(usual.dontKnow.nothing).toBeGreaterThan(usual.dontKnow.somethingElse);
    expect(of(troubled(courses.fromFirst)).says).toBe('cause');
  });

  it('[DG1] where no carton was seen, or nothing is usual, there is no diagnosis', () => {
    expect(diagnose(troubled([]), knowledge)).toBeUndefined();
    const none = courses.usual.map((cell) => ({ ...cell, cartons: 0, counts: [0, 0] }));
    expect(diagnose(troubled(none), knowledge)).toBeUndefined();
    const reasons = troubled([]).reasons.map((reason) => ({ ...reason, usual: 0 }));
    expect(diagnose(troubled(courses.usual, { reasons }), knowledge)).toBeUndefined();
  });

  it('[DG2] from the first carton on it was set so at the changeover; what crept up worked loose, the sooner what does so easily', () => {
    const set = of(troubled(courses.fromFirst));
    expect(set.causes[0]!.how).toMatchObject({ is: 'misSet', at: undefined });
    const crept = of(troubled(courses.creeping));
    expect(first(crept)).toBe('adjustment 5.1');
    expect(crept.causes[0]!.how.is).toBe('loose');
    expect(chanceOf(crept, 'adjustment 5.1')).toBeGreaterThan(2 * chanceOf(crept, 'adjustment 5.2'));
  });

  it('[DG2] a move, a lot or a jam that it began with is named, and one that came after it explains nothing', () => {
    const move = { at: at(120), from: 30, to: 32, by: 'hand' } as const;
    const moved = (minute: number) =>
      of(
        troubled(courses.fromFifth, {
          adjustments: [unread('5.1'), unread('5.2', { moves: [{ ...move, at: at(minute) }] })],
        }),
      );
    expect(first(moved(120))).toBe('adjustment 5.2');
    expect(moved(120).causes[0]!.how).toMatchObject({ is: 'moved', at: at(120) });
    expect(moved(120).causes[0]!.moves).toEqual([move]);
    expect(chanceOf(moved(270), 'adjustment 5.2')).toBeLessThan(0.5);
    const lot = of(troubled(courses.fromFifth, { happenings: [{ kind: 'lot', at: at(120), name: 'L7' }] }));
    expect(first(lot)).toBe('other board');
    expect(lot.causes[0]!.how).toMatchObject({ is: 'lot', at: at(120) });
    const jam = of(
      troubled(courses.fromFifth, { happenings: [{ kind: 'jam', at: at(120), name: undefined }] }),
    );
    expect(jam.causes[0]!.how).toMatchObject({ is: 'knocked', at: at(120) });
  });

  it('[DG3] what came by reason and what people say tell the sides apart, and no word of the file shuts a cause out', () => {
    const rejects = of(troubled(courses.fromFirst)).causes[0]!;
    expect(rejects.side).toMatchObject({ is: 'high' });
    const stops = of(troubled(cellsOf([2, 2, 1, 3, 2], [9, 8, 9, 7, 9]))).causes[0]!;
    expect(stops.side).toMatchObject({ is: 'low' });
    expect(stops.side!.chance).toBeLessThan(0.999);
    const said = of(troubled(courses.fromFirst, { symptoms: new Map([['off-score', 2]]) })).causes[0]!;
    expect(said.side!.chance).toBeGreaterThan(rejects.side!.chance);
  });

  it('[DG3] evidence tells how much likelier or less likely it makes a cause, the strongest first', () => {
    const reading = { value: 31.8, known: 'sensor', since: at(0) } as const;
    const [cause, other] = of(withReading({ hasSensor: true, reading })).causes;
    expect(cause!.evidence[0]).toMatchObject({
      ...{ kind: 'deviation', speaks: 'for', best: 30, sd: 0.2, reading },
    });
    for (const { evidence } of [cause!, other!]) {
      const strong = evidence.map(({ times }) => Math.abs(Math.log(times)));
      expect(strong).toEqual(strong.toSorted((a, b) => b - a));
      for (const { speaks, times } of evidence) expect(speaks === 'for').toBe(times > 1);
    }
  });

  it('[DG4] a sensor at the best number argues against its adjustment, what somebody typed less, and a tap “as book” hardly', () => {
    const chance = (known: 'sensor' | 'typed' | 'confirmed') =>
      chanceOf(
        of(withReading({ hasSensor: known === 'sensor', reading: { value: 30, known, since: at(0) } })),
        'adjustment 5.1',
      );
    const unknown = chanceOf(of(withReading({})), 'adjustment 5.1');
    expect(chance('sensor')).toBeLessThan(chance('typed'));
    expect(chance('typed')).toBeLessThan(chance('confirmed'));
    expect(chance('confirmed')).toBeLessThan(unknown);
    expect(chance('confirmed')).toBeGreaterThan(0.6 * unknown);
    expect(chance('sensor')).toBeLessThan(0.2 * unknown);
  });

  it('[DG4] off by what the trouble takes is told for it: by its cost where that is known; to the other side is not', () => {
    const off = (value: number, cost?: { perSquare: number; sd: number }) =>
      chanceOf(
        of(withReading({ cost, reading: { value, known: 'typed', since: at(299) } })),
        'adjustment 5.1',
      );
    // four rejects and stops in 1,000 cartons are usual, and about six more came
    expect(off(31.8)).toBeGreaterThan(0.7);
    expect(off(28.2)).toBeLessThan(off(31.8));
    expect(off(31.8, { perSquare: 2, sd: 0.3 })).toBeGreaterThan(off(31.8, { perSquare: 0.1, sd: 0.015 }));
  });

  it('[DG4] what was said before it began tells nothing of what moved since, and a sensor that stood still does', () => {
    const chance = (known: 'sensor' | 'typed', since: number) =>
      chanceOf(
        of(
          withReading(
            { hasSensor: known === 'sensor', reading: { value: 30, known, since: at(since) } },
            courses.fromFifth,
          ),
        ),
        'adjustment 5.1',
      );
    const unknown = chanceOf(of(withReading({}, courses.fromFifth)), 'adjustment 5.1');
    expect(Math.abs(chance('typed', 0) - unknown)).toBeLessThan(0.1);
    expect(chance('typed', 290)).toBeLessThan(0.5 * unknown);
    expect(chance('sensor', 0)).toBeLessThan(0.1 * unknown);
  });

  it('[DG4] without a best number a reading tells nothing, and a move that was recorded still does', () => {
    const blind = { best: undefined, reading: { value: 44, known: 'typed', since: at(290) } } as const;
    expect(of(withReading(blind)).causes).toEqual(of(withReading({ best: undefined })).causes);
    const moved = (to: number) =>
      chanceOf(
        of(
          withReading(
            { best: undefined, moves: [{ at: at(120), from: 30, to, by: 'hand' }] },
            courses.fromFifth,
          ),
        ),
        'adjustment 5.1',
      );
    expect(moved(32)).toBeGreaterThan(moved(30.2));
  });

  it('[DG6] asks for the scale that would tell most, and for none that a sensor reads or that somebody read since', () => {
    const { readFirst } = of(troubled(courses.creeping));
    expect(readFirst.map(({ number }) => number)).toEqual(['5.1', '5.2']);
    expect(readFirst[0]!.bits).toBeGreaterThan(readFirst[1]!.bits);
    expect(readFirst[0]!.bits).toBeLessThanOrEqual(1);
    const sensor = { hasSensor: true, reading: { value: 30, known: 'sensor', since: at(0) } } as const;
    expect(of(withReading(sensor)).readFirst.map(({ number }) => number)).not.toContain('5.1');
    const read = { reading: { value: 30, known: 'typed', since: at(299) } } as const;
    expect(of(withReading(read)).readFirst.map(({ number }) => number)).not.toContain('5.1');
    expect(of(withReading({ best: undefined })).readFirst.map(({ number }) => number)).not.toContain('5.1');
  });

  it('[DG6] tells how much one more person would tell who says how they look: most where causes look unlike', () => {
    const [one, two, ...others] = knowledge.adjustments;
    const unlike = { ...two!, high: { ...two!.high, symptoms: new Map([['tuck-out', 'often']] as const) } };
    const told = (known: typeof knowledge, said: Troubled['symptoms'] = new Map()) =>
      diagnose(troubled(courses.fromFirst, { symptoms: said }), known)!.looksTell;
    const apart = { ...knowledge, adjustments: [one!, unlike, ...others] };
    expect(told(apart)).toBeGreaterThan(3 * told(knowledge));
    expect(told(apart)).toBeLessThan(1);
    expect(told(apart, new Map([['off-score', 6]]))).toBeLessThan(told(apart));
  });

  it('tells since when it has to be explained, and how much came and is usual', () => {
    expect(of(troubled(courses.fromFifth)).trouble).toEqual({
      since: at(120),
      seen: 65,
      usual: 24,
      cartons: 6000,
    });
  });
});
