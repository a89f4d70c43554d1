import type { FigureId } from '../figures/figures.ts';

/** What a person reads about one figure. */
export interface FigureWords {
  readonly name: string;
  /** What it answers. */
  readonly what: string;
  /** How it is worked out, in the names of what it is made of. */
  readonly how: string;
  /** Where its definition comes from; without one it is this program's own. */
  readonly source?: string;
}

const ISO =
  'named as in ISO 22400-2; formula as in a public transcription of its 2011 draft and in OPC 40501-1 Annex C.2, the published text was not read';
export const iso = (name: string) => `${name}, ${ISO}`;

/** Cartons, plan, time and the key figures made of them, in words. */
export const outputFigures = {
  good: {
    name: 'good cartons',
    what: 'Cartons that passed the discharge check in production. Trial cartons are not among them.',
    how: 'what the PLC’s counter of good cartons gained while its mode was produce; what it gained in a gap is counted as well, and is uncertain in time',
    source: iso('good quantity, GQ'),
  },
  rejected: {
    name: 'rejects',
    what: 'Cartons that the discharge check put out. An empty carton and a missed pick are no rejects.',
    how: 'what the PLC’s reject counters gained in production, those that mean “not loaded” left out; at a station: those of the reasons that the line’s file charges to it',
    source: iso('a part of the scrap quantity, SQ'),
  },
  crushed: {
    name: 'crushed cartons',
    what: 'Cartons taken out of the pockets by hand when a jam was cleared. They are a kind of their own.',
    how: 'what the PLC’s counters of cleared cartons gained in production',
    source: iso('a part of the scrap quantity, SQ'),
  },
  notLoaded: {
    name: 'cartons not loaded',
    what: 'Cartons that came to the discharge check empty. They are charged to loading, and are no rejects.',
    how: 'what the reject counters that mean “not loaded” gained; without one, what the loading positions counted',
  },
  missedPick: {
    name: 'missed picks',
    what: 'Pockets that no blank was put into. There is no carton, so it is no reject.',
    how: 'what the PLC’s counter of missed picks gained',
  },
  produced: {
    name: 'produced quantity',
    what: 'Cartons that were made, whatever became of them. Each is counted once.',
    how: 'good + rejects + crushed',
    source: iso('produced quantity, PQ'),
  },
  trial: {
    name: 'trial cartons',
    what: 'Good cartons made in set-up mode. They are in no other figure.',
    how: 'what the counter of good cartons gained while the mode was set-up',
  },
  presented: {
    name: 'cartons that came to the station',
    what: 'Cartons that passed the station in production, good or not.',
    how: 'what the station’s own counter gained',
  },
  goodSeen: {
    name: 'good cartons in seen time',
    what: 'Good cartons that came in shifts and in time that was seen. Ratios with time are made of these.',
    how: 'good − good cartons counted in gaps − good cartons between shifts',
  },
  producedSeen: {
    name: 'produced in seen time',
    what: 'Cartons made in shifts and in time that was seen, whatever became of them.',
    how: 'produced quantity, without what was counted in gaps or between shifts',
    source: iso('produced quantity, PQ, of the time that its times are of'),
  },
  goodNotSeen: {
    name: 'good cartons counted in gaps',
    what: 'Good cartons that the PLC counted while nobody was looking. They are good cartons, and in no ratio with time.',
    how: 'what the counter had gained when it was read again',
  },
  goodOutside: {
    name: 'good cartons between shifts',
    what: 'Good cartons that came outside the calendar’s shifts. They are good cartons, and in no ratio with time.',
    how: 'what the counter gained between shifts',
  },
  qualityRatio: {
    name: 'quality ratio',
    what: 'The share of the cartons made that were good.',
    how: 'good cartons ÷ produced quantity, both of seen time in shifts',
    source: iso('quality ratio'),
  },
  scrapRatio: {
    name: 'scrap ratio',
    what: 'The share of the cartons made that were not good: rejects and crushed ones.',
    how: '(produced quantity − good cartons) ÷ produced quantity, both of seen time in shifts',
    source: iso('scrap ratio'),
  },
  fallOffRatio: {
    name: 'fall-off ratio',
    what: 'The share of rejects, of the cartons that the first station let in.',
    how: 'rejects, of one station or of the whole line, ÷ cartons at the first station that counts; the range holds the true share with 95 %, exact (Clopper and Pearson 1934)',
    source: iso('fall-off ratio'),
  },
  rejectsPerThousand: {
    name: 'rejects in 1,000',
    what: 'How many of 1,000 cartons made were rejected.',
    how: 'rejects ÷ produced quantity × 1,000; the range holds the true rate with 95 %, exact (Clopper and Pearson 1934)',
  },
  target: {
    name: 'target',
    what: 'Good cartons a minute that are wanted of this size with this crew at loading.',
    how: 'from the line’s file, by size and by how many people load; how many do is entered, or a tag says it',
  },
  possible: {
    name: 'possible',
    what: 'What there would be if every planned minute had run at target.',
    how: 'target × planned time so far, at each moment with the size and crew of then; planned time is shift time less planned pauses as they were taken, up to their allowance',
  },
  planned: {
    name: 'planned so far',
    what: 'What the plan asks for by now.',
    how: 'possible × the share that the line’s file plans with (1 unless set), and no more than is planned for the shift',
  },
  behindPlan: {
    name: 'behind or ahead of plan',
    what: 'How many cartons are missing from the plan, or are beyond it.',
    how: 'planned so far − good',
  },
  lost: {
    name: 'cartons lost',
    what: 'What could have been made and was not. The parts by station and cause add up to it without a rest.',
    how: 'possible − good',
  },
  lostToStop: {
    name: 'cartons lost to a stop',
    what: 'What could have been made between the last good carton before a stop and the first one after it.',
    how: 'target × output pause, less the cartons that were counted in it, good or not, the first good one among them; where one stop follows another before a good carton, each pays from its own beginning to that of the next, and a planned pause pays nothing within its allowance',
  },
  lostByCause: {
    name: 'cartons lost, by cause',
    what: 'The same loss, by what it was lost to. Each moment between two good cartons is charged to one payer, and each carton lost for a reason of its own to that reason.',
    how: 'stopped and pauses: their output pause × target; slow: what running below target cost; not loaded, missed pick, reject, crushed: counted; changeover: from its beginning until at rate; not seen: what could have been made in gaps, less what was counted in them',
  },
  finish: {
    name: 'likely at the end',
    what: 'How many good cartons will be missing from the shift’s plan at its end, or be beyond it, if it goes on as it went.',
    how: 'planned for the shift − good − what the planned time still to come will bring at the mean of the last ten-minute blocks, eighteen at most and six at least: stops are in them; pauses, changeovers and time not seen are left out. The range holds 90 %, by how the blocks differed; all in tens. It is not told while a stop device is latched or nobody looks',
  },
  needed: {
    name: 'needed a minute',
    what: 'The rate that would still meet the plan.',
    how: '(planned for the shift − good) ÷ planned time still to come; told where the likely finish is told',
  },
  rate: {
    name: 'rate',
    what: 'Good cartons of the last minute.',
    how: 'good cartons counted in the last 60 seconds; stops are in it; it is not told while the count is not seen',
  },
  runningRate: {
    name: 'good a minute, while running',
    what: 'How fast it ran when it ran.',
    how: 'good cartons in seen time ÷ actual production time',
  },
  lastMinute: {
    name: 'the last minute, pocket by pocket',
    what: 'What came at each pocket: good, rejected, not loaded, no blank.',
    how: 'one mark for each count of the PLC in the last 60 seconds, in the order of its stamps, as many places as the target asks for',
  },
  orderLeft: {
    name: 'left of the order',
    what: 'Cartons that the order still needs.',
    how: 'its quantity − good cartons counted since it began',
  },
  handedOver: {
    name: 'handed over',
    what: 'Cartons of an order as people counted them at its end.',
    how: 'as entered',
  },
  handedOverDifference: {
    name: 'handed over less counted',
    what: 'By how much people and the PLC differ about an order. It changes no other figure.',
    how: 'handed over − good cartons of the order',
  },

  plannedOperationTime: {
    name: 'planned operation time',
    what: 'Time in shifts. A shift in which the clocks change is as long as it was.',
    how: 'the shifts of the calendar in the line’s file, from moment to moment in the line’s time zone',
    source: iso('planned operation time, POT'),
  },
  plannedDownTime: {
    name: 'planned down time',
    what: 'Planned pauses, as they were really taken, up to their allowance.',
    how: 'stops that were such a pause, each up to the allowance of its window',
    source: iso('planned down time'),
  },
  notSeen: {
    name: 'not seen',
    what: 'Time in shifts in which nobody was looking. It is in no other time, and never counts as running.',
    how: 'gaps: the link was lost, a value was bad, the heartbeat stood still, values were dropped, or there are no records yet',
  },
  isolated: {
    name: 'isolated',
    what: 'Time in which nothing was heard and the line stood, as its counters show; often the PLC is off while the line is locked out.',
    how: 'gaps that began inside a stop and ended with the machine not producing and the counter of cycles unchanged',
  },
  plannedBusyTime: {
    name: 'planned busy time',
    what: 'Time in which orders could be made, as far as it was seen.',
    how: 'planned operation time − planned down time − not seen',
    source: iso('planned busy time, PBT; that unseen time is left out of it is this program’s own'),
  },
  actualProductionTime: {
    name: 'actual production time',
    what: 'Time in which the line produced.',
    how: 'the pace-setting machine in Execute and in mode produce, in shifts, as far as it was seen',
    source: iso('actual production time, APT'),
  },
  setupTime: {
    name: 'set-up time',
    what: 'Time that changeovers took until production was back.',
    how: 'stops that belong to a changeover, in shifts',
    source: iso('actual unit set-up time, AUST'),
  },
  delayTime: {
    name: 'delay time',
    what: 'Time lost to stops that came neither from outside nor by plan: by faults, people or stop devices; and time it stood isolated.',
    how: 'stops of the machine, stops by people, stops nobody explained, stops that a press caused, isolated time; in shifts',
    source: iso('actual unit delay time, ADET'),
  },
  downTime: {
    name: 'down time',
    what: 'Time in which the line could have run and was not let: starved, blocked, pauses beyond their allowance.',
    how: 'stops of those kinds, in shifts',
    source: iso('actual unit down time, ADOT'),
  },
  processingTime: {
    name: 'processing time',
    what: 'Producing and being set up.',
    how: 'actual production time + set-up time',
    source: iso('actual unit processing time, AUPT'),
  },
  busyTime: {
    name: 'busy time',
    what: 'All time that the orders took: producing, set-up and delay.',
    how: 'processing time + delay time',
    source: iso('actual unit busy time, AUBT'),
  },
  coverage: {
    name: 'seen',
    what: 'The share of the time in shifts in which the line was really observed.',
    how: '1 − not seen ÷ planned operation time; isolated time counts as seen, by counters',
  },

  idealRate: {
    name: 'ideal rate',
    what: 'Cartons a minute that the machine is built for, by size. Effectiveness is measured by it, plans are not.',
    how: 'from the line’s file; a size without one takes its highest target',
    source: iso('the inverse of the planned run time per item, PRI'),
  },
  idealTime: {
    name: 'time at the ideal rate',
    what: 'What the cartons made would have taken at the ideal rate of their sizes.',
    how: 'produced in seen time ÷ ideal rate, size by size',
    source: iso('PRI × PQ'),
  },
  paceTime: {
    name: 'slower or faster than ideal',
    what: 'How much longer it produced than the cartons would have taken at the ideal rate; where it ran faster, how much shorter.',
    how: 'actual production time − time at the ideal rate',
  },
  spoiledTime: {
    name: 'time of spoiled cartons',
    what: 'What the cartons that were not good would have taken at the ideal rate.',
    how: 'time at the ideal rate − that of the good cartons',
  },
  goodTime: {
    name: 'time of good cartons',
    what: 'What the good cartons would have taken at the ideal rate. Over the planned busy time it is the OEE index.',
    how: 'time at the ideal rate × quality ratio',
  },
  availability: {
    name: 'availability',
    what: 'The share of the planned busy time in which it produced. Set-up is a loss in it.',
    how: 'actual production time ÷ planned busy time',
    source: iso('availability'),
  },
  effectiveness: {
    name: 'effectiveness',
    what: 'How fast it ran against the ideal rate. It is not cut off at 100 %: more means that the ideal rate is set too low.',
    how: 'time at the ideal rate ÷ actual production time',
    source: iso('effectiveness'),
  },
  oee: {
    name: 'OEE index',
    what: 'The share of the planned busy time that went into good cartons at the ideal rate. Set-up is a loss in it; in NEE it is not.',
    how: 'availability × effectiveness × quality ratio; over several periods from their added times and cartons, never from their ratios',
    source: iso('overall equipment effectiveness index'),
  },
  nee: {
    name: 'NEE index',
    what: 'As OEE, but set-up counts as time well used.',
    how: 'processing time ÷ planned busy time × effectiveness × quality ratio',
    source: iso('net equipment effectiveness index'),
  },
  technicalEfficiency: {
    name: 'technical efficiency',
    what: 'Of producing and delay together, the share that was producing: what the machine itself costs.',
    how: 'actual production time ÷ (actual production time + delay time)',
    source: iso('technical efficiency'),
  },
  allocationEfficiency: {
    name: 'allocation efficiency',
    what: 'The share of the planned busy time in which orders were on the line.',
    how: 'busy time ÷ planned busy time',
    source: iso('allocation efficiency'),
  },
  utilizationEfficiency: {
    name: 'utilization efficiency',
    what: 'The share of the busy time in which it produced.',
    how: 'actual production time ÷ busy time',
    source: iso('utilization efficiency'),
  },
  setupRate: {
    name: 'set-up rate',
    what: 'The share of the processing time that went into set-up.',
    how: 'set-up time ÷ processing time',
    source: iso('set-up rate'),
  },
  throughput: {
    name: 'throughput rate',
    what: 'Cartons made a minute over all the time that the orders took.',
    how: 'produced in seen time ÷ busy time; busy time stands for the orders’ execution time, as transport and queues are not seen here',
    source: iso('throughput rate'),
  },
} as const satisfies Partial<Record<FigureId, FigureWords>>;
