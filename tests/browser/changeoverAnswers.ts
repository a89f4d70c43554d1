import { indexOf } from '../../model/fold/lineIndex.ts';
import type { ChangeoverRecord } from '../../model/fold/state.ts';
import { changeoversPast } from '../../model/past/changeoversPast.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import { stationRef } from '../../model/past/past.ts';
import type { ServerReading } from '../../model/past/serverPanels.ts';
import { type SignalReading, signalMeanings } from '../../model/past/signalSheets.ts';
import { epochMs } from '../../model/units/units.ts';
import { at, goods, running, smallLine } from '../model/smallLine.ts';
import { recorded } from '../model/past/recorded.ts';

const line = smallLine();
const index = indexOf(line);
const overview: PastOverview = {
  past: { kind: 'whole' },
  begun: epochMs(at(-20_000)),
  now: epochMs(at(1800)),
  zone: 'Europe/Berlin',
  shifts: [],
  sizes: line.sizes.map(({ id, name }) => ({ id, name })),
  stations: line.stations.map(({ id }) => stationRef(index, id)!),
  orders: [],
};

const told = recorded(line, [
  ...running(),
  ...goods(1, 300, 1),
  [300.5, 'state', 2],
  [300.5, 'reason', 202],
  [301, 'mode', 4],
  [330, 'size', 48],
  [600, 'state', 6],
  [610, 'good', 303],
  [620, 'state', 2],
  [700, 'mode', 1],
  [700, 'state', 6],
  [700, 'reason', 0],
  ...goods(702, 730, 304),
  [731, 'state', 11],
  [731, 'reason', 51],
  [791, 'state', 6],
  [791, 'reason', 0],
  ...goods(793, 1700, 333),
]);
const [newest] = told.of('changeover');
export const earlier = [-4000, -8000, -12_000].map(
  (begin): ChangeoverRecord => ({
    ...newest!,
    begin: at(begin),
    trialBegan: at(begin + 200),
    productionBack: at(begin + 300),
    firstGood: at(begin + 301),
    atRate: at(begin + 900),
    end: at(begin + 900),
  }),
);
export const past = (open?: string) =>
  changeoversPast({
    index,
    from: at(-20_000),
    to: at(1800),
    now: at(1800),
    changeovers: [...earlier.toReversed(), newest!],
    near: (from, to) => ({
      minutes: told.of('minute').filter((minute) => minute.at >= from && minute.at < to),
      stops: told.of('stop'),
      gaps: [],
    }),
    gaps: [],
    begun: at(-20_000),
    alike: () => [...earlier.toReversed(), newest!],
    remember: (_key, _to, make) => make(),
    crew: () => [],
    numbers: () => ({ told: [], toBook: [], same: [], unknown: [], movedAgain: 0 }),
    filter: {},
    open,
    most: 12,
  });

const meanings = signalMeanings(index);
const readings: readonly SignalReading[] = meanings.map(({ id, role }) => ({
  id,
  server: 'plc',
  tag: `Tag.${id}`,
  value: role === 'stopDevice' || role === 'guard' ? false : 1,
  quality: id === 'good' ? 'uncertain' : 'good',
  ageMs: 4200,
  samplingMs: id === 'circuit' ? 50 : 0,
  queue: 100,
  twin: role === 'stopDevice' ? id === 'panel' : null,
  missable: id === 'circuit' ? 'It has no counted twin: a press may be missed.' : null,
  trouble: null,
}));
const server: ServerReading = {
  id: 'plc',
  endpoint: 'opc.tcp://127.0.0.1:4840',
  security: 'signAndEncrypt',
  up: false,
  since: epochMs(at(1700)),
  lastDataAt: epochMs(at(1700)),
  clockOffsetMs: 2400,
  clockSetMs: -60_000,
  fingerprint: 'E8310C5D9247AF6B03BE71D84A9F26C55E80F4AA',
  trouble: {
    what: 'Its certificate is not trusted.',
    why: 'Nobody has yet.',
    mend: 'Compare it, then trust it.',
  },
};

const ANSWERS: Readonly<Record<string, unknown>> = {
  past: overview,
  'past/changeovers': past(),
  'past/signals': meanings,
  signals: readings,
  servers: [server],
};

/** What the gateway answers to the Changeovers and Signals screens, by address; undefined where there is nothing. */
export function changeoverAnswers(path: string): unknown {
  return ANSWERS[path.replace(/^\/api\/lines\/[^/]+\//, '')];
}
