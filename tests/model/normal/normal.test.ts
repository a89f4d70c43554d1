import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { EarlierRun, Look, StationEvidence } from '../../../model/normal/evidence.ts';
import { judgements, worseThanNormal } from '../../../model/normal/normal.ts';
import { at } from '../smallLine.ts';

/** A run of so many batches of 300, and what each brought. */
const earlier = (rejects: number, stops = 0): EarlierRun => ({
  rejects: { count: rejects, of: 12_000 },
  halves: [
    { count: Math.floor(rejects / 2), of: 6000 },
    { count: Math.ceil(rejects / 2), of: 6000 },
  ],
  batches: Array.from({ length: 40 }, (_, place) => ({
    count: Math.floor((rejects * (place + 1)) / 40) - Math.floor((rejects * place) / 40),
    of: 300,
  })),
  stops: { count: stops, of: 12_000 },
});
const look = (place: number, rejects: number, stops = 0): Look => ({
  from: at(400 * place),
  to: at(400 * place + 400),
  rejects: { count: rejects, of: 300 },
  stops: { count: stops, of: 300 },
});
const looks = (...rejects: readonly number[]) => rejects.map((count, place) => look(place, count));
const many = (count: number, each: number) => Array.from({ length: count }, () => each);
const past = Array.from({ length: 12 }, (_, place) =>
  earlier([40, 48, 36, 56][place % 4]!, place % 3 === 0 ? 1 : 0),
);
const judged = (now: readonly Look[], before = past): StationEvidence => ({
  station: 'fold',
  earlier: before,
  looks: now,
});
const ruleOf = (evidence: StationEvidence, rule: string) =>
  worseThanNormal(evidence).find((one) => one.rule === rule)!;

describe('a station against its own normal', () => {
  it('[NW1] is inside with as many rejects as ever, and tells what was seen, what is usual and the limit', () => {
    const answer = ruleOf(judged(looks(...many(20, 1))), 'run');
    expect(answer).toMatchObject({ station: 'fold', since: at(0), seen: 20, of: 6000, outside: false });
    // 540 of 144,000, so 22.5 of 6,000
    expect(answer.expected).toBeGreaterThan(21);
    expect(answer.expected).toBeLessThan(25);
    expect(answer.interval!.lower).toBeLessThan(20);
    expect(answer.interval!.upper).toBeLessThanOrEqual(answer.most!);
    expect(answer.tooThin).toBeUndefined();
  });

  it('[NW1] is outside with the carton count at which its limit is passed, and not before', () => {
    const evidence = judged(looks(...many(30, 5)));
    const { outside } = judgements(evidence).find(({ answer }) => answer.rule === 'run')!;
    const first = outside.indexOf(true);
    expect(first).toBeGreaterThan(0);
    for (const length of [first, first + 1]) {
      const { answer } = judgements({ ...evidence, looks: evidence.looks.slice(0, length) })[0]!;
      expect(answer.outside).toBe(answer.seen > answer.most!);
      expect(answer.outside).toBe(length === first + 1);
    }
  });

  it('[NW1] [NW2] tells how many times the usual would be outside, and that so many are and fewer are not', () => {
    const said = ruleOf(judged(looks(...many(20, 1))), 'run');
    const times = (rate: number) => Math.round((said.seenFrom! * rate * said.expected!) / 20);
    expect(said.seenFrom!).toBeGreaterThan(1.2);
    expect(ruleOf(judged(looks(...many(20, times(1.06)))), 'run').outside).toBe(true);
    expect(ruleOf(judged(looks(...many(20, Math.floor(times(0.8))))), 'run').outside).toBe(false);
    // a rise is told by its own: it takes more, as it begins later
    const drift = ruleOf(judged(looks(...many(28, 1))), 'drift');
    expect(drift.seenFrom!).toBeGreaterThan(1.5);
    expect(ruleOf(judged(looks(1, 1)), 'drift').seenFrom).toBeUndefined();
  });

  it('[NW2] is outside where rejects rise within a run that began as usual, since they rose', () => {
    const rising = judged(looks(...many(12, 1), ...many(25, 6)));
    const answer = ruleOf(rising, 'drift');
    expect(answer.outside).toBe(true);
    expect(answer.since).toBe(at(400 * 12));
    expect([answer.seen, answer.of]).toEqual([150, 7500]);
    expect(answer.interval!.upper).toBeLessThan(150);
    expect(ruleOf(judged(looks(...many(37, 1))), 'drift').outside).toBe(false);
  });

  it('[NW2] a run that is bad from its beginning on does not rise, but is outside as a run', () => {
    const bad = judged(looks(...many(40, 5)));
    expect(ruleOf(bad, 'drift').outside).toBe(false);
    expect(ruleOf(bad, 'run').outside).toBe(true);
  });

  it('[NW3] stops for as many cartons: one or two are in its normal, ten in a short time are not', () => {
    const stopping = (stops: number) => judged([look(0, 1), look(1, 1, stops), look(2, 1)]);
    expect(ruleOf(stopping(1), 'stops')).toMatchObject({ seen: 1, of: 900, outside: false });
    expect(ruleOf(stopping(10), 'stops').outside).toBe(true);
    // where nothing is charged to the station its stops are all that is asked
    const uncounted = judged(
      [look(0, 0, 1)].map(({ rejects: _rejects, ...rest }) => ({ ...rest, rejects: undefined })),
      past.map((run) => ({ ...run, rejects: undefined, halves: undefined, batches: [] })),
    );
    expect(worseThanNormal(uncounted).map(({ rule }) => rule)).toEqual(['stops']);
  });

  it('[NW4] with a short past, or a short run, the answer is that there are too few to say', () => {
    const short = worseThanNormal(judged(looks(...many(10, 50)), past.slice(0, 2)));
    expect(short.map(({ tooThin }) => tooThin?.kind)).toEqual(['past', 'past', 'past']);
    expect(
      short.every(
        ({ outside, expected, interval }) => !outside && expected === undefined && interval === undefined,
      ),
    ).toBe(true);
    expect(short[0]!.tooThin).toEqual({ kind: 'past', runs: 2, cartons: 24_000 });
    const begun = worseThanNormal(judged(looks(1, 1)));
    expect(begun.map(({ tooThin }) => tooThin?.kind)).toEqual([undefined, 'run', undefined]);
    expect(worseThanNormal(judged([]))).toEqual([]);
  });

  it('[NW4] a longer past of the same makes limits narrower, never a call rarer where one was made', () => {
    const most = (runs: number) =>
      ruleOf(
        judged(
          looks(...many(20, 1)),
          Array.from({ length: runs }, (_, n) => past[n % 12]!),
        ),
        'run',
      ).most!;
    expect([3, 6, 12, 36].map(most)).toEqual([3, 6, 12, 36].map(most).toSorted((a, b) => b - a));
  });

  it('[NW1] [NW2] [NW3] what is said at a look does not depend on what comes after it', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(8), fc.nat(1)), { minLength: 2, maxLength: 30 }),
        fc.nat(28),
        (brought, cut) => {
          const all = brought.map(([rejects, stops], place) => look(place, rejects, stops));
          const length = 1 + (cut % (all.length - 1));
          const whole = judgements(judged(all));
          judgements(judged(all.slice(0, length))).forEach(({ answer, outside }, place) => {
            expect(outside).toEqual(whole[place]!.outside.slice(0, length));
            expect(answer.outside).toBe(outside.at(-1));
          });
        },
      ),
      { numRuns: 25 },
    );
  });
});
