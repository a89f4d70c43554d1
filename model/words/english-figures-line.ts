import type { FigureId } from '../figures/figures.ts';
import type { FigureWords } from './english-figures-output.ts';

/** What the Line screen and the panels count beside output and stops: crew, orders, the calendar; in words. */
export const lineFigures = {
  shiftPlan: {
    name: 'planned for the shift',
    what: 'What the plan asks for by the shift’s end.',
    how: '(possible so far + target × planned time still to come) × the share that the line’s file plans with (1 unless set); where an order has less left to make and no other waits: good cartons of the shift + what is left of the order',
  },
  lostByStation: {
    name: 'cartons lost, by station',
    what: 'The same loss, by where it arose. What belongs to no one station stands apart: slow running, changeovers, pauses over, stops by people or stop devices, time not seen.',
    how: 'a stop is charged to the station of its first fault; a reject, an empty carton, a missed pick and a crushed one to their own station; whole cartons by largest remainder, so that they add up to the loss',
  },
  minuteRunning: {
    name: 'good a minute, of late',
    what: 'How fast it ran in the last minute, the time left out in which it stood.',
    how: 'good cartons of the last 60 seconds ÷ the part of them in which it did not stand; not told where that is under 10 seconds, or not seen',
  },
  minuteBefore: {
    name: 'the minute before the stop',
    what: 'Good cartons in the minute before the line left production.',
    how: 'good cartons counted in the 60 seconds before the beginning of the stop',
  },
  crew: {
    name: 'crew at loading',
    what: 'How many people load. The target depends on it.',
    how: 'as entered last, or as a tag says; until somebody says, the usual crew of the line’s file',
  },
  orderGood: {
    name: 'good cartons of the order',
    what: 'Good cartons made since the order began; they may be of more than one shift.',
    how: 'what the counter of good cartons gained in production while the order ran',
  },
  orderQuantity: {
    name: 'quantity of the order',
    what: 'How many cartons are ordered.',
    how: 'as the list of orders says, or whoever entered it',
  },
  cases: {
    name: 'full cases',
    what: 'How many cases the order’s good cartons fill.',
    how: 'good cartons of the order ÷ cartons in a case, the whole part',
  },
  perCase: {
    name: 'cartons in a case',
    what: 'How many cartons of this size a case holds.',
    how: 'from the line’s file',
  },
  notLoadedHere: {
    name: 'pockets not loaded here',
    what: 'Pockets that passed this loading position and got nothing from it: of the last hundred, and of the shift. It is never set beside another position’s.',
    how: 'what the position’s own counter of pockets not loaded gained; the last hundred are fewer after a start',
  },
  untilPause: {
    name: 'until the next pause',
    what: 'How long until the next planned pause may be taken.',
    how: 'the beginning of its window in the calendar − now, in whole minutes; “due” once it is there. A pause of which more than half was taken is over',
  },
  pauseAllowance: {
    name: 'length of a pause',
    what: 'How long a planned pause may last before it costs cartons; what was taken of it already is off.',
    how: 'the allowance of its window in the calendar − what was taken of it in this shift',
  },
  pauseOver: {
    name: 'over the pause',
    what: 'How long a planned pause has gone on beyond its allowance.',
    how: 'now − (the beginning of the pause + what was left of its allowance)',
  },
  untilShiftEnd: {
    name: 'until the shift’s end',
    what: 'How long the shift still lasts.',
    how: 'the shift’s end in the calendar − now, in whole minutes',
  },
  sinceStop: {
    name: 'without a stop',
    what: 'How long the line has produced without leaving production.',
    how: 'now − the last return to production',
  },
  shortStops: {
    name: 'short stops of the shift',
    what: 'Stops of this shift that are over and were shorter than a minor stop may be, whoever caused them.',
    how: 'stops that began in the shift and ended, shorter than the minor-stop limit; planned pauses and changeovers are none',
  },
  together: {
    name: 'how often of late',
    what: 'Which stop it is at this station within twenty minutes, and in what time they all lie.',
    how: 'stops with their first fault at the same station that began no more than twenty minutes before this one, and itself; the time is from the first of them, rounded up to whole minutes',
  },
  gap: {
    name: 'time without sight',
    what: 'How long nobody was looking: a single stretch of it.',
    how: 'from the last moment that was seen to the first one that was seen again, or until now',
  },
  seenOf: {
    name: 'looked at',
    what: 'How long the time is that a screen tells of, and how much of it was not seen.',
    how: 'from its beginning to its end, or until now; not seen is what gaps lie in it, and what lies before the first record',
  },
  counterMarks: {
    name: 'marks of counters',
    what: 'How often a counter did what counters do not: it began again, was set, jumped or went back.',
    how: 'counted this shift; a step larger than the machine can make in the time is such a mark, and so is any step back that is no roll-over',
  },
} as const satisfies Partial<Record<FigureId, FigureWords>>;
