import type { FigureId } from '../figures/figures.ts';
import type { PastChangeover } from '../past/changeover.ts';
import type { PastUse, StepSeen } from '../past/safetyPast.ts';
import type { PastStop } from '../past/stopsPast.ts';
import type { Report } from '../report/report.ts';
import type { ReportKind } from '../report/reportPeriod.ts';
import type { StripCut } from '../report/reportStrip.ts';
import { day, dayOfYear } from './clock.ts';
import { reportFileWords } from './english-report-file.ts';
import { reportPaperWords } from './english-report-paper.ts';
import { signedWords, signingRefused } from './english-report-signed.ts';
import {
  at,
  capital,
  count,
  exactly,
  lasted,
  listed,
  locale,
  many,
  past,
  placed,
  dated,
} from './english-say.ts';
import * as numbers from './format.ts';

const decimal = (n: number, decimals: number) => numbers.decimal(n, decimals, locale);
const on = (moment: number, zone: string) => day(moment, zone, locale);
const when = (moment: number, zone: string) => `${on(moment, zone)} ${at(moment, zone)}`;
const stops = (n: number) => `${count(n)} ${many(n, 'stop', 'stops')}`;

const KIND: Readonly<Record<ReportKind, string>> = {
  shift: 'Shift report',
  week: 'Week report',
  month: 'Month report',
  order: 'Order report',
  size: 'Size report',
};

/** Which day is asked for where a page covers more than one. */
function moment(time: number, report: Report): string {
  return report.kind === 'shift' ? exactly(time, report.zone) : when(time, report.zone);
}

function stepSaid(name: string, step: StepSeen): string {
  if (step === 'toCome') return `${name} still to come`;
  if (step === 'notSeen') return `${name} not seen`;
  return `${name} +${lasted(step)}`;
}

/** Sentences of a report: on the screen, on paper, in a file. */
export const reportWords = {
  kinds: { shift: 'shift', week: 'week', month: 'month', order: 'order', size: 'size' },
  kindsLabel: 'Report of',
  which: 'Which one',
  orderNamed: (number: string) => `order ${number}`,
  weeksAgo: (back: number) =>
    back === 0 ? 'this week' : back === 1 ? 'last week' : `${count(back)} weeks ago`,
  monthsAgo: (back: number, moment: number, zone: string) =>
    back === 0
      ? 'this month'
      : new Intl.DateTimeFormat(locale, { month: 'long', year: 'numeric', timeZone: zone }).format(moment),
  madeUp: 'made up',
  title: ({ kind, shift, size, order, from, to, zone }: Report) => {
    const of = [shift, size, order === undefined ? undefined : `order ${order}`].filter(
      (part) => part !== undefined,
    );
    return `${KIND[kind]}${of.length > 0 ? `, ${of.join(', ')}` : ''}, ${when(from, zone)} to ${when(to, zone)}`;
  },
  soFar: 'So far: it goes on.',
  /** The one sentence that somebody who takes over has to read. */
  lead: (report: Report): string => {
    const { lost, stations, stops: all, figures } = report;
    if (figures.some(({ id, none }) => id === 'good' && none === 'notSeen')) return 'Nobody saw any of it.';
    const worst = stations.filter(({ more }) => more);
    const parts = [
      ...(lost === undefined
        ? []
        : lost.total <= 0
          ? [`As many cartons as possible${lost.total < 0 ? `, and ${count(-lost.total)} more` : ''}.`]
          : [
              `${count(lost.total)} fewer than possible; ${lost.causes
                .filter(({ cartons }) => cartons > 0)
                .slice(0, 2)
                .map(({ cause, cartons }) => `${reportWords.causes[cause]} ${count(cartons)}`)
                .join(', ')}.`,
            ]),
      ...(worst.length > 0
        ? [
            `${capital(worst.map(({ station }) => `${station.number} ${station.name}`).join(', '))}: more than its runs differ by.`,
          ]
        : []),
      ...(worst.length === 0 && all.rows[0]
        ? [`Stood longest for ${placed(all.rows[0].name ?? 'no known reason', all.rows[0].station?.name)}.`]
        : []),
    ];
    return parts.join(' ');
  },
  causes: {
    stopped: 'stopped',
    slow: 'slow',
    notLoaded: 'not loaded',
    missedPick: 'missed picks',
    reject: 'rejects',
    crushed: 'crushed',
    changeover: 'changeover',
    pauseOver: 'pauses over',
    unknown: 'not seen',
  },
  head: {
    good: (n: string) => `${n} good`,
    possible: (possible: number, good: number) =>
      `${count(possible)} possible, ${good <= possible ? `${count(possible - good)} fewer` : `${count(good - possible)} more`}`,
    made: (produced: string, rejected: string, crushed: string) =>
      `${produced} made, ${rejected} rejected, ${crushed} crushed`,
    running: 'a minute, running',
    target: (target: number | undefined) =>
      target === undefined
        ? 'no target'
        : `target ${Number.isInteger(target) ? count(target) : `${decimal(target, 1)}, mean`}`,
    stops: 'stops',
    stood: (minutes: string) => `${minutes} in all`,
    own: (n: string) => `${n} its own`,
    seen: 'seen',
    of: (minutes: string) => `of ${minutes}`,
    unseen: (minutes: string | undefined) => (minutes === undefined ? 'all of it' : `${minutes} not seen`),
    oee: (oee: string, nee: string) => `OEE ${oee}, NEE ${nee}`,
    safety: (caused: number, uses: number) =>
      caused === 0 && uses === 0
        ? 'No stop device used'
        : `${count(caused)} safety ${many(caused, 'stop', 'stops')}, ${count(uses)} ${many(uses, 'use', 'uses')}`,
  },
  strip: {
    title: (kind: ReportKind) =>
      kind === 'shift'
        ? 'Good cartons a minute; the number on a stop is its station'
        : 'Good cartons a minute',
    cut: (kind: StripCut['kind']) => figuresCut[kind],
    said: (report: Report) =>
      `Good cartons a minute, ${stops(report.stops.list.length + report.stops.more.stops)}`,
  },
  time: {
    title: (all: string) => `Where the ${all} went`,
    parts: {
      actualProductionTime: 'ran',
      setupTime: 'set-up',
      delayTime: 'own stops, safety stops',
      downTime: 'starved, blocked, pauses over',
      plannedDownTime: 'planned pauses',
      notSeen: 'not seen',
    },
  },
  lost: {
    title: (total: number) => (total < 0 ? 'More than possible' : `Lost, ${count(total)} cartons`),
    sum: (possible: number, good: string, total: number) =>
      `${count(possible)} possible − ${good} good = ${count(total)}`,
  },
  stations: {
    title: (rejected: string) =>
      `Rejects by station, ${rejected} in all, and what is usual for as many cartons`,
    usual: (n: number | undefined) =>
      n === undefined ? 'past too thin' : `usual ${n < 10 ? decimal(n, 1) : count(n)}`,
    none: 'no count',
    kinds: { reject: '', notLoaded: 'not loaded', missed: 'missed' },
    /** Over all sizes it may have less than usual, and with one of them more than its runs with that one differ by. */
    more: ({ station, perThousand, lower, upper, usual, among, counted }: Report['stations'][number]) =>
      `**${station.number} ${station.name}: ${decimal(perThousand!, 1)} in 1,000** (${decimal(lower!, 1)} to ${decimal(upper!, 1)}), usual ${decimal((1000 * usual!) / among, 1)}: ${counted > usual! ? '' : 'with one of its sizes '}more than its runs differ by.`,
    likelyMeans:
      '“Likely” is an estimate of the rejects that it spoiled itself, whatever station they are charged to.',
    lostHere: (n: number) => `${count(n)} lost`,
    likely: (n: number) => `likely ${n < 10 ? decimal(n, 1) : count(n)}`,
  },
  stops: {
    title: (n: number, stood: string) => `Stops, ${count(n)}, ${stood}`,
    firstFaults: 'Stops by first fault, the longest first',
    began: 'began',
    lasted: 'lasted',
    station: 'station',
    fault: 'first fault, and what it set off',
    done: 'what people said',
    lost: 'lost',
    times: 'stops',
    none: 'No stop.',
    more: (n: number, stood: number) => `and ${stops(n)} more, ${past(stood)} in all`,
    moreRows: (n: number, of: number, stood: number) =>
      `and ${count(n)} more ${many(n, 'kind', 'kinds')}: ${stops(of)}, ${past(stood)}`,
    carried: (n: number, stood: number) =>
      n > 0
        ? `${stops(n)} from before went on into it for ${past(stood)}, and ${many(n, 'is', 'are')} not counted here.`
        : '',
    unknown: 'no reason in the PLC',
    endNotSeen: 'end not seen',
    tries: (n: number) => `try ${count(n)}`,
    chain: ({ chain }: PastStop) =>
      chain
        .slice(1)
        .filter(({ kind }) => kind !== 'during' && kind !== 'guardOpened')
        .map(({ name, after }) => `then ${name}, +${decimal(after / 1000, 1)} s`)
        .join('; '),
    nobody: 'nobody said',
  },
  safety: {
    title: (n: number) => `Uses of stop devices, ${count(n)}`,
    none: 'No stop device was used.',
    use: (use: PastUse, report: Report) => {
      const role = {
        caused: 'stopped the line',
        during: 'used in a stop',
        uncertain: 'order not certain',
        noStop: 'no stop came with it',
      }[use.role];
      const steps =
        report.kind === 'shift'
          ? [
              stepSaid('released', use.released),
              ...(use.reset === undefined ? [] : [stepSaid('reset', use.reset)]),
              stepSaid('restarted', use.restarted),
              stepSaid('first good', use.firstGood),
            ]
          : [stepSaid('restarted', use.restarted)];
      return `**${use.owned ? moment(use.at, report) : 'moment not seen'} ${use.candidate ?? use.name}**, ${role}; ${steps.join(', ')}.`;
    },
    more: (n: number) => (n > 0 ? `And ${count(n)} more.` : ''),
    ranOn: (n: number, open: number) =>
      n === 0
        ? 'No guard read open and no device read pressed while it ran.'
        : `${count(n)} ${many(n, 'reading', 'readings')} open or pressed while it ran, ${open === 0 ? 'all explained or closed' : `${count(open)} not explained`}.`,
    caution: 'It shows; it does not protect. No safety record: keep the site’s own.',
  },
  changeovers: {
    title: (n: number) => `Changeovers, ${count(n)}`,
    none: 'None.',
    one: (one: PastChangeover, report: Report) => {
      const what =
        one.kind === 'size'
          ? `${one.from ?? '?'} to ${one.to ?? '?'}`
          : one.kind === 'artwork'
            ? `artwork, ${one.to ?? ''}`
            : `start-up, ${one.to ?? ''}`;
      const ends = { atRate: 'at rate after', replaced: 'replaced after', goesOn: 'goes on since' }[one.ends];
      const lost = one.lost === undefined ? '' : `, ${count(one.lost)} cartons`;
      return `**${moment(one.at, report)} ${what}**, ${ends} ${past(one.lasted)}${lost}.`;
    },
    more: (n: number) => (n > 0 ? `And ${count(n)} more.` : ''),
  },
  unseen: {
    title: 'Not seen',
    none: 'Seen for all of it.',
    one: ({ from, to }: Report['unseen'][number], report: Report) =>
      `${moment(from, report)} for ${past(to - from)}`,
    more: (n: number) => (n > 0 ? `; and ${count(n)} shorter ${many(n, 'time', 'times')}` : ''),
    means: 'What the PLC counted in it is counted; how the time was used is not known, and is in no figure.',
  },
  notes: {
    title: (n: number) =>
      n === 0 ? 'To hand over' : `To hand over, ${count(n)} ${many(n, 'note', 'notes')}`,
    one: ({ at: time, words, by, about }: Report['notes'][number], report: Report) =>
      `${moment(time, report)} ${by}${about === undefined ? '' : `, about ${dated(about, undefined, report.zone)}`}: ${words}`,
    more: (n: number) => (n > 0 ? `And ${count(n)} earlier ${many(n, 'one', 'ones')}.` : ''),
    handed: ({ order, counted, handedOver }: Report['handedOver'][number]) =>
      counted === undefined
        ? `Order ${order}: ${count(handedOver)} handed over.`
        : `Order ${order}: ${count(handedOver)} handed over, ${count(counted)} counted, ${handedOver - counted > 0 ? '+' : ''}${count(handedOver - counted)}.`,
    write: 'room to write',
  },
  figures: {
    title: 'Key figures, and how they are made',
    ids: [
      'availability',
      'effectiveness',
      'qualityRatio',
      'oee',
      'nee',
      'setupRate',
      'mtbf',
      'mttr',
      'throughput',
      'rejectsPerThousand',
    ] as readonly FigureId[],
  },
  signed: signedWords,
  foot: (report: Report) =>
    `Made ${dayOfYear(report.made, report.zone, locale)}, ${exactly(report.made, report.zone)}, from the tape up to ${count(report.position)}, model ${report.model}.`,
  brand: 'Scoreline',
  print: 'Print, or save as PDF',
  export: 'Report as a file',
  nothing: {
    what: (kind: ReportKind) => `There is no such ${kind}.`,
    why: 'No shift of the line’s calendar has a part in it, or no order or size of this name ran.',
    mend: 'Choose another moment, order or size.',
  },
  refused: signingRefused,
  more: listed,
  file: (line: string, kind: ReportKind, date: string) => `${line}-${kind}-report-${date}.csv`,
  rows: reportFileWords,
  paper: reportPaperWords,
} as const;

const figuresCut: Readonly<Record<StripCut['kind'], string>> = {
  producing: '',
  stopped: 'stopped',
  starved: 'starved',
  blocked: 'blocked',
  changeover: 'changeover',
  safety: 'safety stop',
  plannedPause: 'pause',
  pauseOver: 'pause over',
  isolated: 'stood, inferred from counters',
  unknown: 'not seen',
};
