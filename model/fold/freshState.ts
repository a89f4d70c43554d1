import { freshAttribution } from '../attribution/attribution.ts';
import type { Instant } from '../units/units.ts';
import { openAccount } from './account.ts';
import { freshFlow } from './flow.ts';
import type { LineIndex } from './lineIndex.ts';
import type { FoldState } from './state.ts';

const NEVER = -1 as Instant;

/** A line of which nothing is known yet. The first change that is of the line itself opens the first shift. */
export function freshState(index: LineIndex): FoldState {
  const { line } = index;
  const empty = <T>(value: T) => line.signals.map(() => value);
  return {
    at: NEVER,
    signal: -1,
    heardAt: NEVER,
    leads: {},
    values: empty(null),
    known: empty(0),
    ats: empty(NEVER),
    judged: false,
    producing: false,
    since: NEVER,
    ranSince: NEVER,
    lastCycle: NEVER,
    spokeAt: NEVER,
    lastGood: NEVER,
    cartonsSinceRestart: 0,
    size: null,
    crew: line.loading.crew,
    crewSaid: null,
    targets: [],
    lot: null,
    order: null,
    orderNext: null,
    orders: [],
    shift: {
      shift: null,
      from: NEVER,
      until: 0 as Instant,
      account: openAccount(line.stations.length, NEVER, 0, index.slowKey),
      minutes: [],
      gaps: [],
      notLoadedByPosition: line.loading.positions.map(() => 0),
      pausesUsed: [],
      rejects: 0,
    },
    stops: [],
    presses: [],
    edgesSinceTwin: line.devices.map(() => 0),
    changeover: null,
    lastChangeover: null,
    changeovers: [],
    gap: null,
    lastGap: null,
    goodsInRunUp: [],
    tally: index.tallied.map(() => 0),
    flow: freshFlow(index),
    attribution: freshAttribution(index.attribution),
    minuteUntil: NEVER,
    outcomes: [],
    notLoaded: line.loading.positions.map(() => ({ total: 0, at: [] })),
    loadingPockets: 0,
    runCartons: 0,
    cartonsBySize: {},
    stations: line.stations.map(() => ({ rejectedAt: [], rejectsBySize: {}, outSince: null })),
    happenings: [],
    answers: [],
    watched: [],
    open: [],
    openDropped: 0,
    counterMarks: [],
    going: null,
    notices: [],
    noticeKeys: {},
    noticeSettings: null,
    notes: [],
    said: [],
    entryIds: [],
  };
}
