import { counted, derived, type FigureDefinition, lasted, learned, moment, time, times } from './define.ts';

/**
 * Every figure that a screen, a report, a file or the API shows, defined in one place: in what unit it is, how good it is,
 * which other figures and which records it is made of, and which rule of SPEC.md says so. What a person reads about it
 * stands in `words/english-figures.ts`, under the same id; what it comes to over a period, in `figureValues.ts`.
 */
export const FIGURES = {
  // cartons
  good: counted('CO1'),
  rejected: counted('LO4'),
  crushed: counted('LO4'),
  notLoaded: counted('LO6'),
  missedPick: counted('LO6'),
  produced: derived('cartons', ['good', 'rejected', 'crushed'], 'KP2'),
  trial: counted('CH3'),
  presented: counted('PR2'),
  goodSeen: derived('cartons', ['good', 'goodNotSeen', 'goodOutside'], 'KP2'),
  producedSeen: derived('cartons', ['produced'], 'KP2', ['counters', 'gaps', 'calendar']),
  goodNotSeen: { unit: 'cartons', kind: 'counted', from: [], records: ['counters', 'gaps'], rule: 'CO5' },
  goodOutside: { unit: 'cartons', kind: 'counted', from: [], records: ['counters', 'calendar'], rule: 'KP2' },
  qualityRatio: derived('share', ['goodSeen', 'producedSeen'], 'KP2'),
  scrapRatio: derived('share', ['goodSeen', 'producedSeen'], 'KP2'),
  fallOffRatio: { ...derived('share', ['rejected', 'presented'], 'KP2'), kind: 'estimate' },
  rejectsPerThousand: { ...derived('perThousand', ['rejected', 'produced'], 'KP2'), kind: 'estimate' },

  // plan and losses
  target: { unit: 'perMinute', kind: 'set', from: [], records: ['lineFile', 'entries'], rule: 'PL3' },
  possible: derived('cartons', ['target', 'plannedOperationTime', 'plannedDownTime'], 'LO1', ['calendar']),
  planned: derived('cartons', ['possible', 'shiftPlan'], 'PL1', ['lineFile']),
  shiftPlan: derived('cartons', ['possible', 'target', 'orderQuantity'], 'PL1', [
    'calendar',
    'orders',
    'lineFile',
  ]),
  behindPlan: derived('cartons', ['planned', 'good'], 'PL2'),
  lost: derived('cartons', ['possible', 'good'], 'LO2'),
  lostToStop: derived('cartons', ['target', 'outputPause'], 'LO3', ['stops', 'counters']),
  lostByCause: derived('cartons', ['lost'], 'LO3', ['stops', 'counters']),
  lostByStation: derived('cartons', ['lost', 'lostByCause'], 'LO5', ['stops', 'counters']),
  finish: {
    unit: 'cartons',
    kind: 'estimate',
    from: ['shiftPlan', 'good'],
    records: ['counters', 'calendar'],
    rule: 'PL2',
  },
  needed: derived('perMinute', ['shiftPlan', 'good'], 'PL1', ['calendar', 'orders']),
  rate: { unit: 'perMinute', kind: 'counted', from: ['good'], records: ['counters'], rule: 'CO1' },
  minuteRunning: derived('perMinute', ['rate'], 'CO1', ['counters', 'stops']),
  minuteBefore: {
    unit: 'perMinute',
    kind: 'counted',
    from: ['good'],
    records: ['counters', 'stops'],
    rule: 'CO1',
  },
  runningRate: derived('perMinute', ['goodSeen', 'actualProductionTime'], 'KP1'),
  lastMinute: counted('LO6', ['good', 'rejected', 'notLoaded', 'missedPick']),
  crew: { unit: 'times', kind: 'set', from: [], records: ['entries', 'signals'], rule: 'PL3' },
  orderGood: counted('OR1', ['good']),
  orderQuantity: { unit: 'cartons', kind: 'set', from: [], records: ['orders'], rule: 'OR1' },
  cases: derived('times', ['orderGood'], 'OR1', ['lineFile']),
  perCase: { unit: 'cartons', kind: 'set', from: [], records: ['lineFile'] },
  notLoadedHere: counted('LO6', ['notLoaded']),
  orderLeft: derived('cartons', ['good'], 'OR1', ['orders']),
  handedOver: { unit: 'cartons', kind: 'set', from: [], records: ['entries', 'orders'], rule: 'OR3' },
  handedOverDifference: derived('cartons', ['handedOver', 'good'], 'OR3', ['orders']),

  // time elements of ISO 22400-2
  plannedOperationTime: time('KP1', ['calendar']),
  plannedDownTime: time('KP1', ['calendar', 'stops']),
  notSeen: time('KP1', ['gaps']),
  isolated: time('ST10', ['gaps', 'counters']),
  plannedBusyTime: derived('minutes', ['plannedOperationTime', 'plannedDownTime', 'notSeen'], 'KP1'),
  actualProductionTime: time(
    'KP1',
    ['stops', 'gaps'],
    ['plannedBusyTime', 'setupTime', 'delayTime', 'downTime'],
  ),
  setupTime: time('KP1', ['changeovers', 'stops']),
  delayTime: time('KP1', ['stops', 'gaps'], ['isolated']),
  downTime: time('KP1', ['stops']),
  processingTime: derived('minutes', ['actualProductionTime', 'setupTime'], 'KP1'),
  busyTime: derived('minutes', ['processingTime', 'delayTime'], 'KP1'),
  coverage: derived('share', ['notSeen', 'plannedOperationTime'], 'CV1', ['gaps']),

  // key figures of ISO 22400-2
  idealRate: { unit: 'perMinute', kind: 'set', from: [], records: ['lineFile'], rule: 'KP2' },
  idealTime: derived('minutes', ['producedSeen', 'idealRate'], 'KP2'),
  paceTime: derived('minutes', ['actualProductionTime', 'idealTime'], 'KP2'),
  spoiledTime: derived('minutes', ['idealTime', 'goodTime'], 'KP2'),
  goodTime: derived('minutes', ['idealTime', 'qualityRatio'], 'KP4'),
  availability: derived('share', ['actualProductionTime', 'plannedBusyTime'], 'KP1'),
  effectiveness: derived('share', ['idealTime', 'actualProductionTime'], 'KP2'),
  oee: derived('share', ['availability', 'effectiveness', 'qualityRatio'], 'KP4'),
  nee: derived('share', ['processingTime', 'plannedBusyTime', 'effectiveness', 'qualityRatio'], 'KP4'),
  technicalEfficiency: derived('share', ['actualProductionTime', 'delayTime'], 'KP4'),
  allocationEfficiency: derived('share', ['busyTime', 'plannedBusyTime'], 'KP4'),
  utilizationEfficiency: derived('share', ['actualProductionTime', 'busyTime'], 'KP4'),
  setupRate: derived('share', ['setupTime', 'processingTime'], 'KP4'),
  throughput: derived('perMinute', ['producedSeen', 'busyTime'], 'KP4'),

  // stops and failures
  stops: times(['stops'], 'ST1'),
  ownStops: times(['stops'], 'KP3', ['stops']),
  minorStops: times(['stops', 'lineFile'], 'ST4', ['stops']),
  minorLimit: { unit: 'minutes', kind: 'set', from: [], records: ['lineFile'], rule: 'ST4' },
  shortStops: times(['stops', 'lineFile'], 'ST4', ['stops', 'minorLimit']),
  together: times(['stops'], 'ST3', ['stops']),
  unexplained: times(['stops', 'entries'], 'ST6', ['stops']),
  reasonsFrom: times(['stops', 'entries'], 'ST6', ['stops']),
  sinceStop: lasted(['stops'], 'PR1'),
  stood: lasted(['stops'], 'ST1'),
  outputPause: lasted(['stops', 'counters'], 'ST2'),
  firstFaultAfter: lasted(['stops', 'presses', 'guards'], 'ST3'),
  afterStopBegan: lasted(['stops', 'presses', 'guards'], 'ST3'),
  tries: times(['stops'], 'ST5'),
  ordinaryStops: { unit: 'duration', kind: 'estimate', from: ['stood'], records: ['stops'], rule: 'ST1' },
  failures: times(['stops'], 'KP3', ['ownStops', 'minorStops']),
  mtbf: {
    unit: 'minutes',
    kind: 'estimate',
    from: ['processingTime', 'failures'],
    records: ['stops'],
    rule: 'KP3',
  },
  mtbfOneMore: {
    unit: 'minutes',
    kind: 'estimate',
    from: ['processingTime', 'failures'],
    records: ['stops'],
    rule: 'KP3',
  },
  mttr: { unit: 'minutes', kind: 'estimate', from: ['stood', 'failures'], records: ['stops'], rule: 'KP3' },

  // a station against its own past
  recentRejects: { unit: 'cartons', kind: 'counted', from: ['rejected'], records: ['counters'], rule: 'RJ1' },
  normalRejects: {
    unit: 'cartons',
    kind: 'estimate',
    from: ['rejected'],
    records: ['counters'],
    rule: 'RJ1',
  },
  rejectLimit: {
    unit: 'cartons',
    kind: 'estimate',
    from: ['batchRejects', 'normalRejects'],
    records: ['counters'],
  },
  rejectsLaid: {
    unit: 'cartons',
    kind: 'estimate',
    from: ['rejected'],
    records: ['counters', 'stops'],
    rule: 'AT1',
  },
  unattributed: {
    unit: 'cartons',
    kind: 'estimate',
    from: ['rejectsLaid'],
    records: ['counters'],
    rule: 'AT1',
  },
  rejectsAgainstRuns: {
    unit: 'cartons',
    kind: 'estimate',
    from: ['rejected'],
    records: ['counters'],
    rule: 'NW1',
  },
  rejectsDrift: { unit: 'cartons', kind: 'estimate', from: ['rejected'], records: ['counters'], rule: 'NW2' },
  stopsAgainstRuns: {
    unit: 'times',
    kind: 'estimate',
    from: ['ownStops'],
    records: ['stops', 'counters'],
    rule: 'NW3',
  },
  earlierRuns: times(['counters'], 'NW4'),
  heldRate: {
    unit: 'perThousand',
    kind: 'estimate',
    from: ['stops', 'rejected', 'good'],
    records: ['counters', 'stops', 'entries'],
    rule: 'HE1',
  },
  heldRuns: times(['counters', 'entries'], 'HE1'),
  batches: { unit: 'times', kind: 'counted', from: ['batchRejects'], records: ['counters', 'gaps'] },
  batchRejects: { unit: 'cartons', kind: 'counted', from: ['rejected'], records: ['counters'] },
  adjustmentBook: { unit: 'reading', kind: 'set', from: [], records: ['lineFile', 'entries'], rule: 'BK1' },
  adjustmentOff: derived('reading', ['adjustmentReading', 'adjustmentBook']),
  aroundReading: { unit: 'reading', kind: 'read', from: [], records: ['signals'] },
  normalRange: { unit: 'reading', kind: 'set', from: [], records: ['lineFile'] },
  adjustmentReading: {
    unit: 'reading',
    kind: 'read',
    from: [],
    records: ['signals', 'entries'],
    rule: 'SP1',
  },
  setPointSum: times(['signals', 'entries'], 'SP1', ['adjustmentReading', 'adjustmentBook']),
  setPointRuns: times(['counters', 'entries'], 'SP8'),
  setPointSettings: times(['signals', 'entries'], 'SP8', ['adjustmentReading']),
  setPointLots: times(['entries', 'signals'], 'SP4'),
  setPointCartons: counted('SP8', ['good']),
  setPointRejects: learned('perThousand', ['rejectsLaid', 'setPointRuns']),
  setPointRunStops: times(['stops', 'counters'], 'SP8', ['stops']),
  setPointRecommended: learned('reading', ['setPointCost']),
  setPointLikely: learned('reading', ['setPointRuns', 'setPointSettings']),
  setPointRanWell: learned('reading', ['setPointRuns', 'setPointSettings']),
  setPointCost: learned('cartons', ['setPointRejects', 'setPointRunStops']),
  setPointTeaches: learned('reading', ['setPointLikely']),
  setPointScale: { unit: 'reading', kind: 'set', from: [], records: ['lineFile'] },
  datumOffset: { unit: 'reading', kind: 'set', from: [], records: ['entries'], rule: 'SP3' },

  // stop devices and guards
  presses: times(['presses'], 'PS1'),
  causedStops: times(['presses', 'stops'], 'PS2', ['presses']),
  guardStops: times(['guards', 'stops'], 'PS2'),
  held: lasted(['presses'], 'PS1'),
  untilReset: lasted(['presses'], 'PS1'),
  untilRestart: lasted(['presses', 'stops'], 'PS1'),
  untilFirstGood: lasted(['presses', 'counters'], 'PS1'),
  standstillSeen: {
    unit: 'duration',
    kind: 'estimate',
    from: [],
    records: ['presses', 'signals'],
    rule: 'PS2',
  },
  ranOn: lasted(['guards', 'presses', 'stops'], 'PS5'),
  usedDuring: times(['presses', 'guards', 'stops'], 'PS2', ['presses']),
  orderUncertain: times(['presses', 'guards'], 'PS2', ['presses']),
  noStopCame: times(['presses', 'guards', 'stops'], 'PS2', ['presses']),
  beforeUse: lasted(['presses', 'guards', 'stops'], 'PS2'),
  cameBefore: times(['presses', 'guards', 'stops'], 'PS2', ['presses']),
  middleFirstGood: lasted(['presses', 'counters'], 'PS1', ['untilFirstGood']),
  findings: times(['guards', 'presses', 'entries'], 'PS5', ['ranOn']),
  lastOperated: moment(['presses', 'guards'], 'PS1'),
  lastTested: moment(['entries'], 'PS1'),

  // changeovers
  changeovers: times(['changeovers'], 'CH1'),
  sinceChangeover: lasted(['changeovers'], 'CH2'),
  changeoverTime: lasted(['changeovers'], 'CH2'),
  changeoverFirstGood: lasted(['changeovers', 'counters'], 'CH2'),
  changeoverPhase: lasted(['changeovers', 'stops'], 'CH2'),
  changeoverLost: derived('cartons', ['target', 'good'], 'CH2', ['changeovers', 'counters']),
  changeoverParts: derived('cartons', ['changeoverLost'], 'CH2', ['changeovers', 'stops', 'counters']),
  goodSinceBegin: counted('CH2', ['good']),
  runUpStops: times(['changeovers', 'stops'], 'CH2', ['stops']),
  idleTime: lasted(['calendar', 'stops'], 'CH2'),
  earlierChangeovers: times(['changeovers'], 'CH1', ['changeovers']),
  usualChangeover: {
    unit: 'duration',
    kind: 'estimate',
    from: ['earlierChangeovers', 'changeoverTime', 'changeoverPhase'],
    records: ['changeovers'],
    rule: 'CH2',
  },
  usualLost: {
    unit: 'cartons',
    kind: 'estimate',
    from: ['earlierChangeovers', 'changeoverParts'],
    records: ['changeovers'],
    rule: 'CH2',
  },

  // the calendar
  untilPause: lasted(['calendar'], 'PL1'),
  pauseAllowance: { unit: 'duration', kind: 'set', from: [], records: ['calendar'], rule: 'ST8' },
  pauseOver: lasted(['calendar', 'stops'], 'ST8', ['pauseAllowance']),
  untilShiftEnd: lasted(['calendar'], 'TI5'),

  // blanks and cartons, balanced
  picked: counted('BA1'),
  inPockets: {
    unit: 'cartons',
    kind: 'derived',
    from: ['picked', 'good', 'rejected', 'crushed'],
    records: ['counters'],
    rule: 'BA1',
  },
  takenOut: { unit: 'cartons', kind: 'set', from: [], records: ['entries'], rule: 'BA1' },
  unaccounted: derived('cartons', ['picked', 'good', 'rejected', 'crushed', 'inPockets', 'takenOut'], 'BA1', [
    'counters',
  ]),

  // how far it is seen
  gap: lasted(['gaps'], 'CV1'),
  seenOf: lasted(['gaps'], 'CV1'),
  counterMarks: times(['counters', 'signals'], 'CO3'),
  signals: times(['lineFile', 'signals'], 'SI1'),
  toMend: times(['signals'], 'SI1', ['signals']),
  signalAge: { unit: 'duration', kind: 'timed', from: [], records: ['signals'], rule: 'TI4' },
  clockSet: { unit: 'duration', kind: 'estimate', from: ['clockOffset'], records: ['signals'] },
  readingAge: { unit: 'duration', kind: 'timed', from: [], records: ['signals'] },
  clockOffset: { unit: 'duration', kind: 'timed', from: [], records: ['signals'] },
  samplingGranted: { unit: 'duration', kind: 'read', from: [], records: ['signals'] },
  signalValue: { unit: 'reading', kind: 'read', from: [], records: ['signals'] },
} as const satisfies Readonly<Record<string, FigureDefinition>>;

export type FigureId = keyof typeof FIGURES;
export const FIGURE_IDS = Object.keys(FIGURES) as readonly FigureId[];

/** A definition whose parts are known to be figures. */
export interface Figure extends FigureDefinition {
  readonly from: readonly FigureId[];
}

export function figureOf(id: FigureId): Figure {
  return FIGURES[id] as Figure;
}

/** Whether a text, as of an address, names a figure. */
export function isFigure(text: string): text is FigureId {
  return Object.hasOwn(FIGURES, text);
}
