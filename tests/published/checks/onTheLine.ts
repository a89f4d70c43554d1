import { figureValues } from '../../../model/figures/figureValues.ts';
import type { FigureId } from '../../../model/figures/figures.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import { indexOf } from '../../../model/fold/lineIndex.ts';
import { NOTHING_PAST, figuresPast } from '../../../model/past/figuresPast.ts';
import { timePast } from '../../../model/past/timePast.ts';
import { epochMs, type Instant, instantFromMs, minutes } from '../../../model/units/units.ts';
import { changes, running, smallLine } from '../../model/smallLine.ts';
import { caseA } from './iso22400.ts';
import { from, type Topic } from './check.ts';

const line = smallLine();
const index = indexOf(line);
const utc = (iso: string) => instantFromMs(Date.parse(iso));

/** What a figure of the registry gives for the elements of case A. */
function ofCaseA(id: FigureId) {
  const sum = { ...NOTHING_PAST, pot: 480, plannedDown: 30, elements: caseA };
  return figureValues({ index, sum, account: undefined }).find((one) => one.id === id)?.value;
}

/** Good cartons, the time classes' producing minutes and both rates of a minute with 20 s of standing in it. */
function rates(): number[] {
  const from = utc('2026-03-17T05:00:00Z');
  const to = (from + minutes(1)) as Instant;
  const stop = {
    begin: (from + minutes(0.25)) as Instant,
    end: (from + minutes(0.25) + 200_000_000) as Instant,
  };
  const stops = [
    {
      ...stop,
      id: 'stop',
      endSeen: true,
      reason: 51,
      kind: 'machine' as const,
      class: 'stopped' as const,
      station: null,
      from: 'state' as const,
      attempt: 1,
      episode: 'stop',
      pauseRule: null,
      allowance: minutes(0),
      lastGoodBefore: from,
      firstGood: null,
      cartonsBefore: 0,
      size: null,
      order: null,
      chain: [],
      lost: 0,
      answer: null,
      notNowAt: null,
    },
  ];
  const place = index.tallied.findIndex((signal) => line.signals[signal]!.role === 'goodCount');
  const gained = index.tallied.map((_, n) => (n === place ? 57 : 0));
  const asked = { index, from, to, stops, gaps: [], begun: from };
  const { elements } = figuresPast({
    ...asked,
    time: timePast(asked),
    gains: [{ size: 'sachet-20', gained }],
    now: to,
  });
  return [elements.gq / ((to - from) / minutes(1)), elements.gq / elements.apt];
}

/** A counter that reads 100, is bad for a while, and reads 160 then. */
function overBad(): (number | string)[] {
  const fold = new LineFold(line);
  fold.take(changes(line, [...running(), [1, 'good', 100]]));
  const before = fold.state.shift.account.good;
  fold.take(
    changes(line, [
      [20, 'link', false],
      [60, 'link', true],
      [60, 'good', 160],
    ]),
  );
  const { account, gaps } = fold.state.shift;
  return [account.good - before, gaps.map(({ kind }) => kind).join(' ')];
}

/** How long a stop lasted that began before the clock was put back, and ended after it. */
function overTheClock(): number {
  const [begin, end] = [utc('2025-10-25T23:50:00Z'), utc('2025-10-26T01:10:00Z')];
  return (epochMs(end) - epochMs(begin)) / 60_000;
}

/** Bars of an hourly chart of the nine-hour shift, and their hours on the wall. */
function hours(): (number | string)[] {
  const [begin, end] = [epochMs(utc('2025-10-25T20:00Z')), epochMs(utc('2025-10-26T05:00Z'))];
  const bars: string[] = [];
  for (let moment = begin as number; moment < end; moment += 3_600_000)
    bars.push(
      new Date(moment)
        .toLocaleTimeString('en-GB', { timeZone: 'Europe/Berlin', hour: '2-digit' })
        .slice(0, 2),
    );
  return [bars.length, bars.filter((bar) => bar === '02').length];
}

export const onTheLine: Topic = {
  title: 'On the line',
  about: 'The same by the fold of tags and by the registry that screens, reports, files and the API read.',
  checks: [
    ...from('[K] case A, as the screens have it', [
      ['OEE index, NEE index', '0.769630, 0.806870', () => [ofCaseA('oee'), ofCaseA('nee')]],
      [
        'MTBF, by FE + 1, MTTR, in minutes',
        '55.7143, 48.75, 6.0',
        () => [ofCaseA('mtbf'), ofCaseA('mtbfOneMore'), ofCaseA('mttr')],
      ],
      [
        'throughput, set-up rate, scrap ratio',
        '49.0833, 0.046154, 0.019996',
        () => [ofCaseA('throughput'), ofCaseA('setupRate'), ofCaseA('scrapRatio')],
      ],
      ['MTBF over production time alone', '53.1429', () => caseA.apt / caseA.failures],
      ['good cartons a minute, while running, of the produced 57.0', '57.0', () => caseA.pq / caseA.apt],
    ]),
    ...from('[K] by arithmetic', [
      ['57 cartons in 60 s with a stop of 20 s: line rate, running rate', '57.0, 85.5', rates],
      ['a counter that reads 100, nothing for 40 s, then 160: counted, and the time', '60, unknown', overBad],
      ['a stop from 01:50 +02:00 to 02:10 +01:00, in minutes', '80', overTheClock],
      ['hours of the nine-hour shift, and how many of them are 02', '9, 2', hours],
    ]),
  ],
};
