import { many } from './english-say.ts';

/** What the rows of a report's file are called, and what their remarks say. */
export const reportFileWords = {
  columns: ['part', 'what', 'where', 'value', 'unit', 'lower', 'upper', 'from', 'to', 'remark'],
  parts: {
    report: 'report',
    figure: 'figure',
    lost: 'cartons lost',
    station: 'station',
    byFault: 'stops by first fault',
    stop: 'stop',
    use: 'use of a stop device',
    safety: 'safety',
    changeover: 'changeover',
    unseen: 'not seen',
    note: 'note',
    handedOver: 'handed over',
    signed: 'signed',
  },
  units: { cartons: 'cartons', perThousand: 'in 1,000', seconds: 's', times: 'times' },
  report: { span: 'period', goesOn: 'it goes on', sizes: 'sizes', made: 'made' },
  model: (model: string, position: number) => `model ${model}, tape up to ${position}`,
  lost: { possible: 'possible', total: 'all of them', none: 'at no station' },
  stations: {
    inThousand: (kind: string) => `${kind} in 1,000`,
    usual: (n: number) => `usual ${n.toFixed(1)}`,
    thin: 'past too thin',
    more: 'more than its runs differ by',
    likely: 'rejects as they are likely',
    estimate: 'an estimate',
    lost: 'cartons lost',
  },
  stops: (n: number) => `${n} ${many(n, 'stop', 'stops')}`,
  carried: 'went on from before it, and is no stop of it',
  endNotSeen: 'end not seen',
  safety: {
    uses: 'uses of stop devices',
    caused: 'uses that stopped the line',
    ranOn: 'open or pressed while it ran',
    notExplained: 'open or pressed while it ran, not explained',
  },
  /** What a list had no room for. */
  rest: {
    faults: (n: number) => `${n} more ${many(n, 'kind', 'kinds')}`,
    stops: 'all shorter ones',
    uses: 'earlier uses',
    changeovers: 'earlier changeovers',
    unseen: 'shorter times',
    notes: 'earlier notes',
    remark: 'no row each: the list holds no more',
  },
} as const;
