import type { FigureId } from '../figures/figures.ts';
import { type FigureWords, iso } from './english-figures-output.ts';

/** Stops, stations, stop devices, changeovers, the balance and how far it is seen, in words. */
export const happeningFigures = {
  stops: {
    name: 'stops',
    what: 'How often the line left production. A stop over a shift’s end counts in the shift in which it began.',
    how: 'counted by their beginning; the pace-setting machine left production',
  },
  ownStops: {
    name: 'stops of its own',
    what: 'Stops by the machine itself, or that nobody explained. A re-jam is one with the stop before it.',
    how: 'stops that are no changeover, no pause, not starved, not blocked and not by a stop device; the first try of each',
  },
  minorStops: {
    name: 'minor stops',
    what: 'Stops of its own that were shorter than the limit.',
    how: 'stops of its own shorter than the minor-stop limit of the line’s file (10 minutes unless set; a common threshold)',
  },
  stood: {
    name: 'stood',
    what: 'How long the line was out of production.',
    how: 'from leaving production to returning to it, as far as it was seen',
  },
  outputPause: {
    name: 'output pause',
    what: 'How long no good carton came. It is longer than the stop: the machine has to fill again.',
    how: 'from the last good carton before the stop to the first one after it',
  },
  firstFaultAfter: {
    name: 'after the first fault',
    what: 'What the first fault set off, and how much later.',
    how: 'by the PLC’s stamps; closer together than the PLC is sampled, the order is not certain',
  },
  tries: {
    name: 'tries',
    what: 'How often the same trouble stopped the line before it was gone.',
    how: 'stops at the same station within so many cartons after a restart (10 unless set) are one with the first',
  },
  ordinaryStops: {
    name: 'ordinary',
    what: 'What as long a stretch usually has of it.',
    how: 'the middle one of the last eight as long stretches before; not shown where there are fewer than three, or it is longer than a week',
  },
  failures: {
    name: 'failures',
    what: 'Stops of its own that lasted as long as a minor stop may, or longer.',
    how: 'stops of its own that were seen to end − minor stops among them',
    source: iso('failure event, FE'),
  },
  mtbf: {
    name: 'MTBF',
    what: 'Mean time between failures. Without a failure it is not a number: then it is “no failure in T”, and what it exceeds with 95 %.',
    how: 'processing time ÷ failures; two-sided 95 % bounds by chi-square, if failures come at a steady rate (NIST e-Handbook 8.4.5.1)',
    source: iso('mean time between failures; divided by the failures, as text books do'),
  },
  mtbfOneMore: {
    name: 'MTBF by FE + 1',
    what: 'The same time, divided by one more than the failures, as the formula of the standard has it.',
    how: 'processing time ÷ (failures + 1)',
    source: iso('mean time between failures; the divisor is from memory'),
  },
  mttr: {
    name: 'MTTR',
    what: 'Mean time to restoration: how long a failure lasted.',
    how: 'what the failures lasted, added up ÷ failures',
    source: iso('mean time to restoration'),
  },

  recentRejects: {
    name: 'rejects of late',
    what: 'Rejects charged to the station among the newest cartons.',
    how: 'counted among the last 1,000 cartons of the run, or all of it',
  },
  normalRejects: {
    name: 'its normal',
    what: 'How many rejects as many cartons of this size have brought at this station so far.',
    how: 'its rejects with this size before ÷ cartons before × cartons looked at',
  },
  rejectLimit: {
    name: 'limit',
    what: 'More than this would come by chance too seldom.',
    how: 'exact tail of the beta-binomial with the station’s own past with this size; how seldom stands beside it',
  },
  adjustmentReading: {
    name: 'reading of an adjustment',
    what: 'Where a numbered adjustment stands.',
    how: 'as its encoder says; without one, nobody knows until the scale is read',
  },

  presses: {
    name: 'uses of a stop device',
    what: 'How often it was pressed. A press is never an error and never a cost.',
    how: 'each time its contact opened; and what its counted twin counted beyond that',
  },
  causedStops: {
    name: 'safety stops',
    what: 'Stops that a press caused: the line still produced when it was pressed.',
    how: 'presses whose moment lies before the stop’s; closer together than is certain, the first-out word decides, or the order is “not certain”',
  },
  held: {
    name: 'held',
    what: 'How long the device stayed pressed.',
    how: 'from pressed to released',
  },
  untilReset: {
    name: 'until reset',
    what: 'How long until the machine was reset after a press.',
    how: 'from pressed to the state that follows a reset',
  },
  untilRestart: {
    name: 'until restarted',
    what: 'How long until the line produced again after a press.',
    how: 'from pressed to the return to production',
  },
  untilFirstGood: {
    name: 'until the first good carton',
    what: 'How long until a good carton came again after a press.',
    how: 'from pressed to the first good carton after the restart',
  },
  standstillSeen: {
    name: 'time to standstill, as seen',
    what: 'How long after a press the line still moved. Indicative only: it is no measurement of a stopping time.',
    how: 'from pressed to the last cycle counted after it',
  },
  ranOn: {
    name: 'ran while it read open or pressed',
    what: 'How long the line produced while a guard read open or a stop device read pressed, and no signal explained it.',
    how: 'time in production with that reading, added up; more than 2 s is told at once',
  },
  sinceOperated: {
    name: 'last operated',
    what: 'How long ago the device was last pressed, or last pressed while the line ran.',
    how: 'from that press until now',
  },
  sinceTested: {
    name: 'last test recorded',
    what: 'How long ago a person recorded a test of it.',
    how: 'from that entry until now; a test that nobody entered is not known here',
  },

  changeoverTime: {
    name: 'changeover time',
    what: 'From the old size’s production to the new one at rate.',
    how: 'from leaving production to the good carton that completes the wanted share of the target over the wanted minutes; hours between shifts are left out',
  },
  changeoverPhase: {
    name: 'phase of a changeover',
    what: 'How long setting, trial and run-up took.',
    how: 'setting: until cartons are made in set-up mode; trial: until production is back; run-up: until at rate',
  },
  changeoverLost: {
    name: 'lost to a changeover',
    what: 'Cartons that would have been made without it.',
    how: 'target × time until at rate − good cartons made meanwhile',
  },
  goodSinceBegin: {
    name: 'good cartons since it began',
    what: 'How a changeover came up to its rate, against earlier ones of its pair.',
    how: 'good cartons counted in production, by the minute since the beginning',
  },

  picked: {
    name: 'blanks picked',
    what: 'Blanks that left the magazine, in any mode.',
    how: 'what the PLC’s counter of blanks gained',
  },
  inPockets: {
    name: 'in pockets',
    what: 'Cartons that lie between pick and discharge.',
    how: 'blanks picked into pockets that have not yet come to the discharge check, pocket by pocket with each machine cycle, less what was cleared from them',
  },
  takenOut: {
    name: 'taken out',
    what: 'Samples and cartons taken out by hand, less cartons brought back.',
    how: 'as entered',
  },
  unaccounted: {
    name: 'unaccounted for',
    what: 'Blanks picked that became nothing that is known: often pockets emptied by hand. Below zero: more came than was picked.',
    how: 'blanks picked − good − rejects and empty cartons − crushed − in pockets − taken out, in any mode',
  },

  readingAge: {
    name: 'age of the reading',
    what: 'How long ago the newest value came from the PLC.',
    how: 'now − the newest moment at which the PLC was heard',
  },
  clockOffset: {
    name: 'offset of a server’s clock',
    what: 'How far the PLC’s clock is ahead of this computer’s, or behind it.',
    how: 'the stamp of what arrives − when it arrived, the least over a while',
  },
  samplingGranted: {
    name: 'sampling and queue',
    what: 'How often the server looks at the value, and how many it keeps.',
    how: 'as the server revised what was asked of it',
  },
  signalValue: {
    name: 'value of a signal',
    what: 'What the tag shows, and since when.',
    how: 'as the server gave it, with its status and stamp',
  },
} as const satisfies Partial<Record<FigureId, FigureWords>>;
