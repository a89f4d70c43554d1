import { indexOf } from '../../model/fold/lineIndex.ts';
import type { OpenMatter, PressRecord, StopRecord } from '../../model/fold/state.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import { stationRef } from '../../model/past/past.ts';
import { type SafetyPast, safetyPast } from '../../model/past/safetyPast.ts';
import { epochMs, type Span } from '../../model/units/units.ts';
import { at, smallLine } from '../model/smallLine.ts';

const index = indexOf(smallLine());

const overview: PastOverview = {
  past: { kind: 'whole' },
  begun: epochMs(at(0)),
  now: epochMs(at(600)),
  zone: 'Europe/Berlin',
  shifts: [],
  sizes: [],
  stations: index.line.stations.map(({ id }) => stationRef(index, id)!),
  orders: [],
};

const stop: StopRecord = {
  id: 'stop-1',
  begin: at(100),
  end: at(160),
  endSeen: true,
  reason: 51,
  kind: 'machine',
  class: 'stopped',
  station: 'fold',
  from: 'state',
  attempt: 1,
  episode: 'stop-1',
  pauseRule: null,
  allowance: 0 as Span,
  lastGoodBefore: at(99),
  firstGood: at(163),
  cartonsBefore: 99,
  size: 'sachet-20',
  order: null,
  chain: [],
  lost: 60,
  answer: null,
  notNowAt: null,
};

function press(device: number, change: Partial<PressRecord>): PressRecord {
  return {
    id: `press-${device}`,
    device,
    pressed: at(104),
    released: at(140),
    reset: at(150),
    restarted: at(160),
    firstGood: at(163),
    role: 'during',
    known: 'edge',
    stop: 'stop-1',
    candidate: null,
    ...change,
  };
}

const finding: OpenMatter = {
  id: 'guard-door-1',
  kind: 'guardOpenRunning',
  of: 'door',
  at: at(400),
  to: at(404),
  spent: 40_000_000 as Span,
};

const safety: SafetyPast = safetyPast({
  index,
  from: at(0),
  to: at(600),
  since: at(0),
  earlier: [],
  begun: at(0),
  stops: [stop],
  presses: [press(0, { role: 'caused', pressed: at(99.9) }), press(1, {})],
  guards: [
    { at: at(0), guard: 'door', open: false, ran: false },
    { at: at(400), guard: 'door', open: true, ran: true },
    { at: at(404), guard: 'door', open: false, ran: false },
  ],
  gaps: [],
  findings: [finding],
  open: new Set([finding.id]),
  olderFindings: 0,
  entries: [],
  device: undefined,
  most: 20,
  standstills: new Map(),
});

/** What the gateway answers to the Safety stops screen, by address; undefined where there is nothing. */
export function safetyAnswers(path: string): unknown {
  return path.endsWith('/past') ? overview : path.endsWith('/past/safety') ? safety : undefined;
}
