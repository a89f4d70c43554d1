import type { ReactNode } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { placeOf } from '../../../dashboard/setpoints/address.ts';
import { Book } from '../../../dashboard/setpoints/book.tsx';
import { costPoints, heightsOf } from '../../../dashboard/setpoints/costPoints.ts';
import { doubtOf } from '../../../dashboard/setpoints/doubted.ts';
import { numberTyped } from '../../../dashboard/setpoints/typed.ts';
import { routeOf } from '../../../dashboard/app/route.ts';
import { createStore } from '../../../dashboard/store/store.ts';
import { DoorsProvider } from '../../../dashboard/store/use.tsx';
import type { SetPointsPast } from '../../../model/past/setPointsPast.ts';
import { costAgainst } from '../../../model/setpoints/costAgainst.ts';
import { wordsIn } from '../../../model/words/words.ts';
import { views } from '../views/views.ts';
import { bookWith, learnedAt, now, openedWith, rows, zone } from './answers.ts';

const said = wordsIn('en').screen.past.setPoints;

function drawn(page: ReactNode, view = views.quiet): string {
  const store = createStore(0, { ...view, at: now });
  return renderToStaticMarkup(<DoorsProvider doors={{ store, enter: () => {} }}>{page}</DoorsProvider>);
}

const goes = (path: string) => ({ href: path, onClick: () => {} });
const table = (book: SetPointsPast = bookWith(), view = views.quiet) =>
  drawn(<Book book={book} rows={book.rows} goes={goes} opened={undefined} />, view);

/** One row of the table, its words one piece a line. */
const row = (number: string, ...of: Parameters<typeof table>) =>
  (
    table(...of)
      .split('<tr')
      .find((part) => part.includes(`id="row-${number}"`)) ?? ''
  )
    .replace(/<\/?(?:b|data|span|small|tspan)\b[^>]*>/g, ' ')
    .replace(/<[^>]+>/g, '\n')
    .replace(/[ \n]*\n[ \n]*/g, '\n')
    .replace(/ +/g, ' ');

describe('the book of a size', () => {
  it('says first how many stand off it, which of them where nobody tried, and what nobody has read', () => {
    expect(said.lead(bookWith(), zone)).toEqual([
      '3 of 12 adjustments are known to differ from the book.',
      'Two of them stand where nobody has tried before: 5.2 bottom closing guide by +5.0 and 9.1 top closing guide by +1.0. One sensor is silent. 4 were only confirmed as in the book at 06:19; nobody has read them since. Of 1 nobody has said where it stands.',
    ]);
  });

  it('says of a size that does not run what its numbers are, and of one that never ran that too', () => {
    const sums = { ...bookWith().sums, off: 0, neverTried: 0, silent: 0, confirmed: 0, unknown: 0 };
    const still = rows.map((one) => ({ ...one, stands: { ...one.stands, tried: undefined } }));
    expect(said.lead(bookWith({ runs: 'before', sums, rows: still }), zone)).toEqual([
      'None of 12 adjustments is known to differ from the book.',
      'Sachet 48 does not run now: all of this is how it stood when its newest run at rate ended.',
    ]);
    const none = { ...sums, unknown: 12 };
    expect(said.lead(bookWith({ runs: 'never', sums: none, rows: still }), zone)).toEqual([
      'It is not known of any of the 12 adjustments where it stands.',
      'Sachet 48 has not run at rate in anything that is recorded.',
    ]);
  });

  it('says what it was learned from, and that nothing was', () => {
    expect(said.learnedFrom(bookWith(), zone)).toBe(
      'Recorded: 7 runs since Mon 12 Jan, 61,400 cartons; board lots L114, L119, L126; change part set B. What runs now teaches once it is over.',
    );
    const from = { ...bookWith().from, runs: 0 };
    expect(said.learnedFrom(bookWith({ from }), zone)).toBe(
      'No run of Sachet 48 is recorded that could teach anything.',
    );
  });

  it('tells of each number how it is known, and never gives one that nobody can vouch for', () => {
    expect(row('3.1')).toContain('41.5 read back 06:22');
    expect(row('4.1')).toContain('150 as book, 06:19\nnone said; read the scale');
    expect(row('4.2')).toContain('23.0 last entered 06:19\n+0.5 tried, ran well');
    expect(row('5.2')).toContain('36.5 by a sensor\n+5.0 never tried');
    expect(row('6.1')).toContain('no reading sensor silent\nno reading since 10:12, was 66');
    expect(row('8.1')).toContain('not known nobody has said\nread the scale');
    expect(row('10.1')).toContain('not counted\nno run tells anything');
  });

  it('says how sure it is by runs, settings and sides, with a mark for each run', () => {
    expect(row('1.1')).toContain('sure 7 runs, 3 settings, 3 lots; tried on both sides');
    expect(row('2.1')).toContain('fairly sure 7 runs, 3 settings, 3 lots; tried on both sides');
    expect(row('5.1')).toContain(
      'never varied 7 runs, 1 setting, 3 lots; ran here, says nothing about elsewhere',
    );
    expect(row('6.1')).toContain('thin 3 runs, 3 settings, 2 lots; the runs leave much open');
    const one = { marks: [{ at: 34, runs: 9 }], sure: 'thin' } as const;
    expect(said.sureWhy(learnedAt(34, 0.5, one))).toContain('tried on one side only');
    expect(said.sureWhy(learnedAt(34, 0.5, { ...one, together: ['5.1'] }))).toContain(
      'always moved with 5.1',
    );
    expect(row('9.2')).toContain('3.1, no interval\ncannot say 1 run, 1 setting, 1 lot; too few runs');
    const marks = /class="suremarks open">(.*?)<\/svg>/.exec(table())?.[1] ?? '';
    expect(marks.match(/<rect/g)).toHaveLength(7);
  });

  it('says where runs teach another number than the book has', () => {
    expect(row('5.2')).toContain('31.5 runs say 34.0');
    expect(row('2.1')).not.toContain('runs say');
  });

  it('is yellow only where a number off its book is at a station outside its own normal, while the size runs', () => {
    expect(table().match(/offtab abnormal/g)).toBeNull();
    expect(table(bookWith(), views.stopped).match(/offtab abnormal/g)).toHaveLength(1);
    expect(table(bookWith({ runs: 'before' }), views.stopped).match(/offtab abnormal/g)).toBeNull();
    expect(table().match(/class="offtab"/g)).toHaveLength(3);
  });
});

describe('which number, and how it is known', () => {
  const of = (number: string) => openedWith(number).row;
  it('is answered in two sentences', () => {
    expect([said.one.which(of('5.2'), 'Sachet 48'), said.one.how(of('5.2'))]).toEqual([
      'Recommended 34.0 mm for Sachet 48. The book says 31.5 mm.',
      '7 runs, 3 settings, 3 lots, tried on both sides; the best number lies between 33.5 and 34.5 in nine of ten cases.',
    ]);
    expect(said.one.which(of('4.1'), 'Sachet 48')).toBe('Recommended 150° for Sachet 48, as the book says.');
  });

  it('is left open where nobody can say', () => {
    expect(said.one.which(of('5.1'), 'Sachet 48')).toBe(
      'Which number is best for Sachet 48 cannot be told: it ran at 14.5 mm and nowhere else, as the book says.',
    );
    expect(said.one.which(of('9.2'), 'Sachet 48')).toBe(
      'Which number is best for Sachet 48 cannot be told yet. The book says 4°.',
    );
    expect(said.one.how(of('9.2'))).toBe('1 run, 1 setting, 1 lot, too few runs.');
    expect([said.one.which(of('10.1'), 'Sachet 48'), said.one.how(of('10.1'))]).toEqual([
      'No run of Sachet 48 tells which number is best. The book says 70.5 mm.',
      'The line’s file or a person gave it; nothing that ran speaks for it or against it.',
    ]);
  });

  it('names adjustments that always moved together', () => {
    expect(said.one.together(of('4.2'))).toBe(
      '4.2 and 5.1 always moved together: which of them it was cannot be told.',
    );
    expect(said.one.together(of('5.2'))).toBe('');
  });
});

describe('the cost of another number', () => {
  it('is solid where it was tried and dashed beyond, and the two meet', () => {
    const points = costPoints(learnedAt(34, 0.5));
    const inside = points.filter(({ lost }) => lost !== undefined).map(({ at }) => at);
    const beyond = points.filter(({ lostBeyond }) => lostBeyond !== undefined).map(({ at }) => at);
    expect(inside).toEqual([33, 33.5, 34, 34.5]);
    expect(beyond).toEqual([32, 32.5, 33, 34.5, 35, 35.5, 36]);
  });

  it('is against the recommended number, whatever is lost at that, and nothing where none is', () => {
    const all = costAgainst(learnedAt(34, 0.5, { recommended: 34.25 }));
    expect(all.map(({ more }) => more)).toEqual([139.5, 76.5, 31.5, 4.5, 0, 4.5, 31.5, 76.5, 139.5]);
    expect(costAgainst(learnedAt(34, 0.5)).map(({ more }) => more)).toEqual([
      144, 81, 36, 9, 0, 9, 36, 81, 144,
    ]);
    expect(costAgainst(learnedAt(34, 0.5, { sure: 'neverVaried' }))).toEqual([]);
    expect(costAgainst(learnedAt(34, 0.5, { recommended: undefined }))).toEqual([]);
  });

  it('has round numbers at its side', () => {
    expect(heightsOf(144)).toEqual([0, 50, 100, 150]);
    expect(heightsOf(2.9)).toEqual([0, 1, 2, 3]);
    expect(heightsOf(0).at(-1)).toBe(0);
  });
});

describe('a number that is typed', () => {
  it('may have a point or a comma and either minus, and is nothing else', () => {
    expect(['34.0', ' 34,5 ', '−4', '+0.5'].map(numberTyped)).toEqual([34, 34.5, -4, 0.5]);
    expect(['', '34.', '3 4', '34.0 mm', '1e3', '12345678'].map(numberTyped)).toEqual(
      Array.from({ length: 6 }, () => undefined),
    );
  });

  it('[SH7] is asked about where it is off its scale, far or a slip, and never where runs recommend it', () => {
    const { row: guide } = openedWith('5.2');
    expect(doubtOf(34, guide, bookWith())).toBeUndefined();
    expect(doubtOf(340, guide, bookWith())?.kind).toBe('offScale');
    expect(doubtOf(34.25, guide, bookWith())).toEqual({ kind: 'fine', likely: 34.3 });
    expect(doubtOf(13.5, guide, bookWith())?.kind).toBe('slip');
  });
});

describe('its addresses', () => {
  it('are a size, an adjustment of it, or the page to print', () => {
    expect(placeOf('/setpoints')).toEqual({ size: undefined, number: undefined, paper: false });
    expect(placeOf('/setpoints/sachet-48')).toEqual({ size: 'sachet-48', number: undefined, paper: false });
    expect(placeOf('/setpoints/sachet-48/5.2').number).toBe('5.2');
    expect(placeOf('/setpoints/sachet-48/paper')).toEqual({
      size: 'sachet-48',
      number: undefined,
      paper: true,
    });
  });

  it('lead to the screen', () => {
    const screen = { kind: 'past', screen: 'setpoints' };
    for (const path of ['/setpoints', '/setpoints/sachet-48/', '/setpoints/sachet-48/5.2'])
      expect(routeOf(path, 1440)).toEqual(screen);
    expect(routeOf('/setpoints/a/b/c', 1440)).toEqual({ kind: 'line', layout: 'desk' });
  });
});
