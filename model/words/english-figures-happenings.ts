import type { FigureId } from '../figures/figures.ts';
import { type FigureWords, iso } from './english-figures-output.ts';

/** Stops, stations, stop devices, changeovers, the balance and how far it is seen, in words. */
export const happeningFigures = {
  stops: {
    name: 'stops',
    what: 'How often the line left production, planned pauses and changeovers left out. A stop over a shift’s end counts in the shift in which it began.',
    how: 'counted by their beginning, when the pace-setting machine left production; a list of stops has those too that began before its time and reach into it',
  },
  ownStops: {
    name: 'stops of its own',
    what: 'Stops by the machine itself, or that nobody explained. A re-jam is one with the stop before it.',
    how: 'stops by a fault of the machine, or without a reason in the PLC; not those that people began, starved, blocked, by a stop device, pauses or changeovers; the first try of each',
  },
  minorStops: {
    name: 'minor stops',
    what: 'Stops of its own that were shorter than the limit.',
    how: 'stops of its own that ended, shorter than the minor-stop limit',
  },
  stood: {
    name: 'stood',
    what: 'How long the line was out of production.',
    how: 'from leaving production to returning to it; one whose end was not seen, until nobody looked any more; of many, what lies in the time that is looked at, added up',
  },
  outputPause: {
    name: 'output pause',
    what: 'How long no good carton came. It is longer than the stop: the machine has to fill again.',
    how: 'from the last good carton before the stop to the first one after it',
  },
  minorLimit: {
    name: 'minor-stop limit',
    what: 'A stop shorter than this is a minor one.',
    how: 'from the line’s file; 10 minutes unless set, a common threshold',
  },
  unexplained: {
    name: 'stops without a reason',
    what: 'Stops that neither the PLC nor a person explains.',
    how: 'stops without a first fault, or with one that only says that a person stopped it, and without an answer; those longer than the asking limit (20 s unless set) are asked about',
  },
  reasonsFrom: {
    name: 'where reasons come from',
    what: 'How many stops have a first fault in the PLC, how many an answer of a person, and how many neither.',
    how: 'each stop once: by the PLC where it says more than that a person stopped it, else by an answer, else nobody',
  },
  firstFaultAfter: {
    name: 'from the first fault',
    what: 'How much later than the first fault, or earlier, something happened; without a first fault, than the press.',
    how: 'by the PLC’s stamps; closer together than the PLC is sampled, the order is not certain',
  },
  afterStopBegan: {
    name: 'after the stop began',
    what: 'How long after its beginning something came with a stop: its first fault, what that set off, a press, a guard.',
    how: 'by the PLC’s stamps, from the moment it left production; below zero, it came before',
  },
  tries: {
    name: 'tries',
    what: 'How often the same trouble stopped the line before it was gone.',
    how: 'faults at the station of the stop before, no more than so many cartons after the restart (10 unless set)',
  },
  ordinaryStops: {
    name: 'ordinary',
    what: 'What as long a stretch usually has of it.',
    how: 'the middle one of the last eight as long stretches before, of an even number the later of the two; not shown where there are fewer than three, or the stretch is longer than eight days',
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
    what: 'How many rejects as many cartons of this size have brought at this station before.',
    how: 'its rejects with this size before ÷ cartons before × cartons looked at: on the Line screen all cartons before those that are looked at, in the trend those of earlier runs; told from 3,000 cartons on',
  },
  rejectLimit: {
    name: 'line of a batch',
    what: 'More rejects than this in a single batch are seldom. It is no verdict: what is outside is said of all of a run.',
    how: 'levels that earlier runs of the size make likely, as in the rules, with how far parts of a run were from its level and how unevenly rejects came; how seldom a batch lay above it in simulated shifts in order stands beside it; below 3 earlier runs or 3,000 cartons there is none',
  },
  adjustmentReading: {
    name: 'reading of an adjustment',
    what: 'Where a numbered adjustment stands.',
    how: 'as its sensor reads; without one, as people entered it last, and else nobody knows until the scale is read',
  },

  presses: {
    name: 'uses of a stop device',
    what: 'How often it was pressed. A press is never an error and never a cost.',
    how: 'each time it was read pressed; what its counted twin counted beyond that; and what read pressed when looking began',
  },
  guardStops: {
    name: 'stops by a guard',
    what: 'Stops that began because a guard was opened, with no press of a stop device.',
    how: 'stops of the safety kind, by their beginning, that no press caused',
  },
  causedStops: {
    name: 'safety stops',
    what: 'Stops that a press caused: the line still produced when it was pressed.',
    how: 'presses whose moment lies before the stop’s, and of a guard the openings; closer together than is certain, the first-out word decides, or the order is “not certain”',
  },
  held: {
    name: 'held',
    what: 'How long the device stayed pressed.',
    how: 'from pressed to released',
  },
  untilReset: {
    name: 'until reset',
    what: 'How long until the machine was reset after a press.',
    how: 'from pressed to the machine’s state of clearing or resetting, after it was released',
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
    how: 'from pressed to the last cycle counted within 15 seconds after it, while it stayed pressed; of the newest press in this time that stopped a machine that ran; beside it how long a cycle took before',
  },
  ranOn: {
    name: 'ran while it read open or pressed',
    what: 'How long the line produced while a guard read open or a stop device read pressed, and no signal explained it.',
    how: 'time in production with that reading, added up; more than 2 s is told at once',
  },
  usedDuring: {
    name: 'used during a stop',
    what: 'Uses of a stop device or a guard in a stop that something else had begun.',
    how: 'presses and openings whose moment lies after the stop’s beginning, by more than is uncertain, or whose stop has another first-out word',
  },
  orderUncertain: {
    name: 'order not certain',
    what: 'Uses of which nobody can say whether they came before the stop or after it.',
    how: 'moments closer together than the PLC is sampled and no first-out word; and uses whose moment nobody saw',
  },
  noStopCame: {
    name: 'no stop came',
    what: 'Uses with which no stop came, though the line ran.',
    how: 'presses and openings in production without a stop of theirs',
  },
  beforeUse: {
    name: 'before the use',
    what: 'What came before a use of a stop device or a guard, and how long before it.',
    how: 'of a use in a stop, the beginning of that stop; else the newest restart, press or opening of the minute before; by the PLC’s stamps',
  },
  cameBefore: {
    name: 'what came before the uses',
    what: 'How many uses had this before them. It came before; whether it was the cause nobody says.',
    how: 'the stop in which it was used; else what the minute before holds: a restart, another device or guard',
  },
  middleFirstGood: {
    name: 'middle time to the first good carton',
    what: 'What the middle one of the presses took until a good carton came, and of how many that is known.',
    how: 'the presses whose moment and whose first good carton were seen, by length, and the middle one of them; of an even number the shorter of the two',
  },
  findings: {
    name: 'findings',
    what: 'How often a guard read open, or a stop device read pressed, while the line ran: those that wait for a person, those that people closed, those that were explained.',
    how: 'each stretch of such a reading in which the line ran for more than 2 s is a finding until a person closes it; shorter ones, and those that an enabling signal explains, are counted apart',
  },
  lastOperated: {
    name: 'last operated',
    what: 'When a stop device was last pressed or a guard last opened; and when it last was so while the line ran.',
    how: 'the newest of its uses; of those while the line ran, one in a stop does not count; not certain where nobody saw the moment',
  },
  lastTested: {
    name: 'last test recorded',
    what: 'When a person last recorded a test of it, how it was tested, and the person’s number.',
    how: 'as entered; a test that nobody entered is not known here',
  },

  changeovers: {
    name: 'changeovers',
    what: 'Changeovers of size, of blend, and start-ups.',
    how: 'those that have a part in the time that is looked at',
  },
  sinceChangeover: {
    name: 'since the changeover',
    what: 'How long ago the last changeover was over; while one goes on, how long it has gone on.',
    how: 'now − the moment at which it was at rate, or its beginning while it goes on',
  },
  changeoverTime: {
    name: 'changeover time',
    what: 'From the old size’s production to the new one at rate.',
    how: 'from leaving production to the good carton that completes the wanted share of the target over the wanted minutes; looking back, time outside shifts and planned pauses within their allowance are left out, while the Line screen shows all the time that passed',
  },
  changeoverFirstGood: {
    name: 'first good carton of a changeover',
    what: 'How long from the beginning of a changeover until a good carton came in production.',
    how: 'from leaving production to the first good carton after production was back; time outside shifts and planned pauses are left out',
  },
  changeoverPhase: {
    name: 'phase of a changeover',
    what: 'How long setting, trial and run-up took.',
    how: 'setting: until the machine first runs in another mode than produce; trial: until production is back; run-up: until at rate; time outside shifts and planned pauses are left out',
  },
  changeoverLost: {
    name: 'lost to a changeover',
    what: 'Cartons that would have been made without it.',
    how: 'target of the new size with its crew × time until at rate − good cartons made meanwhile, both without time outside shifts, planned pauses and time not seen',
  },
  goodSinceBegin: {
    name: 'good cartons since it began',
    what: 'How a changeover came up to its rate, against earlier ones of its pair.',
    how: 'good cartons counted in production, by the minute since the beginning',
  },
  changeoverParts: {
    name: 'lost to a changeover, by part',
    what: 'Where the cartons went: while it stood, to stops in the run-up, spoiled in it, and to running slower than the target. They add up to what it cost.',
    how: 'stood and stops: target × their time; spoiled: rejected, not loaded, missed or crushed in the run-up; slow: the rest, below zero where it ran faster',
  },
  runUpStops: {
    name: 'stops in the run-up',
    what: 'Stops between the return of production and at rate.',
    how: 'stops that began in the run-up of the changeover',
  },
  idleTime: {
    name: 'idle time of a changeover',
    what: 'What lies in a changeover and is in no length of it.',
    how: 'time outside every shift, and planned pauses within their allowance',
  },
  earlierChangeovers: {
    name: 'earlier changeovers',
    what: 'How many earlier ones it is compared with.',
    how: 'those of the same kind and, of sizes, the same pair that came to rate, the newest twenty',
  },
  usualChangeover: {
    name: 'usual length',
    what: 'What earlier changeovers of this kind and pair took: the middle one, and the shortest and longest of them.',
    how: 'the middle one by length, of an even number the longer of the two; told from three earlier ones on, beside an order from two on',
  },
  usualLost: {
    name: 'usual loss',
    what: 'What earlier changeovers of this kind and pair cost, part by part.',
    how: 'the middle one of each part, from three earlier ones on; the parts need not add up',
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

  signals: {
    name: 'signals',
    what: 'How many signals of the line are read, and how many of them are good, uncertain or without a value.',
    how: 'those that the line’s file names, by the status that the server gave last',
  },
  toMend: {
    name: 'to mend',
    what: 'How many signals have something that a person can mend.',
    how: 'no node of that name, a bad or uncertain status, nothing yet, a press that may be missed, no counted twin',
  },
  signalAge: {
    name: 'unchanged for',
    what: 'How long ago a value last came. A value that does not change is as good as before.',
    how: 'now − the stamp of the newest value',
  },
  clockSet: {
    name: 'set by',
    what: 'By how much somebody set a server’s clock while it was heard.',
    how: 'the step between its clock and ours; line time goes on as it was',
  },
  readingAge: {
    name: 'age of the reading',
    what: 'How long ago the newest value came from the PLC.',
    how: 'now − the newest moment at which the PLC was heard',
  },
  clockOffset: {
    name: 'offset of a server’s clock',
    what: 'How far the PLC’s clock is ahead of this computer’s, or behind it.',
    how: 'its clock as it was read last − ours then; where the stamps of values differ from that by more than 2 s, the middle one of the last nine: stamp − when it arrived',
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
