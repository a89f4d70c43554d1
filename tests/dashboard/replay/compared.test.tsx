import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { AlignChoice } from '../../../dashboard/replay/alignChoice.tsx';
import { ComparedSheet } from '../../../dashboard/replay/comparedSheet.tsx';
import { CourseStrip } from '../../../dashboard/replay/courseStrip.tsx';
import { countTicks, timeAt, xOf } from '../../../dashboard/replay/scale.ts';
import { UnderChoice } from '../../../dashboard/replay/shiftChoice.tsx';
import { shiftStretch } from '../../../dashboard/replay/stretch.ts';
import type { Compared, ComparedSide } from '../../../model/past/compared/compared.ts';
import type { Course } from '../../../model/past/course.ts';
import type { PastOverview } from '../../../model/past/overview.ts';
import type { PastRun } from '../../../model/past/runsPast.ts';
import type { EpochMs, Millis } from '../../../model/units/units.ts';

const zone = 'Europe/Berlin';
const HOUR = 3_600_000;
const MINUTE = 60_000;
const ms = (iso: string) => Date.parse(iso) as EpochMs;
/** Night shifts of Mon 16 Mar and Thu 12 Mar. */
const monday = ms('2026-03-16T21:00:00Z');
const thursday = ms('2026-03-12T21:00:00Z');
const moment = (from: number, minutes: number) => (from + minutes * MINUTE) as EpochMs;
const names = { here: 'this shift', there: 'Thu 12 Mar' };
const flap = { id: 'top-major', number: 9, name: 'top major flap', drawing: 'top-major' };

function side(from: EpochMs, more: Partial<ComparedSide> = {}): ComparedSide {
  return {
    ...{ from, to: moment(from, 480), origin: from, made: undefined, sizes: ['Sachet 20'] },
    window: { from, to: moment(from, 340) },
    ...more,
  };
}

const compared: Compared = {
  asked: 'clock',
  alignment: 'clock',
  without: [],
  axis: { from: 0, to: 8 * HOUR },
  here: side(monday),
  there: side(thursday),
  leftOut: [{ from: moment(monday, 192), to: moment(monday, 199) }],
  ended: undefined,
  shifts: 20,
  needed: 8,
  comparisons: 7,
  rows: [
    row('good', 24_369, 24_885, { kind: 'counted', differ: -516 }),
    row('lost', 2_831, 2_315, { kind: 'counted', differ: 516 }),
    { ...row('lostTo', 96, 94, { kind: 'counted', differ: 2 }), cause: 'slowOrNotLoaded' },
    { ...row('lostTo', 61, 61, { kind: 'counted', differ: 0 }), cause: 'missedPick' },
    { ...row('stops', 8, 4, { kind: 'notEnough', chance: 1 }), stops: 'own' },
    { ...row('stops', 2, 1, { kind: 'cannotTell', shifts: 3, counted: 9 }), stops: 'outside' },
    { ...row('stops', 1, 0, { kind: 'listed' }), stops: 'safety' },
    row('stood', 382_000, 214_000, { kind: 'counted', differ: 168_000 }),
    {
      kind: 'rejects',
      station: flap,
      here: { value: 7.9, lower: 6.9, upper: 9.1 },
      there: { value: 2.1, lower: 1.6, upper: 2.8 },
      meaning: { kind: 'real', more: 'here', chance: 0.0001 },
    },
    row('notSeen', 7 * MINUTE, 0, { kind: 'notSeen' }),
  ],
};

function row(
  kind: Compared['rows'][number]['kind'],
  here: number,
  there: number,
  meaning: Compared['rows'][number]['meaning'],
): Compared['rows'][number] {
  return { kind, here: { value: here }, there: { value: there }, meaning };
}

const text = (html: string) =>
  html
    .replace(/<\/(?:tr|p|h2)>/g, '\n')
    .replace(/<\/(?:td|th)>/g, ' | ')
    .replace(/<[^>]+>/g, '')
    .replaceAll('&#x27;', '’');
const sheet = (more: Partial<Compared> = {}) =>
  text(renderToStaticMarkup(<ComparedSheet compared={{ ...compared, ...more }} names={names} zone={zone} />));

describe('the table of two shifts', () => {
  it('[RP11] [RP12] [RP13] has both numbers and what they mean', () => {
    expect(sheet().split('\n').slice(0, -2)).toEqual([
      'Beside Thu 12 Mar',
      'up to 03:40 | this shift | Thu 12 Mar | which means | ',
      'good cartons | 24,369 | 24,885 | 516 fewer | ',
      'cartons lost | 2,831 | 2,315 | 516 more | ',
      'slow or not loaded | 96 | 94 | 2 more | ',
      'missed pick | 61 | 61 | as many | ',
      'stops of its own | 8 | 4 | not enough to tell them apart | ',
      'stops from outside | 2 | 1 | cannot be told: how unlike shifts are is known from 8 earlier ones on, and there are 3 | ',
      'safety stops | 1 | 0 | listed and not judged: a press is always right | ',
      'time stood | 6 min 22 s | 3 min 34 s | 2 min 48 s longer | ',
      'rejects per 1,000, top major flap | 7.9 (6.9 to 9.1) | 2.1 (1.6 to 2.8) | a real difference: more in this shift | ',
      'time not seen | 7 min | 0 | 01:12 to 01:19 is left out of both | ',
    ]);
  });

  it('[RP12] says how the comparisons share one level, and what that does not cover', () => {
    const foot = sheet().split('\n').at(-2)!;
    expect(foot).toContain('7 comparisons share one level: of 20 such looks at two that are alike');
    expect(foot).toContain('Who looks at moment after moment until one is called will find one.');
    expect(sheet({ comparisons: 0 })).not.toContain('share one level');
  });

  it('[RP11] says where one of them ends, and that the sizes differ', () => {
    const there = side(thursday, { sizes: ['Sachet 48', 'Sampler 12'] });
    const told = sheet({ ended: 'there', there });
    expect(told).toContain('Compared up to 03:40 of this shift: there Thu 12 Mar ends.');
    expect(told).toContain('Sachet 20 ran in this shift, Sachet 48 and Sampler 12 in Thu 12 Mar');
  });

  it('[RP10] says that one has no changeover', () => {
    const answer: Compared = { ...compared, asked: 'changeover', without: ['there'] };
    const html = renderToStaticMarkup(
      <AlignChoice align="changeover" compared={answer} names={names} choose={() => {}} />,
    );
    expect(text(html)).toContain(
      'Below: Thu 12 Mar, hung under it on the same clock. Thu 12 Mar had no good carton after a changeover: by the clock instead.',
    );
  });
});

function course(from: EpochMs, stops: readonly number[]): Course {
  return {
    seen: {
      ...{ from, to: moment(from, 480), since: undefined },
      ...{ unknown: 0 as Millis, isolated: 0 as Millis },
    },
    strip: {
      bucketMs: MINUTE,
      rates: Array.from({ length: 480 }, () => 78),
      target: 80,
      cuts: stops.map((minute) => ({
        ...{ kind: 'stopped', from: moment(from, minute), to: moment(from, minute + 5) },
        station: 9,
      })),
    },
    ...{ sizes: [], stops: [], presses: [], changeovers: [], notices: [], notes: [] },
  };
}

describe('the strip with another under it', () => {
  const drawn = (answer: Compared, at: number) =>
    renderToStaticMarkup(
      <CourseStrip
        course={course(monday, [60, 345])}
        width={962}
        zone={zone}
        at={at}
        window={{ from: moment(monday, 325), to: moment(monday, 355) }}
        go={() => {}}
        unheard={[]}
        hung={{ compared: answer, course: course(thursday, [120]), names }}
      />,
    );

  it('[RP10] hangs the other upside down under the same axis, with the moment at the same place', () => {
    const html = drawn(compared, moment(monday, 340.2));
    const boards = [...html.matchAll(/d="M1 (\d+)V([\d.]+)[^"]*" class="boardfill"/g)];
    const [[, floor, top], [, hung, end]] = boards as unknown as [RegExpMatchArray, RegExpMatchArray];
    expect(Number(top)).toBeLessThan(Number(floor));
    expect(Number(end)).toBeGreaterThan(Number(hung));
    expect(Number(hung)).toBeGreaterThan(Number(floor));
    // one scale for both
    expect(Number(floor) - Number(top)).toBeCloseTo(Number(end) - Number(hung), 6);
    expect(html.match(/03:40:12/g)).toHaveLength(3);
    expect(html).toContain('none pressed, Thu 12 Mar');
  });

  it('[RP10] on the changeover the axis counts from the first good carton, and the moment is as long after it', () => {
    const answer: Compared = {
      ...compared,
      alignment: 'changeover',
      here: side(monday, { origin: moment(monday, 60) }),
      there: side(thursday, { origin: moment(thursday, 150) }),
      axis: { from: -150 * MINUTE, to: 420 * MINUTE },
    };
    const html = drawn(answer, moment(monday, 90));
    expect(html).toContain('>first good<');
    expect(html).toContain('>−2 h<');
    expect(html).toContain('>+1 h<');
    // 22:00 and 90 minutes; 22:00 and 150 and 30 minutes
    expect(html).toContain('>23:30:00<');
    expect(html).toContain('>01:00:00<');
    // so long after it the other is over
    expect(drawn(answer, moment(monday, 400))).not.toMatch(/>0[6-9]:\d\d:\d\d</);
  });

  it('[RP10] on cartons a stop takes no room, and a place is the moment at which it was reached first', () => {
    const made = [0, 0, 100, 100, 200].map((cartons, hour) => ({ at: moment(monday, hour * 60), cartons }));
    const box = {
      ...{ from: monday, to: moment(monday, 240), left: 0, right: 1000 },
      aligned: { side: side(monday, { made }), axis: { from: 0, to: 200 } },
    };
    expect([0, 30, 90, 120, 180, 240].map((minute) => xOf(moment(monday, minute), box))).toEqual([
      0, 0, 250, 500, 500, 1000,
    ]);
    expect(timeAt(500, box)).toBe(moment(monday, 120));
    expect(timeAt(750, box)).toBe(moment(monday, 210));
    expect(countTicks({ from: 0, to: 25_000 }, 900, 90)).toEqual([0, 5000, 10_000, 15_000, 20_000, 25_000]);
    const answer: Compared = {
      ...{ ...compared, alignment: 'cartons', axis: { from: 0, to: 200 } },
      here: side(monday, { made }),
      there: side(thursday, {
        made: [0, 50, 200].map((cartons, hour) => ({ at: moment(thursday, hour * 60), cartons })),
      }),
    };
    // 100 cartons two hours after 22:00, and in the other after one hour and a third
    const html = drawn(answer, moment(monday, 120));
    expect(html).toContain('>00:00:00<');
    expect(html).toContain('>23:20:00<');
  });
});

describe('what can hang under it', () => {
  it('[RP10] shifts of the same kind first, then others, then runs; not itself', () => {
    const shift = (rule: string, day: number, hour: number) => ({
      ...{ rule, name: `${rule} shift` },
      from: (monday + (day * 24 + hour) * HOUR) as EpochMs,
      to: (monday + (day * 24 + hour + 8) * HOUR) as EpochMs,
    });
    const shifts = [shift('night', -1, 0), shift('early', -1, 8), shift('night', 0, 0)];
    const overview: PastOverview = {
      ...{ past: { kind: 'whole' }, begun: shifts[0]!.from, now: monday, zone, shifts },
      ...{ sizes: [], stations: [], orders: [] },
    };
    const run: PastRun = {
      size: { id: 'sachet-20', name: 'Sachet 20' },
      ...{ from: moment(thursday, 250), to: moment(thursday, 502), lasted: (252 * MINUTE) as Millis },
      ...{ goesOn: false, cut: false },
    };
    const html = renderToStaticMarkup(
      <UnderChoice
        overview={overview}
        runs={[run]}
        stretch={shiftStretch(shifts[2]!)}
        other={undefined}
        choose={() => {}}
      />,
    );
    expect([...html.matchAll(/(?:label="|<option[^>]*>)([^"<]+)/g)].map(([, said]) => said)).toEqual([
      'nothing',
      'other shifts of this kind: night shift',
      'night shift, Sun 15 Mar',
      'other shifts',
      'early shift, Mon 16 Mar',
      'runs of a size',
      'Sachet 20, Fri 13 Mar 02:10, 4 h 12 min',
    ]);
  });
});
